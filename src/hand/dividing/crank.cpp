#include "hand/dividing/crank.h"

#include "base/whole_steps.h"

#include <cmath>
#include <limits>

namespace lobewright::hand {
namespace {

constexpr double whole_tolerance = 1e-9;  // of a hole

std::optional<long long> whole(double value) {
    const long long nearest = nearest_step(value);
    if (std::abs(value - static_cast<double>(nearest)) > whole_tolerance) return std::nullopt;
    return nearest;
}

}  // namespace

std::vector<int> circles_of(const std::vector<std::vector<int>>& plates) {
    std::vector<int> circles;
    for (const auto& plate : plates)
        circles.insert(circles.end(), plate.begin(), plate.end());
    return circles;
}

std::optional<long long> holes_per_turn(double ratio, int circle) {
    return whole(ratio * circle);
}

CrankSetting crank_after(long long holes, int circle) {
    return {static_cast<int>(holes / circle), static_cast<int>(holes % circle), circle};
}

double work_degrees(const CrankSetting& setting, double ratio) {
    const double holes = static_cast<double>(setting.turns) * setting.circle + setting.hole;
    return holes * 360.0 / (ratio * setting.circle);
}

NearestSetting nearest_hole(double degrees, double ratio, int circle) {
    const long long holes = nearest_step(degrees * ratio * circle / 360.0);
    const CrankSetting setting = crank_after(holes, circle);
    return {setting, work_degrees(setting, ratio) - degrees};
}

NearestSetting nearest_hole(double degrees, double ratio, const std::vector<int>& circles) {
    NearestSetting best;
    best.error = std::numeric_limits<double>::infinity();
    for (const int circle : circles) {
        const NearestSetting here = nearest_hole(degrees, ratio, circle);
        if (std::abs(here.error) < std::abs(best.error) - 1e-9) best = here;
    }
    return best;
}

std::vector<CrankSetting> simple_indexing(int divisions, double ratio, const std::vector<int>& circles) {
    std::vector<CrankSetting> found;
    for (const int circle : circles)
        if (const auto holes = whole(ratio * circle / divisions))
            found.push_back(crank_after(*holes, circle));
    return found;
}

}  // namespace lobewright::hand
