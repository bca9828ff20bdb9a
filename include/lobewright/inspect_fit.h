/// What readings of a finished lobe say about it.
#pragma once

#include <lobewright/inspect.h>
#include <lobewright/inspect_readings.h>
#include <lobewright/timing.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// What the set-up can't know beside the lobe's phase.
struct InspectRequest {
    bool zero_unknown = false;        ///< readings count from a level that is not known
    bool runout_unknown = false;      ///< the centres run out: a first harmonic over the shaft angle
    std::optional<double> tolerance;  ///< mm, of the finished surface along the normal, either way
};

/// A figure and its standard error, both in the figure's unit.
struct Estimate {
    double value = 0.0;
    double error = 0.0;
};

/// A reading with what became of it. Lengths in mm.
struct JudgedReading {
    CamAngle cam_angle;  ///< as measured, in (-180, 180] degrees
    ShaftAngle shaft_angle;
    double reading = 0.0;
    double expected = 0.0;   ///< of the design, with the fitted phase, level and runout
    double error = 0.0;      ///< reading less expected
    bool set_aside = false;  ///< stands out from its neighbours: no other figure counts it
    Place place;
};

/// What the centres ran out while the lobe was measured.
struct RunoutFound {
    Estimate amplitude;     ///< mm
    ShaftAngle at;          ///< of its highest reading
    double at_error = 0.0;  ///< radians
};

/// Readings taken again at an angle, how well they agree: the standard deviation of one reading.
struct Repeatability {
    double deviation = 0.0;  ///< mm
    int angles = 0;          ///< at which there are several
    int readings = 0;        ///< there
};

/// An extreme of the measured motion beside the design's. Per degree of cam angle, or per degree².
struct MotionExtreme {
    Estimate measured;
    CamAngle at;  ///< on the lobe: its own cam angle, without the phase error
    double design = 0.0;
};
struct MeasuredMotion {
    MotionExtreme fastest_rise, fastest_fall;       ///< mm per degree
    MotionExtreme acceleration, deceleration;       ///< mm per degree²
    CamAngle velocity_window, acceleration_window;  ///< half the width over which readings are put together
};

/// The valve's events with the shaft installed at the job's timing, crank degrees as on a timing card.
struct MeasuredEvents {
    ValveEvents design;
    Estimate opens_late, closes_late;  ///< crank radians; measured less design, later is positive
    [[nodiscard]] CrankAngle opens() const {
        return design.opens - CrankAngle::from_radians(opens_late.value);
    }
    [[nodiscard]] CrankAngle closes() const {
        return design.closes + CrankAngle::from_radians(closes_late.value);
    }
};

enum class ToleranceVerdict { within, beyond, too_close };
/// The surface along its outward normal, with the base circle's error where that is known, put together over
/// `window` either way. The extremes of many places hold some of the readings' scatter: the surface is
/// `within` where they are by two standard errors, `beyond` where one is by four.
struct SurfaceFound {
    Estimate deepest, proudest;  ///< mm; the least and the largest
    CamAngle deepest_at, proudest_at;
    CamAngle window;
    std::optional<ToleranceVerdict> verdict;  ///< where a tolerance was given
};

/// The follower's lift error at a cam angle of its own, measured less design: what the readings near it say
/// together, mm.
struct ErrorPlace {
    CamAngle cam_angle;
    Estimate error;
};

struct LobeInspection {
    std::size_t lobe = 0;
    Probe probe;
    InspectRequest request;
    Estimate phase;  ///< radians of cam angle, positive where the lobe comes late
    /// The lobe is so much larger all round, along its normal; nothing where the zero is unknown.
    std::optional<Estimate> base;
    std::optional<Estimate> zero;  ///< mm: the reading on the base circle; where it is unknown
    std::optional<RunoutFound> runout;
    std::vector<JudgedReading> readings;  ///< by cam angle
    double worst_lift_error = 0.0;        ///< mm, of the readings not set aside
    CamAngle worst_at;
    double rms_error = 0.0;
    std::optional<Estimate> nose_error;  ///< mm: the nose's height over the base circle, measured less design
    double scatter = 0.0;                ///< mm: the standard deviation of one reading about its neighbours
    double step = 0.0;                   ///< mm: the dial's, 0 where none is seen
    std::optional<Repeatability> repeats;
    std::optional<MeasuredMotion> motion;  ///< where the readings lie close enough
    std::optional<MeasuredEvents> events;
    std::optional<SurfaceFound> surface;
    /// Every degree from -180 to 180 where readings are near; empty where they lie too far apart.
    std::vector<ErrorPlace> lift_course;
    /// A surface out of tolerance is an error; too close to tell, and readings that look like another lobe's,
    /// are warnings.
    Diagnostics findings;
};

/// Fits what is unknown by Tukey's biweight (Huber, Robust Statistics, and Maronna, Martin, Yohai, from
/// memory) on scales of their own for heel and flanks, from a search through all phases; so single bad
/// readings have no say. The errors are those of the sandwich estimate, larger where neighbouring readings
/// err alike. What the readings then differ by from the design is the lobe's own error.
///
/// Refused: fewer than 8 readings, readings that don't reach both heel and flanks.
Outcome<LobeInspection> inspect_lobe(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     const MeasuredLobe& measured, const InspectRequest& request);

/// What several lobes of one shaft say together.
struct LobeToLobe {
    std::size_t lobe = 0;
    Estimate off;  ///< radians of cam angle by which it is later than the mean of all
};
struct OverlapFound {
    int cylinder = 0;
    CrankAngle design;
    Estimate measured;  ///< crank radians, both valves open; negative: both shut
};
struct ShaftInspection {
    Estimate phase;  ///< radians: the mean of all, which the set-up or the shaft's datum brings in
    std::vector<LobeToLobe> lobes;
    std::vector<OverlapFound> overlaps;
};
/// Nothing where there are fewer than two lobes.
std::optional<ShaftInspection> shaft_inspection(const Job& job, const std::vector<SolvedLobe>& lobes,
                                                const std::vector<LobeInspection>& inspections);

/// csv: a row for each reading; json by the names of examples/job-file.md; markdown and text are the report,
/// with what was taken as known.
std::string inspection_text(const Job& job, const std::vector<SolvedLobe>& lobes,
                            const std::vector<LobeInspection>& inspections, InspectFormat format);

}  // namespace lobewright
