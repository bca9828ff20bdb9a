#include "cli/named.h"

#include "cli/load.h"

#include <algorithm>

namespace lobewright::cli {

Outcome<std::size_t> find_lobe(const std::vector<SolvedLobe>& lobes, const std::string& name,
                               const std::string& command) {
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : lobes)
        names.push_back(lobe.name);
    const Place place{"lobewright --lobe"};
    if (name.empty() && lobes.size() == 1) return std::size_t{0};
    if (name.empty()) {
        Diagnostic complaint = unknown_name("lobe", "", names, {"lobewright"});
        complaint.code = "missing-argument";
        complaint.what = "the job has several lobes: " + command + " wants --lobe NAME";
        return complaint;
    }
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return unknown_name("lobe", name, names, place);
    return static_cast<std::size_t>(found - names.begin());
}

Outcome<std::string> find_method(const Job& job, const std::string& name, const std::string& command) {
    std::vector<std::string> names;
    for (const auto& [each, method] : job.hand)
        names.push_back(each);
    if (names.empty()) return unmet_needs(job, Purpose::index, name);
    if (name.empty() && names.size() == 1) return names.front();
    if (job.hand.contains(name)) return name;
    Diagnostic complaint = unknown_name("method", name, names, {"lobewright --method"});
    if (!name.empty()) return complaint;
    complaint.code = "missing-argument";
    complaint.what = "the job has several hand methods: " + command + " wants --method NAME";
    complaint.place = {"lobewright"};
    return complaint;
}

}  // namespace lobewright::cli
