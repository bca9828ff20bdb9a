#include "job/job_reading.h"

#include <map>

namespace lobewright {
namespace {

/// A lobe stands either at an angle or where its cylinder and valve put it.
void read_angle(JobTable& table, LobeEntry& lobe) {
    lobe.at = table.angle<ShaftAngle>("at", any_direction);
    lobe.cylinder = table.whole_number("cylinder", 1, 64).value_or(0);
    const auto valve = table.choose<Valve>("valve", {"inlet", "exhaust"});
    lobe.valve = valve.value_or(Valve::inlet);
    const bool has_engine_keys = table.has("cylinder") || table.has("valve");
    if (table.has("at")) {
        if (!has_engine_keys) return;
        table.complain("at", "excluded-key", "the lobe has both 'at' and a cylinder or valve",
                       "give 'at', or cylinder and valve for the engine's timing to place it");
        lobe.cylinder = 0;
    } else if (!has_engine_keys) {
        table.missing("at", "give it, or cylinder and valve for the engine's timing to place it");
    } else {
        if (!table.has("cylinder")) table.missing("cylinder", "say which cylinder, from 1");
        if (!table.has("valve")) table.missing("valve", "add valve = \"inlet\" or \"exhaust\"");
    }
}

/// The engine must have what the lobe asks of it.
void check_engine(JobTable& table, const LobeEntry& lobe) {
    const auto& engine = table.reading().job.engine;
    if (lobe.cylinder == 0) return;
    if (!engine) {
        if (table.reading().root.find("engine") == nullptr) {
            table.complain("cylinder", "no-engine", "there is no [engine] to place the lobe",
                           "add [engine] with its timing, or give the lobe 'at'");
        }
        return;
    }
    if (lobe.cylinder > engine->cylinders) {
        table.complain("cylinder", "no-cylinder",
                       "the engine has no cylinder " + std::to_string(lobe.cylinder),
                       "give 1" + (engine->cylinders > 1 ? " to " + std::to_string(engine->cylinders) : "") +
                           ", or mend engine.cylinders");
    }
    const std::string valve = lobe.valve == Valve::inlet ? "inlet" : "exhaust";
    const bool timed = table.reading().root.find("engine")->find(valve) != nullptr;
    if (table.has("valve") && !timed) {
        table.complain("valve", "no-timing", "[engine] has no timing for the " + valve + " valve",
                       lobe.valve == Valve::inlet
                           ? "add inlet = { opens_before_tdc, closes_after_bdc, clearance }"
                           : "add exhaust = { opens_before_bdc, closes_after_tdc, clearance }");
    }
}

/// What of a profile the timing card is to settle; nothing where it says all itself.
std::optional<std::string> from_the_card(const Profile& profile, const Node& written) {
    if (std::holds_alternative<ArcsProfile>(profile)) {
        const bool both_radii =
            written.find("flank_radius") != nullptr && written.find("nose_radius") != nullptr;
        if (written.find("action_angle") == nullptr && !both_radii) return "action_angle";
    }
    const auto* motion = std::get_if<MotionProfile>(&profile);
    const auto* fullest = std::get_if<FullestProfile>(&profile);
    if ((motion != nullptr && motion->opening_share) || (fullest != nullptr && fullest->opening_share))
        return "opening_angle and closing_angle";
    return std::nullopt;
}

/// A profile without angles of its own takes them from the valve's timing.
void check_angles(JobTable& table, const LobeEntry& lobe) {
    const auto& profiles = table.reading().job.profiles;
    const auto found = profiles.find(lobe.profile);
    if (found == profiles.end() || table.has("cylinder")) return;
    const auto lacks =
        from_the_card(found->second, *table.reading().root.find("profile")->find(lobe.profile));
    if (!lacks) return;
    table.complain("profile", "no-action-angle",
                   "the profile '" + lobe.profile + "' has no " + *lacks + " and the lobe no cylinder",
                   "give the profile " + std::string(*lacks == "action_angle" ? "an " : "its ") + *lacks +
                       ", or the lobe a cylinder and valve to take " +
                       (*lacks == "action_angle" ? "it" : "them") + " from the timing");
}

LobeEntry read_lobe(JobTable& table) {
    LobeEntry lobe;
    lobe.name = table.required_string("name");
    lobe.profile = table.required_string("profile");
    lobe.follower = table.required_string("follower");
    check_reference(table, "profile", lobe.profile, "profile");
    check_reference(table, "follower", lobe.follower, "follower");
    read_angle(table, lobe);
    check_engine(table, lobe);
    check_angles(table, lobe);
    lobe.z = table.required_length("z", any_length);
    lobe.width = table.required_length("width", positive_length);
    lobe.repeat = table.whole_number("repeat", 1, 64).value_or(1);
    return lobe;
}

}  // namespace

void read_lobes(JobTable& file) {
    if (!file.has("lobe")) file.missing("lobe", "add at least one [[lobe]]");
    std::map<std::string, Place> first_of_name;
    read_list(file, "lobe", [&](JobTable& table) {
        LobeEntry lobe = read_lobe(table);
        const Place place = file.reading().job.place_of(table.path_of("name"));
        const auto [first, is_new] = first_of_name.emplace(lobe.name, place);
        if (!is_new && !lobe.name.empty()) {
            table.complain(
                "name", "doubled-name",
                "there is a lobe '" + lobe.name + "' already, in line " + std::to_string(first->second.line),
                "give each lobe a name of its own");
        }
        file.reading().job.lobes.push_back(std::move(lobe));
    });
}

}  // namespace lobewright
