#include "job/job_table.h"

namespace lobewright {

JobTable::JobTable(const Node& table, std::string path, JobReading& reading)
    : TableReader(table, std::move(path), reading.complaints), reading_(reading) {}

std::optional<double> JobTable::length(std::string_view key, NumberRange range) {
    const double unit = mm_per(reading_.job.units);
    range.lowest /= unit;
    range.highest /= unit;
    const auto value = number(key, range);
    return value ? std::optional(*value * unit) : std::nullopt;
}

double JobTable::length_or(std::string_view key, double fallback, NumberRange range) {
    return length(key, range).value_or(fallback);
}

double JobTable::required_length(std::string_view key, NumberRange range) {
    if (!has(key)) missing(key);
    return length(key, range).value_or(0.0);
}

std::string JobTable::required_string(std::string_view key) {
    const auto text = string(key);
    if (!has(key)) missing(key);
    if (text && text->empty())
        complain(key, "empty", "'" + path_of(key) + "' is empty", "write something in it");
    return text.value_or("");
}

void JobTable::refuse_many(const Node& tables, const std::string& path, std::size_t most) {
    if (tables.members.size() <= most) return;
    complain_at(tables.members[most], "too-many",
                "the job has " + std::to_string(tables.members.size()) + " of '" + path + "', and " +
                    std::to_string(most) + " are the most",
                "part the job in several");
}

}  // namespace lobewright
