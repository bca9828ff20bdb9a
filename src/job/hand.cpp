#include "job/job_reading.h"

namespace lobewright {
namespace {

const std::vector<std::string> methods = {"offset-fixture", "dividing-head", "rotary-table"};
const std::vector<std::string> method_keys = {"offset",
                                              "divisions",
                                              "dial",
                                              "dial_zero",
                                              "wheel_diameter",
                                              "swing_over_bed",
                                              "swing_over_cross_slide",
                                              "vernier",
                                              "ratio",
                                              "plates",
                                              "cusp",
                                              "step",
                                              "cutter_axis",
                                              "cutter",
                                              "handwheel_divisions",
                                              "travel",
                                              "feed",
                                              "heel_infeed",
                                              "dial_turn"};

constexpr NumberRange steps{1e-3, 90.0};               // degrees
constexpr NumberRange smallest_setting{0.0002, 90.0};  // degrees: less than a second
constexpr NumberRange highest_ridge{1e-4, 10.0};       // mm: a tenth of a micrometre is a lap's finish
constexpr NumberRange infeeds{1e-3, 100.0};
constexpr NumberRange turns_of_crank{1.0, 1000.0};
constexpr NumberRange allowances{0.0, 10.0};
constexpr NumberRange feeds{1e-3, 10.0};  // mm a turn
constexpr NumberRange spindle_speeds{1.0, 1e6};

/// The pass of a job that names none, in whole steps of its own unit: by common practice off a shaft that
/// swings against a lathe tool, and off a flat under a cutter.
double usual_infeed(HandKind kind, Units units) {
    const bool turning = kind == HandKind::offset_fixture;
    if (units == Units::mm) return turning ? 0.1 : 0.5;
    return (turning ? 0.004 : 0.02) * 25.4;
}

void read_offset_fixture(JobTable& table, HandMethod& method) {
    method.offset = table.length("offset", positive_length);
    method.divisions = table.whole_number("divisions", 2, 100000).value_or(0);
    if (!table.has("divisions")) table.missing("divisions", "say how many marks the index wheel has");
    method.vernier = table.angle<ShaftAngle>("vernier", smallest_setting);
    method.dial = table.choose<DialReading>("dial", {"radius", "diameter"}).value_or(DialReading::radius);
    method.dial_zero = table.length_or("dial_zero", 0.0, any_length);
    method.cusp = table.length("cusp", highest_ridge);
    method.travel = table.choose<HandTravel>("travel", {"plunge", "along"}).value_or(HandTravel::plunge);
    method.feed = table.length("feed", feeds);
    method.heel_infeed = table.length("heel_infeed", infeeds);
    method.wheel_diameter = table.length("wheel_diameter", positive_length);
    method.swing_over_bed = table.length("swing_over_bed", positive_length);
    method.swing_over_cross_slide = table.length("swing_over_cross_slide", positive_length);
}

/// Facets: how fine, and by which side of the cutter.
void read_facets(JobTable& table, HandMethod& method) {
    method.dial =
        table.choose<DialReading>("dial", {"radius", "diameter", "depth"}).value_or(DialReading::radius);
    method.dial_turn = table.length("dial_turn", positive_length);
    method.cusp = table.length("cusp", highest_ridge);
    method.step = table.angle<ShaftAngle>("step", steps);
    if (table.has("cusp") && table.has("step")) {
        table.complain("step", "excluded-key", "cusp and step are both given", "give one of them");
    } else if (!table.has("cusp") && !table.has("step")) {
        table.missing("cusp", "give it (the highest ridge to leave), or step in degrees");
    }
    const auto axis = table.choose<CutterAxis>("cutter_axis", {"parallel", "radial"});
    method.cutter_axis = axis.value_or(CutterAxis::radial);
    if (method.cutter_axis == CutterAxis::parallel) {
        method.cutter = table.required_string("cutter");
        check_reference(table, "cutter", method.cutter, "cutter");
    } else {
        table.refuse_unused("a method with a radial cutter", {"cutter"});
    }
}

void read_plates(JobTable& table, HandMethod& method) {
    const Node* plates = table.array("plates");
    if (!table.has("plates")) table.missing("plates", "list the circles of each plate: [[15, 16], [21, 23]]");
    if (plates == nullptr) return;
    for (const Node& plate : plates->members) {
        if (plate.kind != Node::Kind::array || plate.members.empty()) {
            table.complain_at(plate, "plates",
                              "a plate of '" + table.path_of("plates") + "' is not a list of circles",
                              "list the circles of each plate: [[15, 16], [21, 23]]");
            continue;
        }
        method.plates.push_back(table.whole_items(plate, table.path_of("plates"), 1, 10000));
    }
    if (plates->members.empty()) {
        table.complain("plates", "plates", "'" + table.path_of("plates") + "' is empty",
                       "list the circles of each plate: [[15, 16], [21, 23]]");
    }
}

void read_method(JobTable& table, HandMethod& method) {
    switch (method.kind) {
        case HandKind::offset_fixture:
            return read_offset_fixture(table, method);
        case HandKind::dividing_head:
            method.ratio = table.number_or("ratio", 40.0, turns_of_crank);
            read_plates(table, method);
            return read_facets(table, method);
        case HandKind::rotary_table:
            method.ratio = table.number_or("ratio", 0.0, turns_of_crank);
            method.handwheel_divisions = table.number("handwheel_divisions", {1.0, 100000.0});
            method.vernier = table.angle<ShaftAngle>("vernier", smallest_setting);
            return read_facets(table, method);
    }
}

}  // namespace

void read_hand(JobTable& file) {
    read_named(file, "hand", [&](const std::string& name, JobTable& table) {
        HandMethod method;
        method.zero = table.angle_or<ShaftAngle>("zero", ShaftAngle{}, any_direction);
        method.counts = table.choose<Sense>("counts", sense_words).value_or(Sense::ccw);
        method.infeed = table.length("infeed", infeeds);
        method.allowance = table.length_or("allowance", 0.0, allowances);
        method.spindle_speed = table.number("spindle_speed", spindle_speeds);
        method.tool_width = table.length("tool_width", positive_length);
        const auto kind = table.required_choice<HandKind>("method", methods);
        if (!kind) return table.pass_over(method_keys);
        method.kind = *kind;
        if (!method.infeed) method.infeed = usual_infeed(*kind, file.reading().job.units);
        read_method(table, method);
        table.refuse_unused("the method " + methods[static_cast<std::size_t>(*kind)], method_keys);
        file.reading().job.hand.emplace(name, method);
    });
}

}  // namespace lobewright
