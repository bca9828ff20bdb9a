#include "inspect/correction/surface_seen.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace lobewright::inspection {
namespace {

/// mm: a probe that would have to stand so much lower to touch a place doesn't touch it.
constexpr double bridged = 1e-6;
constexpr double same_radius = 1e-9;  // mm
/// Standard errors by which one place of the heel may differ from the mean of many.
constexpr double of_scatter = 4.0;
constexpr double share_of_tolerance = 0.25;
/// Of a harmonic's mean square, which is a half all round: what is left of it on a heel that is too short to
/// show one.
constexpr double least_size = 1e-9;

/// What the probe reads of the surface that the program left by itself, over what it reads of the design: it
/// stands on the ridges between blocks, not on the mean.
class ProgrammedReading {
  public:
    /// `programmed`: along the normal, on rays evenly round from -pi on; empty: nothing.
    ProgrammedReading(const SolvedLobe& lobe, const Probe& probe, const std::vector<double>& programmed)
        : probe_(probe), programmed_(programmed) {
        for (std::size_t i = 0; i < programmed.size(); ++i) {
            const double share = static_cast<double>(i) / static_cast<double>(programmed.size());
            const ShaftAngle beta = ShaftAngle::from_radians(full_turn * share - std::numbers::pi);
            const ContourPoint at = lobe.contour.on_ray(beta).at;
            design_.push_back(at.point);
            left_.push_back(at.point + programmed[i] * at.normal);
        }
    }

    /// mm along the probe's way, where it touches the design as told.
    [[nodiscard]] double at(double ray, const ProbeTouch& touch) const {
        if (programmed_.empty()) return 0.0;
        if (probe_.kind == ProbeKind::knife) return touch.growth * round_the_lobe(direction(touch.point));
        return highest(left_, ray) - highest(design_, ray);
    }

  private:
    [[nodiscard]] double highest(const std::vector<Vec2>& points, double ray) const {
        const Vec2 out = unit(ray);
        const double r = probe_.radius;
        double most = 0.0;
        for (const Vec2& point : points) {
            const double along = dot(point, out), across = cross(point, out);
            if (probe_.kind == ProbeKind::flat)
                most = std::max(most, along);
            else if (along > 0.0 && std::abs(across) < r)
                most = std::max(most, along + std::sqrt(r * r - across * across));
        }
        return most;
    }

    [[nodiscard]] double round_the_lobe(double direction) const {
        const auto count = static_cast<double>(programmed_.size());
        const double turn = (direction + std::numbers::pi) / full_turn;
        const double steps = (turn - std::floor(turn)) * count;
        const double whole = std::min(std::floor(steps), count - 1.0);
        const auto i = static_cast<std::size_t>(whole);
        const double next = programmed_[(i + 1) % programmed_.size()];
        return programmed_[i] + (steps - whole) * (next - programmed_[i]);
    }

    const Probe& probe_;
    const std::vector<double>& programmed_;
    std::vector<Vec2> design_, left_;
};

/// Each reading's error along the normal, less what the program left by itself, as one curve over the cam
/// angle that faced the probe.
LocalCurve cutting_errors(const SolvedLobe& lobe, const LobeInspection& found,
                          const std::vector<double>& programmed) {
    const ContourProbe on(lobe.contour, lobe.base_radius, found.probe);
    const ProgrammedReading by_program(lobe, found.probe, programmed);
    const double sense = sign_of(lobe.turns);
    std::vector<CurvePoint> points;
    for (const JudgedReading& each : found.readings) {
        if (each.set_aside) continue;
        const double angle = each.cam_angle.radians() - found.phase.value;
        const ProbeTouch touch = on.touch(-sense * angle);
        points.push_back({angle, (each.error - by_program.at(-sense * angle, touch)) / touch.growth});
    }
    return {std::move(points), found.scatter, full_turn};
}

/// Finds what the readings say of a place.
class Sight {
  public:
    struct Seen {
        Estimate error;
        double of_cutting = 0.0;
    };

    Sight(const SolvedLobe& lobe, const ExaminedLobe& examined, const std::vector<double>& programmed,
          double window)
        : examined_(examined),
          cutting_(cutting_errors(lobe, examined.found, programmed)),
          probe_(examined.found.probe),
          on_(lobe.contour, lobe.base_radius, probe_),
          base_radius_(lobe.base_radius),
          sense_(sign_of(lobe.turns)),
          window_(window) {}

    [[nodiscard]] std::optional<Seen> seen_at(const ContourPoint& at) const {
        const bool flat = probe_.kind == ProbeKind::flat;
        const Vec2 pointer = flat ? at.normal : at.point + probe_.radius * at.normal;
        const double ray = direction(pointer);
        const double stands = flat ? dot(at.point, at.normal) : length(pointer) - probe_.radius;
        if (on_.height(ray) > stands - base_radius_ + bridged) return std::nullopt;
        const auto local = examined_.error.of_surface.at(-sense_ * ray, window_);
        const auto cutting = cutting_.at(-sense_ * ray, window_);
        if (!local || !cutting) return std::nullopt;
        const Estimate base = examined_.found.base.value_or(Estimate{});
        const double error = std::sqrt(local->value.error * local->value.error + base.error * base.error);
        return Seen{{local->value.value + base.value, error}, cutting->value.value + base.value};
    }

