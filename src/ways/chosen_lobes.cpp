#include <lobewright/chosen_lobes.h>

#include <algorithm>

namespace lobewright {
namespace {

bool is_among(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

/// Places of "lobe[i]" and of its keys under the indices that the lobes have when the others are gone.
void keep_places(Job& job, const std::vector<std::string>& names) {
    std::map<std::string, Place, std::less<>> kept;
    const std::string list = "lobe[";
    std::vector<std::string> renamed;  // by the old index; empty: gone
    std::size_t next = 0;
    for (const LobeEntry& lobe : job.lobes)
        renamed.push_back(is_among(names, lobe.name) ? list + std::to_string(next++) : std::string());
    for (const auto& [path, place] : job.places) {
        if (!path.starts_with(list)) {
            kept.emplace(path, place);
            continue;
        }
        const std::size_t end = path.find(']');
        const auto index = static_cast<std::size_t>(std::stoul(path.substr(list.size(), end - list.size())));
        if (index < renamed.size() && !renamed[index].empty())
            kept.emplace(renamed[index] + path.substr(end), place);
    }
    job.places = std::move(kept);
}

double standing_diameter(const Job& job, const SolvedLobe& lobe) {
    const auto standing = job.stock.of(lobe.name);
    if (!standing) return *job.shaft.blank();
    return std::min(*job.shaft.blank(), 2.0 * (lobe.contour.largest_radius() + standing->most()));
}

}  // namespace

ChosenLobes chosen_lobes(const Job& job, const std::vector<SolvedLobe>& lobes,
                         const std::vector<std::string>& names) {
    ChosenLobes chosen{job, {}, {}};
    for (const SolvedLobe& lobe : lobes) {
        if (is_among(names, lobe.name)) {
            chosen.lobes.push_back(lobe);
            continue;
        }
        chosen.job.shaft.journals.push_back({lobe.z, lobe.width, standing_diameter(job, lobe)});
        chosen.left_out.push_back(lobe.name);
    }
    keep_places(chosen.job, names);
    std::erase_if(chosen.job.lobes, [&](const LobeEntry& lobe) { return !is_among(names, lobe.name); });
    return chosen;
}

std::vector<std::string> lobes_from(const std::vector<SolvedLobe>& lobes, const std::string& name) {
    const auto first =
        std::find_if(lobes.begin(), lobes.end(), [&](const SolvedLobe& lobe) { return lobe.name == name; });
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : lobes) {
        if (first != lobes.end() && lobe.z >= first->z) names.push_back(lobe.name);
    }
    return names;
}

}  // namespace lobewright
