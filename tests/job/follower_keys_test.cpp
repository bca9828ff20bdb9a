#include "catch.h"
#include "job_text.h"

using namespace lobewright;
using namespace job_text;

namespace {

std::string complaint(const std::string& text) {
    return complaints(read(text));
}

}  // namespace

TEST_CASE("a face may be out of square by up to thirty degrees") {
    const auto with = [](const std::string& tilt) {
        return added(whole_job(), "follower.tappet", "face_tilt = " + tilt);
    };
    CHECK_NEAR(read(with("-12.5"))->followers.at("tappet").face_tilt.degrees(), -12.5, 1e-12);
    CHECK(read(with("30")).ok());
    for (const char* bad : {"30.001", "-31", "\"5\""})
        CHECK_FALSE(read(with(bad)).ok());
    CHECK_THAT(complaint(added(whole_job(), "follower.rocker", "face_tilt = 5")),
               ContainsSubstring("a roller follower has no 'face_tilt': remove it"));
}

TEST_CASE("a pivoted follower has a radius, or a flat pad with its depth") {
    const std::string flat =
        added(unset(whole_job(), "follower.finger", "radius"), "follower.finger", "pad_depth = -2.5");
    const auto job = read(flat);
    INFO(complaints(job));
    REQUIRE(job.ok());
    CHECK(*job->followers.at("finger").pad_depth == -2.5);
    CHECK(job->followers.at("finger").has_flat_face());
    CHECK_FALSE(read(whole_job())->followers.at("finger").has_flat_face());
    CHECK(read(whole_job())->followers.at("tappet").has_flat_face());
    CHECK_THAT(complaint(added(whole_job(), "follower.finger", "pad_depth = 2")),
               ContainsSubstring("radius and pad_depth are both given: give radius for a roller"));
    CHECK_THAT(complaint(unset(whole_job(), "follower.finger", "radius")),
               ContainsSubstring("[follower.finger] has no 'radius'"));
    CHECK_THAT(complaint(added(whole_job(), "follower.tappet", "pad_depth = 2")),
               ContainsSubstring("a flat follower has no 'pad_depth': remove it"));
}

TEST_CASE("a rocker's curve is pairs of lifts in the job's units, from 0 and only rising") {
    const std::string bare = unset(whole_job(), "follower.tappet", "valve_ratio");
    const auto with = [&](const std::string& points) {
        return added(bare, "follower.tappet", "valve_lift = " + points);
    };
    const auto job = read(with("[[0, 0], [2, 2.7], [4, 5.6]]"));
    INFO(complaints(job));
    REQUIRE(job.ok());
    const auto& points = job->followers.at("tappet").valve_lift;
    REQUIRE(points.size() == 3);
    CHECK(points[1].follower == 2.0);
    CHECK(points[2].valve == 5.6);
    for (const char* bad :
         {"[]", "[[0, 0]]", "[[0, 0.1], [2, 2.7]]", "[[0, 0], [2, 2.7], [2, 2.8]]",
          "[[0, 0], [2, 2.7], [3, 2.7]]", "[[0, 0], [2, 2.7], [1, 3]]", "[[0, 0], [2, 20000]]"}) {
        INFO(bad);
        CHECK_THAT(complaint(with(bad)), ContainsSubstring("does not rise from [0, 0] in both lifts: give"));
    }
    for (const char* bad : {"[0, 2]", "[[0, 0], [2]]", "[[0, 0], [2, \"3\"]]"})
        CHECK_THAT(complaint(with(bad)),
                   ContainsSubstring("is no pair: write [follower's lift, valve's lift]"));
    CHECK_THAT(complaint(with("1.4")), ContainsSubstring("is a number"));
    CHECK_THAT(complaint(added(whole_job(), "follower.tappet", "valve_lift = [[0, 0], [2, 3]]")),
               ContainsSubstring("valve_ratio and valve_lift are both given"));
}
