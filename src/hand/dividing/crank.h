/// Dividing with a head's crank and plates: whole turns, and holes on a circle.
///
/// Every setting is counted from the head's zero, never from the setting before it, so that what one setting
/// is out by is never carried to the next.
#pragma once

#include <optional>
#include <vector>

namespace lobewright::hand {

/// Where the crank stands, counted from the head's zero. Required: 0 <= hole < circle.
struct CrankSetting {
    int turns = 0;
    int hole = 0;
    int circle = 1;
    bool operator==(const CrankSetting&) const = default;
};

/// A setting, and how far the work then stands past the angle that was wanted, degrees.
struct NearestSetting {
    CrankSetting setting;
    double error = 0.0;
};

/// The plates' circles in one row, in the order given.
std::vector<int> circles_of(const std::vector<std::vector<int>>& plates);

/// Holes that the pin passes in one whole turn of the work on a circle; nothing if a turn of the work does
/// not end in a hole, because such a head can't go round and close.
std::optional<long long> holes_per_turn(double ratio, int circle);

/// `holes` spaces from the head's zero as turns and a hole. Required: holes >= 0.
CrankSetting crank_after(long long holes, int circle);

/// Where the work stands at a setting, degrees from the head's zero: (turns + hole / circle) · 360 / ratio.
double work_degrees(const CrankSetting& setting, double ratio);

/// The hole of one circle nearest to an angle of the work. Required: degrees >= 0.
NearestSetting nearest_hole(double degrees, double ratio, int circle);

/// The nearest of all circles' holes; the earlier circle where two come equally near (to 1e-9 degrees).
NearestSetting nearest_hole(double degrees, double ratio, const std::vector<int>& circles);

/// Simple indexing: every circle on which ratio / divisions ends in a hole, with the crank's way from one
/// division to the next. Empty: these plates can't divide so without compound or differential indexing.
std::vector<CrankSetting> simple_indexing(int divisions, double ratio, const std::vector<int>& circles);

}  // namespace lobewright::hand
