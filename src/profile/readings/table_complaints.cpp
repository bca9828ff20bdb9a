#include "profile/readings/table_complaints.h"

#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::profile {
namespace {

std::string degrees(double radians, int decimals) {
    return shortest_fixed(radians * 180.0 / std::numbers::pi, decimals);
}

/// A cam angle as the table has it.
std::string cam_angle(const Reading& reading) {
    return shortest_fixed(reading.cam_angle.degrees(), 6);
}

std::string count_of(std::size_t count, const char* one, const char* several) {
    return counted(static_cast<long long>(count), one, several);
}

}  // namespace

/// In the job's units, to a tenth of a micrometre or a millionth of an inch.
std::string TableComplaints::figure(double mm) const {
    return short_length(mm, units_, {4, 6});
}

std::string TableComplaints::length(double mm) const {
    return with_unit(figure(mm), units_);
}

/// The key with the least value that allows so much, rounded upwards.
std::string TableComplaints::smoothing_for(double mm) const {
    constexpr int decimals = 6;
    constexpr double step = 1e-6;      // of the job's unit, the last of them
    constexpr double rounding = 1e-3;  // of a step
    return "smoothing = " + shortest_fixed(std::ceil(mm / mm_per(units_) / step - rounding) * step, decimals);
}

/// All complaints of one code are alike: one change mends them.
void TableComplaints::refuse(std::size_t source, const std::string& code, std::string what,
                             std::string remedy) {
    const Place place =
        source < table_.readings.size() ? table_.readings[source].place : Place{table_.file, 0, 0};
    complaints_.push_back(
        {Fault::bad_input, Severity::error, code, std::move(what), std::move(remedy), place, code});
}

void TableComplaints::too_few(std::size_t fewest) {
    const std::size_t count = table_.readings.size();
    refuse(count == 0 ? 0 : count - 1, "table-too-short",
           "the table has only " + count_of(count, "reading", "readings"),
           "give at least " + std::to_string(fewest) + ", best one every degree or two");
}

void TableComplaints::too_few_off_heel(const OrderedReading& highest, std::size_t count) {
    refuse(highest.source, "table-too-short",
           "only " + count_of(count, "reading lies", "readings lie") + " off the base circle",
           "measure in smaller steps, best one every degree or two");
}

void TableComplaints::no_lift() {
    refuse(0, "table-no-lift",
           "all " + std::to_string(table_.readings.size()) + " readings are " +
               length(table_.readings.front().lift),
           "give a lobe's lift, which rises from the base circle and comes back to it");
}

void TableComplaints::too_long(std::size_t source, double range, double period) {
    refuse(source, "table-too-long",
           "the table's angles span " + degrees(range, 3) + " degrees, more than the " + degrees(period, 3) +
               " from one lobe to the next",
           "keep one turn of them");
}

void TableComplaints::repeated(const OrderedReading& one, const OrderedReading& other) {
    const std::size_t later = std::max(one.source, other.source);
    const int line = table_.readings[std::min(one.source, other.source)].place.line;
    refuse(later, "table-angle-repeated",
           "cam angle " + cam_angle(table_.readings[later]) + " stands in the table twice" +
               (line > 0 ? ", first in line " + std::to_string(line) : std::string()),
           "keep one of the two");
}

void TableComplaints::not_closed(std::size_t source, double step) {
    refuse(
        source, "table-not-closed",
        "the table goes round the whole turn, but its ends differ by " + length(std::abs(step)),
        "mend the readings, or allow " + smoothing_for(0.5 * std::abs(step) + table_resolution) + " or more");
}

void TableComplaints::begins_off_heel(const OrderedReading& first) {
    refuse(first.source, "table-not-closed",
           "the table begins at lift " + length(first.lift) + ", off the base circle",
           "begin to measure before the lift changes, or go round the whole turn");
}

