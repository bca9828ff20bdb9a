/// A lift table's readings in the order of their angles round one period.
#pragma once

#include <cstddef>
#include <vector>

namespace lobewright::profile {

/// Angles nearer than this are one angle, radians: 6e-8 degrees, a thousandth of what a table can say.
inline constexpr double same_angle = 1e-9;

struct OrderedReading {
    double angle = 0.0;      ///< radians, ascending over less than one period
    double lift = 0.0;       ///< mm
    std::size_t source = 0;  ///< index in TableProfile::readings
};

/// Readings round a ring of one period: the first follows the last.
class ReadingRing {
  public:
    ReadingRing() = default;
    /// Required: at least one reading, ascending.
    ReadingRing(std::vector<OrderedReading> readings, double period);

    [[nodiscard]] std::size_t size() const { return readings_.size(); }
    [[nodiscard]] double period() const { return period_; }
    /// i counts on round the ring, by one turn at most.
    [[nodiscard]] const OrderedReading& operator[](std::size_t i) const { return readings_[i % size()]; }
    [[nodiscard]] const std::vector<OrderedReading>& readings() const { return readings_; }

    /// Radians from the reading before to reading i; before the first stands the last.
    [[nodiscard]] double gap_before(std::size_t i) const;
    [[nodiscard]] double lowest() const;
    [[nodiscard]] double highest() const;
    /// The index of the highest reading, the first where there are several.
    [[nodiscard]] std::size_t highest_at() const;
    /// Counts from reading i on: it becomes the first, and those before it stand a period later.
    void begin_at(std::size_t i);

  private:
    std::vector<OrderedReading> readings_;
    double period_ = 0.0;
};

}  // namespace lobewright::profile
