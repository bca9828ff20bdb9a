/// A report as members of a JSON text, for those who have more to say in it.
#pragma once

#include "base/text/json_text.h"

#include <lobewright/soundness.h>

namespace lobewright::profile {

/// All of a report but its findings, into the object that is open.
void put_report(JsonText& json, const Job& job, const JobReport& report);
/// The members of one finding, into the object that is open.
void put_finding(JsonText& json, const Diagnostic& finding);

}  // namespace lobewright::profile
