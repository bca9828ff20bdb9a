/// Comma-separated values (RFC 4180, but lines end as everywhere else).
#pragma once

#include <string>
#include <vector>

namespace lobewright {

/// A field, in quotes where it needs them.
std::string csv_field(const std::string& text);
/// A line of fields with its end.
std::string csv_line(const std::vector<std::string>& fields);

}  // namespace lobewright
