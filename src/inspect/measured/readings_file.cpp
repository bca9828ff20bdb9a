/// This room takes in what was measured.
#include "base/columns.h"
#include "base/document.h"
#include "inspect/installed/crank_frame.h"
#include "profile/readings/reading_limits.h"

#include <lobewright/inspect.h>
#include <lobewright/inspect_readings.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace lobewright {
namespace {

constexpr double largest_angle = 1e6;    // degrees, or marks
constexpr double largest_reading = 1e4;  // mm
constexpr double agreeing = 0.01;        // degrees: what cam_angle and shaft_angle may differ by, as rounded

const std::vector<std::string> angle_columns{"cam_angle", "shaft_angle", "mark", "crank_angle"};

/// Where the columns stand that count.
struct Places {
    std::vector<std::optional<std::size_t>> angles;  ///< as angle_columns
    std::size_t reading = 0;
    bool lobes = false;

    [[nodiscard]] std::size_t given() const {
        return static_cast<std::size_t>(
            std::count_if(angles.begin(), angles.end(), [](const auto& each) { return each.has_value(); }));
    }
};

Places places_of(const Columns& columns) {
    Places places;
    for (const std::string& name : angle_columns)
        places.angles.push_back(columns.find(name));
    places.reading = columns.find("reading").value_or(0);
    places.lobes = columns.find("lobe").has_value();
    return places;
}

Diagnostic bad(std::string code, std::string what, std::string remedy, Place place) {
    return {Fault::bad_input, Severity::error,   std::move(code),
            std::move(what),  std::move(remedy), std::move(place)};
}

/// What the columns lack, or have too many of.
std::optional<Diagnostic> fault_of(const Places& places, const ReadingsSubject& subject, const Place& top) {
    const bool twin = places.angles[0] && places.angles[1];
    if (places.given() == 0)
        return bad("missing-column", "there is no column of angles",
                   "name one: cam_angle, shaft_angle, mark or crank_angle", top);
    if (places.given() > (twin ? 2u : 1u))
        return bad("doubled-column", "there are several columns of angles",
                   "keep one of cam_angle, shaft_angle, mark and crank_angle, or pass over it with --columns",
                   top);
    if (places.angles[2] && !subject.method)
        return bad("missing-argument", "marks are of a wheel that is not named",
                   "add --method NAME, the hand method whose wheel it is", top);
    if (places.angles[3] && !subject.job.engine)
        return bad("missing-key", "crank angles mean nothing to a job without [engine]", "add it", top);
    if (!places.lobes && !subject.lobe)
        return bad("missing-column", "there is no column \"lobe\", and the job has several lobes",
                   "add --lobe NAME, or the column", top);
    return std::nullopt;
}

double step_of(const std::vector<MeasuredReading>& readings) {
    std::vector<Reading> lifts;
    for (const MeasuredReading& each : readings)
        lifts.push_back({each.cam_angle, each.reading, {}});
    return profile::rounding_step(lifts);
}

/// Turns one row after the other into a reading of its lobe.
class Gatherer {
  public:
    Gatherer(const ReadingsFormat& format, const ReadingsSubject& subject, const Places& places)
        : format_(format), subject_(subject), places_(places) {
        for (std::size_t i = 0; i < subject.lobes.size(); ++i)
            by_name_.emplace(subject.lobes[i].name, i);
    }

    void take(const ColumnRow& row) {
        const auto lobe = lobe_of(row);
        if (!lobe || (subject_.lobe && places_.lobes && *lobe != *subject_.lobe)) return;
        const double reading = row.cells[places_.reading] * format_.mm_per_reading;
        const auto angle = angle_of(row, subject_.lobes[*lobe]);
        if (!(std::abs(reading) <= largest_reading))
            return complain("out-of-range", "the reading is " + as_written(row.cells[places_.reading]),
                            "give lengths of less than ten metres", row);
        if (angle) lobes_[*lobe].push_back({*angle, reading, row.place});
    }

