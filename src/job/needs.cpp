#include "base/document.h"
#include "base/text/typed_length.h"
#include "job/complaint.h"

#include <lobewright/needs.h>
#include <lobewright/operations.h>

#include <algorithm>

namespace lobewright {
namespace {

/// "[shaft] has no 'blank_diameter'", as the reader says it of keys that every job must have.
Diagnostic missing(const Job& job, const std::string& table, const std::string& key,
                   const std::string& remedy) {
    const std::string lacks =
        table.empty() ? "the job has no [" + key + "]" : "[" + table + "] has no '" + key + "'";
    return bad_key(job, table.empty() ? key : table + '.' + key, "missing-key", lacks, remedy);
}

void need_blank(const Job& job, Diagnostics& unmet) {
    if (job.shaft.blank()) return;
    unmet.push_back(missing(job, "shaft", "blank_diameter",
                            "add it: the diameter of the stock over the lobes before cutting"));
}

/// "add it, or name one of "lathe", "head""
template <class Tables>
std::string add_or_name(const Tables& tables) {
    std::vector<std::string> names;
    for (const auto& [name, table] : tables)
        names.push_back(name);
    return names.empty() ? "add it" : "add it, or name one of " + listed(names);
}

/// Whether the cutter that `key` names is there.
bool need_cutter(const Job& job, const std::string& key, const std::string& name, Diagnostics& unmet) {
    if (job.cutters.contains(name)) return true;
    unmet.push_back(
        bad_key(job, key, "unknown-cutter", "there is no [cutter." + name + "]", add_or_name(job.cutters)));
    return false;
}

Diagnostics needs_of_cutting(const Job& job) {
    Diagnostics unmet;
    if (!job.machine) {
        unmet.push_back(missing(job, "", "machine",
                                "add it, with its post, cutter_axis and rotary_positive; to cut by hand, add "
                                "a [hand] method and ask for `index`"));
    }
    if (!job.cut) {
        unmet.push_back(
            missing(job, "", "cut", "add it, with cutter, tolerance, surface_feed and spindle_speed"));
    }
    need_blank(job, unmet);
    if (!job.cut || !need_cutter(job, "cut.cutter", job.cut->cutter, unmet) || !job.machine) return unmet;
    if (const auto unfit = unfit_cutter(job, job.cutters.find(job.cut->cutter)->second))
        unmet.push_back(*unfit);
    return unmet;
}

/// Of all operations, or of the one at hand; what several lack is told once.
Diagnostics needs_of_operations(const Job& job) {
    if (job.operations.empty() || !job.operation.empty()) return needs_of_cutting(job);
    Diagnostics all;
    for (const Job& one : jobs_of_operations(job)) {
        for (const Diagnostic& unmet : needs_of_cutting(one)) {
            const bool told = std::any_of(all.begin(), all.end(), [&](const Diagnostic& each) {
                return each.what == unmet.what && each.place.line == unmet.place.line;
            });
            if (!told) all.push_back(unmet);
        }
    }
    return all;
}

Diagnostics needs_of_method(const Job& job, const std::string& name) {
    if (job.hand.empty()) return {missing(job, "", "hand", "add a method to it, such as [hand.head]")};
    const auto found = job.hand.find(name);
    if (found == job.hand.end()) return {missing(job, "", "hand." + name, add_or_name(job.hand))};
    const HandMethod& method = found->second;
    const std::string table = "hand." + name;
    Diagnostics unmet;
    if (method.kind == HandKind::offset_fixture) {
        need_blank(job, unmet);
        return unmet;
    }
    if (method.dial == DialReading::depth) need_blank(job, unmet);  // its dial counts from the bar's outside
    if (method.cutter_axis == CutterAxis::parallel) need_cutter(job, table + ".cutter", method.cutter, unmet);
    if (!method.cusp && !method.step)
        unmet.push_back(
            missing(job, table, "cusp", "give it (the highest ridge to leave), or step in degrees"));
    return unmet;
}

/// The rounded part of a mill's flutes, counted from its tip.
double rounded_end(const Cutter& cutter) {
    return cutter.kind == CutterKind::ball_nose ? cutter.diameter / 2.0 : cutter.corner_radius;
}

enum class Unfit { disc_by_its_end, unknown_flutes, no_straight_flutes };

std::optional<Unfit> unfit(CutterAxis axis, const Cutter& cutter) {
    const bool disc = cutter.kind == CutterKind::disc;
    if (axis == CutterAxis::radial) return disc ? std::optional(Unfit::disc_by_its_end) : std::nullopt;
    if (disc) return std::nullopt;
    if (!cutter.flute_length) return Unfit::unknown_flutes;
    if (axis == CutterAxis::parallel || *cutter.flute_length > rounded_end(cutter)) return std::nullopt;
    return Unfit::no_straight_flutes;
}

Diagnostics needs_of_installing(const Job& job) {
    if (job.engine) return {};
    return {missing(job, "", "engine", "add it: crank degrees are the engine's")};
}

}  // namespace

bool can_cut(CutterAxis axis, const Cutter& cutter) {
    return !unfit(axis, cutter);
}

std::optional<Diagnostic> unfit_cutter(const Job& job, const Cutter& cutter) {
    const std::string key = "cutter." + job.cut->cutter;
    const auto found = unfit(job.machine->cutter_axis, cutter);
    if (!found) return std::nullopt;
    if (found == Unfit::disc_by_its_end) {
        return refusal(job, key, "cutter-held-so",
                       "a disc cuts with its rim, which does not face the shaft when its axis is radial",
                       "set cutter_axis = \"parallel\" or \"tangential\", or name an end mill");
    }
    if (found == Unfit::unknown_flutes) {
        return missing(job, key, "flute_length",
                       "add the length of its cutting edges: here it cuts with its side");
    }
    return refusal(
        job, key + ".flute_length", "no-straight-flutes",
        "the flutes, " + length_words(*cutter.flute_length, job.units) + " long, are all rounded end",
        "use a cutter whose flutes are longer than " + length_words(rounded_end(cutter), job.units));
}

Diagnostics unmet_needs(const Job& job, Purpose purpose, std::string_view method) {
    switch (purpose) {
        case Purpose::cut:
        case Purpose::prove:
            return needs_of_operations(job);
        case Purpose::index:
            return needs_of_method(job, std::string(method));
        case Purpose::installed:
            return needs_of_installing(job);
    }
    return {};
}

}  // namespace lobewright