  private:
    const ExaminedLobe& examined_;
    LocalCurve cutting_;
    const Probe& probe_;
    ContourProbe on_;
    double base_radius_, sense_, window_;
};

/// What a first harmonic round the heel takes off the squares of its errors, mm² over all nodes: a heel that
/// runs out differs at no place by much more than its scatter, and yet it differs.
double squares_of_runout(const std::vector<const SurfaceNode*>& heel) {
    const auto harmonic = [&](double phase) {
        std::vector<double> values;
        for (const SurfaceNode* node : heel)
            values.push_back(elementary::cos(node->direction - phase));
        return values;
    };
    const auto product = [](const std::vector<double>& a, const std::vector<double>& b) {
        return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
    };
    std::vector<double> errors;
    for (const SurfaceNode* node : heel)
        errors.push_back(node->error->value);
    // Each part is made square to those before it: the mean first, which takes off nothing that counts here.
    std::vector<std::vector<double>> parts{std::vector<double>(heel.size(), 1.0)};
    double squares = 0.0;
    for (const double phase : {0.0, 0.5 * std::numbers::pi}) {
        std::vector<double> part = harmonic(phase);
        for (const std::vector<double>& other : parts) {
            const double share = product(part, other) / product(other, other);
            for (std::size_t i = 0; i < part.size(); ++i)
                part[i] -= share * other[i];
        }
        const double size = product(part, part), along = product(errors, part);
        if (size <= least_size * static_cast<double>(heel.size())) continue;
        squares += along * along / size;
        parts.push_back(std::move(part));
    }
    return squares;
}

/// Whether the heel runs out by more than its scatter lets expect, nodes nearer than a window of readings
/// telling the same, and by more than a share of the tolerance.
bool runs_out(const std::vector<const SurfaceNode*>& heel, double tolerance, double window, double step) {
    const auto nodes = static_cast<double>(heel.size());
    const double independent = std::max(1.0, nodes * step / (2.0 * window));
    double scatter = 0.0;  // the nodes' mean square error
    for (const SurfaceNode* node : heel)
        scatter += node->error->error * node->error->error / nodes;
    const double mean_square = squares_of_runout(heel) / nodes;
    const double slight = share_of_tolerance * tolerance;
    return 2.0 * mean_square > slight * slight &&
           mean_square * independent > of_scatter * of_scatter * scatter;
}

/// The heel as one figure, where it is one.
void settle_heel(std::vector<SurfaceNode>& nodes, double tolerance, double window) {
    std::vector<const SurfaceNode*> heel;
    for (const SurfaceNode& node : nodes)
        if (node.on_heel && node.error) heel.push_back(&node);
    const double step = full_turn / static_cast<double>(nodes.size());
    if (heel.size() < 3 || runs_out(heel, tolerance, window, step)) return;
    double sum = 0.0, cutting = 0.0;
    for (const SurfaceNode* node : heel)
        sum += node->error->value, cutting += node->of_cutting;
    const auto count = static_cast<double>(heel.size());
    const double mean = sum / count;
    const bool even = std::all_of(nodes.begin(), nodes.end(), [&](const SurfaceNode& node) {
        return !node.on_heel || !node.error ||
               std::abs(node.error->value - mean) <=
                   std::max(of_scatter * node.error->error, share_of_tolerance * tolerance);
    });
    if (!even) return;
    for (SurfaceNode& node : nodes)
        if (node.on_heel && node.error) node.error->value = mean, node.of_cutting = cutting / count;
}

}  // namespace

std::optional<std::vector<SurfaceNode>> surface_seen(const SolvedLobe& lobe, const ExaminedLobe& examined,
                                                     double allowance, double tolerance,
                                                     const std::vector<double>& programmed,
                                                     std::size_t count) {
    const std::optional<double> window = examined.error.of_surface.usual_window();
    if (!window) return std::nullopt;
    const Sight sight(lobe, examined, programmed, *window);
    std::vector<SurfaceNode> nodes;
    for (std::size_t i = 0; i < count; ++i) {
        SurfaceNode node;
        node.direction = full_turn * static_cast<double>(i) / static_cast<double>(count) - std::numbers::pi;
        node.at = lobe.contour.on_ray(ShaftAngle::from_radians(node.direction)).at;
        node.on_heel = std::abs(node.radius() - lobe.base_radius) < same_radius;
        if (const auto seen = sight.seen_at(node.at)) {
            node.error = Estimate{seen->error.value - allowance, seen->error.error};
            node.of_cutting = seen->of_cutting - allowance;
        }
        nodes.push_back(node);
    }
    settle_heel(nodes, tolerance, *window);
    return nodes;
}

}  // namespace lobewright::inspection
