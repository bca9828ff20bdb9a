#include "proof/judge/finding_words.h"

#include "base/text/length_text.h"

#include <lobewright/angle.h>

#include <cmath>

namespace lobewright::proof {
namespace {

std::string on_lobe(const std::string& lobe, double psi) {
    const double at = ShaftAngle::from_radians(wrapped_radians(psi)).degrees();
    return "lobe " + lobe + " at " + shortest_fixed(at, 2) + " degrees";
}

}  // namespace

std::string FindingWords::length(double mm) const {
    return with_unit(short_length(mm, units_, {5, 6}), units_);
}

std::string FindingWords::speed(double mm_per_minute) const {
    return with_unit(short_length(mm_per_minute, units_, {1, 3}), units_) + "/min";
}

std::string FindingWords::place(const LobeVerdict& lobe, const Deviation& deviation) const {
    return "lobe " + lobe.name + " at " + fixed(deviation.at.degrees(), 2) +
           " degrees, z = " + length(deviation.z);
}

std::string FindingWords::gouge(const LobeVerdict& lobe, double tolerance) const {
    return place(lobe, lobe.deepest) + ": " + length(-lobe.deepest.along_normal) +
           " too deep, the tolerance is " + length(tolerance);
}

std::string FindingWords::material_left(const LobeVerdict& lobe, double tolerance) const {
    return place(lobe, lobe.proudest) + ": " + length(lobe.proudest.along_normal) +
           " left on, the tolerance is " + length(tolerance);
}

std::string FindingWords::not_cut(const std::string& lobe) {
    return "lobe " + lobe + " is not cut over its whole width";
}

std::string FindingWords::too_many_planes(const std::string& lobe, std::size_t most) {
    return "the cutter stands at so many places along lobe " + lobe + " that more than " +
           std::to_string(most) + " planes would have to be compared";
}

std::string FindingWords::two_motions() {
    return "the cutter moves along the shaft and otherwise in one block where its section changes along the "
           "shaft: write the two motions in blocks of their own";
}

std::string FindingWords::rapid_in_stock(const std::string& lobe, double psi, double depth) const {
    return "a rapid goes " + length(depth) + " into the stock, " + on_lobe(lobe, psi);
}

std::string FindingWords::rapid_apart(const std::string& lobe, double psi) {
    return "a rapid goes into the stock, " + on_lobe(lobe, psi) +
           ", where the axes don't arrive together: move the radial axis alone";
}

std::string FindingWords::spindle_off(const std::string& lobe, double psi) {
    return "the cutter feeds into the stock with the spindle standing, " + on_lobe(lobe, psi);
}

std::string FindingWords::touches_lobe(const char* part, const std::string& lobe, double psi,
                                       double depth) const {
    return std::string("the ") + part + " runs " + length(depth) + " into " + on_lobe(lobe, psi);
}

std::string FindingWords::touches_journal(const char* part, double z, double depth) const {
    return std::string("the ") + part + " runs " + length(depth) + " into the journal at z = " + length(z);
}

std::string FindingWords::surface_feed(double mm_per_minute, double wanted) const {
    return "the cut runs along the surface at " + speed(mm_per_minute) + ", and the job asks for " +
           speed(wanted);
}

std::string FindingWords::depth(const std::string& lobe, double psi, double depth, double wanted,
                                bool roughs) const {
    return "a pass takes " + length(depth) + " off, " + on_lobe(lobe, psi) +
           (roughs ? ", and the job roughs " + length(wanted) + " deep"
                   : ", and without roughing a finish pass takes " + length(wanted) + " at most");
}

std::string FindingWords::plunge(const std::string& lobe, double psi, double depth) const {
    return "the cutter plunges " + length(depth) + " into the stock, " + on_lobe(lobe, psi);
}

std::string FindingWords::dwell(const std::string& lobe) {
    return "the cutter waits on the metal of lobe " + lobe + ": it rubs a mark into it";
}

std::string FindingWords::thick_chip(double chip, double largest) const {
    return "a tooth's chip gets " + length(chip) + " thick, and the cutter takes " + length(largest);
}

std::string FindingWords::thin_chip(double chip, double smallest) const {
    return "no tooth's chip gets thicker than " + length(chip) + ", and below " + length(smallest) +
           " the cutter rubs";
}

std::string FindingWords::rim_speed(double metres_per_second, double fastest) {
    return "the cutter's rim runs at " + shortest_fixed(metres_per_second, 2) + " m/s, and it bears " +
           shortest_fixed(fastest, 2) + " m/s";
}

std::string FindingWords::not_ended() {
    return "the program has no end (M2 or M30): part of it may be lost";
}

std::string FindingWords::blind_move() {
    return "the cutter moves here while it is unknown whether it stands clear of the shaft: move the radial "
           "axis out first";
}

std::string FindingWords::unbounded_blend() {
    return "path blending without a tolerance: what the controller cuts can't be known";
}

std::string FindingWords::past_axis() {
    return "the cutter moves past the shaft's axis";
}

std::string FindingWords::spindle_speed(double rev_per_minute, double wanted) {
    return "the spindle turns at " + shortest_fixed(rev_per_minute, 3) + " rev/min, and the job asks for " +
           shortest_fixed(wanted, 3);
}

std::string FindingWords::spindle_reversed() {
    return "the spindle turns counter-clockwise, and the cutter's teeth cut the other way round";
}

std::string FindingWords::wrong_tool(int tool, int wanted) {
    return (tool == 0 ? std::string("a tool is changed, and none was chosen")
                      : "tool " + std::to_string(tool) + " is put in") +
           ": the job's cutter is number " + std::to_string(wanted);
}

std::string FindingWords::changes_elsewhere() {
    return "the tool changes away from the place where the machine changes tools";
}

std::string FindingWords::length_number(int length, int wanted) {
    return (length == 0 ? std::string("the cutter moves with no length on")
                        : "the cutter moves with the length of number " + std::to_string(length)) +
           ", and its own is number " + std::to_string(wanted);
}

std::string FindingWords::side_axis(double side, double wanted) const {
    return "the side axis holds the cutter " + length(side) +
           " beside the shaft's axis (+ towards ccw), and the job " + "asks for " + length(wanted);
}

std::string FindingWords::ends_not_clear(double radial, double clear) const {
    const std::string on = length(clear) + " on";
    if (std::isnan(radial))
        return "the program never says at which radius the cutter stands, and it stands clear from " + on;
    return "the program ends with the cutter at " + length(radial) + " of radius, and it stands clear from " +
           on;
}

std::string FindingWords::ends_elsewhere(const ToolChange& place) const {
    return "the program doesn't end where tools change: at " + length(place.radial) + " of radius, " +
           length(place.axial) + " along the shaft";
}

std::string FindingWords::home_from_within() {
    return "the machine's way home begins while the cutter does not stand clear of the shaft: move the "
           "radial axis "
           "out first";
}

std::string FindingWords::axis_speed_text(AxisName axis, double per_minute) const {
    return axis.rotary ? shortest_fixed(per_minute, 1) + " degrees/min" : speed(per_minute);
}

std::string FindingWords::acceleration_text(AxisName axis, double value) const {
    return (axis.rotary ? shortest_fixed(value, 3) + " degrees" : length(value)) + "/s²";
}

std::string FindingWords::axis_speed(AxisName axis, double value, double limit) const {
    return std::string("the ") + axis.name + " axis must run at " + axis_speed_text(axis, value) +
           ", and its limit is " + axis_speed_text(axis, limit);
}

std::string FindingWords::axis_acceleration(AxisName axis, double acceleration, double limit) const {
    return std::string("the ") + axis.name + " axis must speed up or slow down at " +
           acceleration_text(axis, acceleration) + ", and its limit is " + acceleration_text(axis, limit);
}

std::string FindingWords::axis_jump(AxisName axis, double jump, double limit) const {
    return std::string("the ") + axis.name + " axis changes its speed by " + axis_speed_text(axis, jump) +
           " at once, and its limit is " + axis_speed_text(axis, limit);
}

std::string FindingWords::beyond_travel(AxisName axis, double word, const Travel& travel) const {
    return std::string("the ") + axis.name + " word goes to " + length(word) + ", and its travel is from " +
           length(travel.least) + " to " + length(travel.greatest);
}

std::string FindingWords::beyond_rotary_travel(double word, double travel) {
    return "the rotary word goes to " + shortest_fixed(word, 3) + " degrees, and its axis turns " +
           shortest_fixed(travel, 3) + " either side of zero";
}

std::string FindingWords::turns_too_far(double turned, double travel) {
    return "the rotary axis turns through " + shortest_fixed(turned, 3) +
           " degrees without winding back, and its travel is " + shortest_fixed(2.0 * travel, 3) + " in all";
}

std::string FindingWords::runs_away(double seconds, double asked) {
    return "the block is run in " + shortest_fixed(seconds, 2) + " s, and not in the " +
           shortest_fixed(asked, 2) +
           " s that its F asks for: the controller won't run so little linear motion so slow";
}

std::string FindingWords::block_rate(double seconds, double blocks_per_second) {
    return "the block lasts " + shortest_fixed(1000.0 * seconds, 3) + " ms, and the controller takes " +
           shortest_fixed(blocks_per_second, 3) + " blocks a second";
}

}  // namespace lobewright::proof
