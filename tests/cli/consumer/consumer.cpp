// Solves the one lobe of a job that stands here as text, and tells where its valve would start to move.
#include <lobewright/job_file.h>
#include <lobewright/lobe.h>

#include <iostream>

namespace {

constexpr const char* job_text = R"(
layout = 1
[job]
title = "a consumer's own lobe"
units = "mm"
[shaft]
turns = "ccw"
[profile.only]
shape = "arcs"
base_radius = 6.0
lift = 2.0
action_angle = 120.0
flank_radius = 30.0
[follower.tappet]
kind = "flat"
[[lobe]]
name = "only"
profile = "only"
follower = "tappet"
at = 0.0
z = 10.0
width = 6.0
)";

lobewright::Outcome<std::string> no_neighbour(const std::string& path) {
    return lobewright::Diagnostic{lobewright::Fault::unreadable,
                                  lobewright::Severity::error,
                                  "no-files",
                                  path + " is not here",
                                  "don't name it",
                                  {}};
}

}  // namespace

int main() {
    const auto job = lobewright::read_job(job_text, "consumer.toml", no_neighbour);
    if (!job) {
        for (const auto& each : job.diagnostics())
            std::cout << to_text(each) << '\n';
        return 1;
    }
    const auto lobes = lobewright::solve_lobes(*job);
    if (!lobes || lobes->size() != 1) return 1;
    const double opens = lobewright::events_at(lobes->front().motion, 0.0).opens.degrees();
    std::cout << "leaves the base circle at " << opens << " degrees of cam angle\n";
    return opens < 0.0 && opens > -90.0 ? 0 : 1;
}
