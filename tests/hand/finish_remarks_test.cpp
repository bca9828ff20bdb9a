#include "hand/finish/finish_remarks.h"

#include "catch.h"

using namespace lobewright;
using namespace lobewright::hand;

namespace {

Remarks remarks_on(const HandFinish& finish) {
    Remarks remarks;
    remark_finish({finish}, remarks);
    return remarks;
}

}  // namespace

TEST_CASE("a finish within what a stone takes off and a clearance hides is not remarked") {
    HandFinish finish;
    finish.highest_ridge = finish.proudest = most_off_design;
    finish.deepest = -least_gouge;
    finish.opens_late = most_off_time;
    finish.closes_late = -most_off_time;
    CHECK(remarks_on(finish).empty());
}

TEST_CASE("each fault of a finish is told once, by its own figure") {
    HandFinish finish;
    finish.lobe = 3;
    finish.highest_ridge = 0.06, finish.proudest = 0.07, finish.deepest = -0.002;
    finish.closes_late = CrankAngle::from_degrees(-2.1);
    const Remarks remarks = remarks_on(finish);
    REQUIRE(remarks.size() == 4);
    CHECK(std::get<HighRidges>(remarks[0]).lobe == 3);
    CHECK_NEAR(std::get<HighRidges>(remarks[0]).ridge, 0.06, 0.0);
    CHECK_NEAR(std::get<Gouge>(remarks[1]).depth, 0.002, 0.0);
    CHECK_NEAR(std::get<LeftOn>(remarks[2]).height, 0.07, 0.0);
    CHECK_NEAR(std::get<OffTime>(remarks[3]).closes_late.degrees(), -2.1, 1e-12);
}

TEST_CASE("of a valve that can't work no ridges and no times are told beside it") {
    HandFinish finish;
    finish.valve_shuts = false;
    finish.highest_ridge = finish.proudest = 0.3;
    finish.opens_late = CrankAngle::from_degrees(9.0);
    const Remarks held = remarks_on(finish);
    REQUIRE(held.size() == 1);
    CHECK_NEAR(std::get<ValveHeldOpen>(held[0]).ridge, 0.3, 0.0);
    finish = {};
    finish.valve_opens = false;
    finish.deepest = -0.4;
    const Remarks shut = remarks_on(finish);
    REQUIRE(shut.size() == 2);
    CHECK_NEAR(std::get<ValveNeverOpens>(shut[0]).depth, 0.4, 0.0);
    CHECK_NEAR(std::get<Gouge>(shut[1]).depth, 0.4, 0.0);
}