void TableComplaints::ends_off_heel(const OrderedReading& last) {
    refuse(last.source, "table-not-closed",
           "the table ends at lift " + length(last.lift) + ", off the base circle",
           "go on measuring until the lift is zero, or round the whole turn");
}

void TableComplaints::missing_between(const OrderedReading& before, const OrderedReading& after, double gap) {
    refuse(after.source, "table-readings-missing",
           "readings are missing from cam angle " + cam_angle(table_.readings[before.source]) + " to " +
               cam_angle(table_.readings[after.source]) + ": " + degrees(gap, 3) +
               " degrees of the lobe without one",
           "measure there, in steps as elsewhere");
}

/// The middle of the readings on the base circle, as a dial can show it.
double TableComplaints::level_of(const Heel& heel) const {
    const double step = limits_.step > 0.0 ? 0.5 * limits_.step : 0.1 * table_resolution;
    return table_.dial_zero +
           step * static_cast<double>(nearest_step(0.5 * (heel.run.low + heel.run.high) / step));
}

void TableComplaints::heel_off_zero(const ReadingRing& ring, const Heel& heel) {
    const double level = level_of(heel);
    const std::string off = length(level - table_.dial_zero);
    refuse(ring[heel.run.first].source, "table-dial-zero",
           "the readings on the base circle stand at " + (level > table_.dial_zero ? '+' + off : off) +
               ", not at 0: the dial's zero is off by that",
           "give dial_zero = " + shortest_fixed(level / mm_per(units_), 9) +
               " in the profile, which is taken off all of them");
}

/// With the dial's zero taken off half of the scatter remains on either side.
void TableComplaints::heel_uneven(const ReadingRing& ring, const Heel& heel) {
    const double level = level_of(heel);
    const double off = level - table_.dial_zero;
    const double left = std::max(heel.run.high - off, off - heel.run.low);
    const double all = std::max(std::abs(heel.run.high), std::abs(heel.run.low));
    const bool about_zero = std::abs(off) <= 0.25 * left;
    refuse(ring[heel.run.first].source, "table-heel-scatter",
           "the readings on the base circle lie between " + figure(heel.run.low) + " and " +
               length(heel.run.high) + ", more than " +
               (table_.smoothing ? "smoothing evens out" : "their rounding explains"),
           "measure again, or give " + smoothing_for(about_zero ? all : left) +
               (about_zero ? " or more"
                           : " or more with dial_zero = " + shortest_fixed(level / mm_per(units_), 9)));
}

void TableComplaints::below_heel(const OrderedReading& reading) {
    refuse(reading.source, "table-lift-negative",
           "lift " + length(reading.lift) + " lies below the base circle",
           "measure it again, or strike it out");
}

void TableComplaints::heel_scattered(const OrderedReading& worst, std::size_t count) {
    const bool below = worst.lift < 0.0;
    refuse(worst.source, below ? "table-lift-negative" : "table-heel-scatter",
           "lift " + length(worst.lift) + (below ? " lies below" : " stands up from") +
               " the base circle, by more than " +
               (table_.smoothing ? "smoothing allows" : "rounding explains") +
               (count > 1 ? ", the worst of " + std::to_string(count) + " such readings" : std::string()),
           "measure it again, or give " + smoothing_for(std::abs(worst.lift)) + " or more");
}

void TableComplaints::scattered(const OrderedReading& anywhere, double scatter) {
    refuse(anywhere.source, "table-scatter",
           "the readings scatter by " + length(scatter) + " about a smooth curve, more than " +
               (table_.smoothing ? "smoothing evens out" : "their rounding explains"),
           "give " + smoothing_for(scatter) + " or more");
}

void TableComplaints::outlier(const OrderedReading& reading, double off) {
    refuse(reading.source, "table-outlier",
           "lift " + length(reading.lift) + " lies " + length(std::abs(off)) +
               (off > 0 ? " above" : " below") + " the curve of its neighbours",
           "measure it again, or strike it out; its neighbours say " + length(reading.lift - off));
}

}  // namespace lobewright::profile
