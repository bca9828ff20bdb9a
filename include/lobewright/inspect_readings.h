/// Readings of finished lobes, from the file in which someone wrote them down.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// How the file is written.
struct ReadingsFormat {
    /// Names of its columns in place of its own heading, "-" for one that is passed over; empty: its first
    /// line has the names.
    std::vector<std::string> columns;
    double mm_per_reading = 1.0;  ///< what one unit of the dial is
    bool reversed = false;        ///< its angles (or marks) count the other way round
};

/// What the readings are of.
struct ReadingsSubject {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    std::optional<std::size_t> lobe;   ///< of all readings; else the column `lobe` names it
    std::optional<HandMethod> method;  ///< whose wheel's marks the column `mark` counts
};

struct MeasuredReading {
    CamAngle cam_angle;    ///< that faces the probe, by the angle as it was written; unwrapped
    double reading = 0.0;  ///< mm
    Place place;           ///< its line in the file
};

/// One lobe's readings, in the file's order.
struct MeasuredLobe {
    std::size_t lobe = 0;
    std::vector<MeasuredReading> readings;
    /// The dial's, mm, that all readings are whole steps of, looked for as in a lift table (1, 2 or 5 times a
    /// power of ten of mm or inches); 0 where none is seen.
    double step = 0.0;
};

/// A column `reading`, and one of `cam_angle`, `shaft_angle`, `mark` and `crank_angle`; `lobe` where there
/// are several lobes. cam_angle and shaft_angle may both be there, as in a table of expected readings, and
/// must agree then. Any order, from any start, as often round as one likes. Lobes come in the job's order. A
/// bad line is refused by line and column.
Outcome<std::vector<MeasuredLobe>> read_measured(const std::string& text, const std::string& file,
                                                 const ReadingsFormat& format,
                                                 const ReadingsSubject& subject);

}  // namespace lobewright
