// What `check` says of a way to cut is what the command that does the work makes of it.
#include "catch.h"
#include "every_command.h"
#include "program.h"
#include "random_job_text.h"
#include "trials.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

using nlohmann::json;

namespace {

bool warns(const json& findings, const std::string& way) {
    return std::any_of(findings.begin(), findings.end(), [&](const json& finding) {
        return finding["way"] == way && finding["severity"] == "warning";
    });
}

/// Ridges, flanks and events as `index` prints them, near enough to the design.
bool near_enough(const json& index) {
    return std::all_of(index["finish"].begin(), index["finish"].end(), [](const json& lobe) {
        return lobe["highest_ridge"] <= 0.05 && lobe["proudest"] <= 0.05 && lobe["deepest"] >= -0.05 &&
               std::abs(lobe["opens_late"].get<double>()) <= 2.0 &&
               std::abs(lobe["closes_late"].get<double>()) <= 2.0;
    });
}

bool any_warning(const json& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const json& finding) { return finding["severity"] == "warning"; });
}

void check_hand(const json& check, const json& way, const std::string& job) {
    const std::string name = way["name"], verdict = way["verdict"];
    const CommandRun index = run_in_process({"index", job, "--method", name, "--format", "json"});
    INFO(index.words << ": exit code " << index.exit_code() << ", check says " << verdict << '\n'
                     << index.said());
    CHECK((verdict == "no") == (index.exit_code() != 0));
    CHECK((verdict == "but") <= warns(check["findings"], name));
    if (!index.result.text) {
        CHECK(way["cuts"].is_null());
        return;
    }
    const json plan = json::parse(*index.result.text);
    CHECK(way["cuts"] == plan["settings"].size());
    if (verdict == "no") return;
    CHECK((verdict == "yes") == (near_enough(plan) && !any_warning(plan["findings"])));
    if (!near_enough(plan)) CHECK(any_warning(plan["findings"]));
}

std::ptrdiff_t warnings(const CommandRun& run) {
    return std::count_if(run.result.messages.begin(), run.result.messages.end(),
                         [](const auto& each) { return each.severity == lobewright::Severity::warning; });
}

void check_machine(const json& check, const json& way, const std::string& job) {
    const std::string name = way["name"], verdict = way["verdict"];
    const CommandRun cut = run_in_process({"cut", job});
    INFO(cut.words << ": exit code " << cut.exit_code() << ", check says " << verdict << '\n');
    CHECK((verdict == "no") == (cut.exit_code() != 0));
    CHECK((verdict == "no") == !cut.result.text.has_value());
    // What the reading asks about, cut and table tell alike.
    const CommandRun table = run_in_process({"table", job, "--lobe", "lobe 1"});
    const bool warned = warnings(cut) > warnings(table);
    if (verdict != "no") CHECK((verdict == "but") == warned);
    CHECK((verdict == "but") <= warns(check["findings"], name));
    CHECK(way["minutes"].is_null() == (verdict == "no"));
}

}  // namespace

TEST_CASE("over random jobs check's verdicts are those of index and of cut") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    std::map<std::string, int> seen;
    for (unsigned seed = 1; seed <= static_cast<unsigned>(trials(40)); ++seed) {
        const std::string text = RandomJobText(seed).fair();
        write_file(job, text);
        INFO("seed " << seed << '\n' << text);
        const CommandRun run = run_in_process({"check", job, "--json"});
        if (!run.result.text) continue;
        const json check = json::parse(*run.result.text);
        const std::size_t at = text.find("[cut]\ncutter = \"") + 16;
        const std::string cutter = text.substr(at, text.find('"', at) - at);
        for (const json& way : check["ways"]) {
            ++seen[way["kind"].get<std::string>() + ' ' + way["verdict"].get<std::string>()];
            if (way["kind"] == "hand") check_hand(check, way, job);
            if (way["name"] == cutter) check_machine(check, way, job);
        }
    }
    for (const char* each : {"hand yes", "hand but", "hand no", "machine yes", "machine no"}) {
        INFO(each << ": " << seen[each]);
        if (at_full_speed) CHECK(seen[each] >= 3);
    }
}

TEST_CASE("check fails where the cutter that [cut] asks for can't cut the lobes, whatever else can") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    for (unsigned seed = 1; seed <= 20; ++seed) {
        write_file(job, RandomJobText(seed).fair());
        INFO("seed " << seed);
        const CommandRun check = run_in_process({"check", job, "--json"});
        if (check.result.text && run_in_process({"cut", job}).exit_code() != 0) CHECK(check.exit_code() != 0);
    }
}
