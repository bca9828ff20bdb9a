#include "inspect/copied/heel_level.h"

#include <algorithm>
#include <cmath>

namespace lobewright::inspection {
namespace {

constexpr int passes = 3;
constexpr double within = 3.0;        // standard deviations of the heel's own scatter
constexpr double high_enough = 0.98;  // of all readings, so that a single bad one isn't the nose

/// Of ascending values: half of them again and again, the half that lies closest together.
double half_sample_mode(std::vector<double> sorted) {
    while (sorted.size() > 2) {
        const std::size_t half = (sorted.size() + 1) / 2;
        std::size_t best = 0;
        for (std::size_t i = 1; i + half <= sorted.size(); ++i) {
            if (sorted[i + half - 1] - sorted[i] < sorted[best + half - 1] - sorted[best]) best = i;
        }
        const auto from = sorted.begin() + static_cast<std::ptrdiff_t>(best);
        sorted = std::vector<double>(from, from + static_cast<std::ptrdiff_t>(half));
    }
    return 0.5 * (sorted.front() + sorted.back());
}

std::vector<double> sorted_figures(const std::vector<RayReading>& readings) {
    std::vector<double> figures;
    for (const RayReading& each : readings)
        figures.push_back(each.reading);
    std::sort(figures.begin(), figures.end());
    return figures;
}

}  // namespace

double heel_level(const std::vector<RayReading>& readings) {
    const std::vector<double> figures = sorted_figures(readings);
    double level = half_sample_mode(figures);
    for (int pass = 0; pass < passes; ++pass) {
        std::vector<double> below;
        for (const double figure : figures)
            if (figure < level) below.push_back(figure - level);
        // So few are slips, and the heel doesn't scatter.
        const bool scatters = below.size() * 10 >= figures.size();
        const double band = scatters ? within * robust_scale(std::move(below)) : 0.0;
        double sum = 0.0;
        int count = 0;
        for (const double figure : figures)
            if (std::abs(figure - level) <= band) sum += figure, ++count;
        if (count > 0) level = sum / count;
    }
    return level;
}

RoughLobe rough_lobe(const std::vector<RayReading>& readings) {
    const std::vector<double> figures = sorted_figures(readings);
    RoughLobe rough;
    rough.level = heel_level(readings);
    const auto top = static_cast<std::size_t>(high_enough * static_cast<double>(figures.size() - 1));
    rough.lift = figures[top] - rough.level;
    Vec2 sum;
    double width = 0.0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (readings[i].reading < rough.level + 0.5 * rough.lift) continue;
        const double before = readings[(i + readings.size() - 1) % readings.size()].beta;
        const double after = readings[(i + 1) % readings.size()].beta;
        const double share = 0.5 * std::abs(wrapped_radians(after - before));
        sum = sum + share * unit(readings[i].beta);
        width += share;
    }
    rough.nose = direction(sum);
    rough.half_width = 0.5 * width;
    return rough;
}

}  // namespace lobewright::inspection
