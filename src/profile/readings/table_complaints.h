/// What is wrong with a lift table, in words: the one place that turns its facts into sentences.
#pragma once

#include "profile/readings/heel_readings.h"
#include "profile/readings/reading_limits.h"
#include "profile/readings/reading_outliers.h"

#include <lobewright/diagnostic.h>
#include <lobewright/job.h>

#include <string>

namespace lobewright::profile {

/// Collects the complaints about one table, each at the line of the reading that it is about.
class TableComplaints {
  public:
    TableComplaints(const TableProfile& table, Units units, ReadingLimits limits)
        : table_(table), units_(units), limits_(limits) {}

    void too_few(std::size_t fewest);
    void too_few_off_heel(const OrderedReading& highest, std::size_t count);
    void no_lift();
    /// The reading at `source` ends more than the `period` after another; radians.
    void too_long(std::size_t source, double range, double period);
    void repeated(const OrderedReading& one, const OrderedReading& other);
    /// A turn later the lift is another, by `step` mm.
    void not_closed(std::size_t source, double step);
    void begins_off_heel(const OrderedReading& first);
    void ends_off_heel(const OrderedReading& last);
    void missing_between(const OrderedReading& before, const OrderedReading& after, double gap);
    void heel_off_zero(const ReadingRing& ring, const Heel& heel);
    void heel_uneven(const ReadingRing& ring, const Heel& heel);
    void below_heel(const OrderedReading& reading);
    void heel_scattered(const OrderedReading& worst, std::size_t count);
    /// About a curve with its knots `least_knot_spacing` apart.
    void scattered(const OrderedReading& anywhere, double scatter);
    void outlier(const OrderedReading& reading, double off);

    [[nodiscard]] bool empty() const { return complaints_.empty(); }
    [[nodiscard]] const Diagnostics& all() const { return complaints_; }

  private:
    void refuse(std::size_t source, const std::string& code, std::string what, std::string remedy);
    [[nodiscard]] std::string figure(double mm) const;
    [[nodiscard]] std::string length(double mm) const;
    [[nodiscard]] std::string smoothing_for(double mm) const;
    [[nodiscard]] double level_of(const Heel& heel) const;

    const TableProfile& table_;
    Units units_;
    ReadingLimits limits_;
    Diagnostics complaints_;
};

}  // namespace lobewright::profile
