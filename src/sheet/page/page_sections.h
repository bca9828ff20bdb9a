/// The page's sections, by what the job has.
#pragma once

#include "sheet/page/html_text.h"

#include <lobewright/sheet.h>

namespace lobewright::sheet {

struct PageView {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const SheetParts& parts;
    HtmlText& html;
};

void put_cautions(const PageView& page);
void put_shaft(const PageView& page);
/// Valve events, where the engine has them.
void put_timing(const PageView& page);
void put_ways(const PageView& page);
/// Lobes of one profile and one follower together: drawing, motion, read-out.
void put_lobes(const PageView& page);
/// Settings for each hand method, and its steps at the bench.
void put_by_hand(const PageView& page);
/// Where there is one: its proof, its plot, its text.
void put_program(const PageView& page);
void put_findings(const PageView& page);

}  // namespace lobewright::sheet
