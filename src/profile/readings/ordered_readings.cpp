#include "profile/readings/ordered_readings.h"

#include <algorithm>

namespace lobewright::profile {
namespace {

bool is_lower(const OrderedReading& a, const OrderedReading& b) {
    return a.lift < b.lift;
}

}  // namespace

ReadingRing::ReadingRing(std::vector<OrderedReading> readings, double period)
    : readings_(std::move(readings)), period_(period) {}

double ReadingRing::gap_before(std::size_t i) const {
    i %= size();
    return i > 0 ? readings_[i].angle - readings_[i - 1].angle
                 : readings_.front().angle + period_ - readings_.back().angle;
}

double ReadingRing::lowest() const {
    return std::min_element(readings_.begin(), readings_.end(), is_lower)->lift;
}

double ReadingRing::highest() const {
    return readings_[highest_at()].lift;
}

std::size_t ReadingRing::highest_at() const {
    return static_cast<std::size_t>(std::max_element(readings_.begin(), readings_.end(), is_lower) -
                                    readings_.begin());
}

void ReadingRing::begin_at(std::size_t first) {
    for (std::size_t i = 0; i < first; ++i)
        readings_[i].angle += period_;
    std::rotate(readings_.begin(), readings_.begin() + static_cast<std::ptrdiff_t>(first), readings_.end());
}

}  // namespace lobewright::profile