    Outcome<std::vector<MeasuredLobe>> finish(const std::string& file) {
        if (complaints_.empty() && lobes_.empty())
            complaints_.push_back(bad("no-readings", "there is no reading", "write some", {file}));
        if (!complaints_.empty()) return std::move(complaints_);
        std::vector<MeasuredLobe> all;
        for (auto& [lobe, readings] : lobes_) {
            const double step = step_of(readings);
            all.push_back({lobe, std::move(readings), step});
        }
        return all;
    }

  private:
    void complain(std::string code, std::string what, std::string remedy, const ColumnRow& row) {
        complaints_.push_back(bad(std::move(code), std::move(what), std::move(remedy), row.place));
    }

    std::optional<std::size_t> lobe_of(const ColumnRow& row) {
        if (!places_.lobes) return subject_.lobe;
        const auto found = by_name_.find(row.words);
        if (found != by_name_.end()) return found->second;
        std::vector<std::string> names;
        for (const auto& [name, index] : by_name_)
            names.push_back(name);
        const std::string nearest = nearest_word(row.words, names);
        complain("unknown-lobe", "there is no lobe \"" + row.words + "\"",
                 nearest.empty() ? "there are " + listed(names) : "did you mean \"" + nearest + "\"?", row);
        return std::nullopt;
    }

    /// By the first column of angles that there is.
    std::optional<CamAngle> angle_of(const ColumnRow& row, const SolvedLobe& lobe) {
        std::vector<CamAngle> found;
        for (std::size_t kind = 0; kind < places_.angles.size(); ++kind) {
            if (!places_.angles[kind]) continue;
            const double written = row.cells[*places_.angles[kind]];
            if (!(std::abs(written) <= largest_angle)) {
                complain("out-of-range", "the angle is " + as_written(written),
                         "give at most 1000000 either way", row);
                return std::nullopt;
            }
            found.push_back(cam_angle(kind, format_.reversed ? -written : written, lobe));
        }
        if (found.size() > 1 && std::abs(wrapped(found[0] - found[1]).degrees()) > agreeing) {
            complain("angles-disagree",
                     "cam_angle and shaft_angle are not of one direction on lobe \"" + lobe.name + "\"",
                     "mend one, or pass over it with --columns", row);
            return std::nullopt;
        }
        return found.front();
    }

    [[nodiscard]] CamAngle cam_angle(std::size_t kind, double written, const SolvedLobe& lobe) const {
        switch (kind) {
            case 0:
                return CamAngle::from_degrees(written);
            case 1:
                return CamAngle::from_radians(sign_of(lobe.turns) *
                                              (lobe.at - ShaftAngle::from_degrees(written)).radians());
            case 2:
                return cam_angle_at_mark(lobe, subject_.job.probe.value_or(Probe{}), *subject_.method,
                                         written);
            default:
                return inspection::cam_angle_at(subject_.job, lobe, CrankAngle::from_degrees(written));
        }
    }

    const ReadingsFormat& format_;
    const ReadingsSubject& subject_;
    const Places& places_;
    std::map<std::string, std::size_t, std::less<>> by_name_;
    std::map<std::size_t, std::vector<MeasuredReading>> lobes_;
    Diagnostics complaints_;
};

}  // namespace

Outcome<std::vector<MeasuredLobe>> read_measured(const std::string& text, const std::string& file,
                                                 const ReadingsFormat& format,
                                                 const ReadingsSubject& subject) {
    ColumnRules rules{{"reading"}, angle_columns, "lobe", format.columns};
    rules.known.insert(rules.known.end(), {"reading", "lobe"});
    const auto columns = read_columns(text, file, rules);
    if (!columns) return columns.diagnostics();
    const Places places = places_of(*columns);
    if (auto fault = fault_of(places, subject, {file, 1, 1})) return *fault;
    Gatherer gatherer(format, subject, places);
    for (const ColumnRow& row : columns->rows)
        gatherer.take(row);
    return gatherer.finish(file);
}

}  // namespace lobewright
