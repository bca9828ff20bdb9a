#include "toolpath/neighbours/neighbours.h"

#include "toolpath/neighbours/clash_cures.h"
#include "toolpath/neighbours/cross_section.h"
#include "toolpath/neighbours/cutter_bodies.h"
#include "toolpath/neighbours/obstacles.h"

#include <algorithm>
#include <functional>

namespace lobewright::toolpath {
namespace {

/// Whether a slice, facing along u with its tip at `tip`, meets an outline.
class OutlineTest {
  public:
    OutlineTest(const Setup& setup, const PlaneSection& section, const Outline& fixed)
        : round_(setup.machine.cutter_axis == CutterAxis::parallel),
          section_(section),
          meets_(meeting(fixed)),
          distance_(distance_from(fixed)) {}

    [[nodiscard]] bool at(double tip, ShaftAngle facing) const {
        if (round_) return distance_((tip + section_.corner) * unit(facing.radians())) < section_.corner;
        const double left = section_.shift - section_.half_flat - section_.corner;
        const double right = section_.shift + section_.half_flat + section_.corner;
        const double far = tip + endless;  // a box that reaches out past everything
        return meets_(turned({{tip, left}, {far, left}, {far, right}, {tip, right}}, facing));
    }

  private:
    bool round_;
    const PlaneSection& section_;
    std::function<bool(const Outline&)> meets_;
    std::function<double(Vec2)> distance_;
};

class ClashSearch {
  public:
    ClashSearch(const Setup& setup, const std::vector<SolvedLobe>& lobes, const CutterOverLobe& over)
        : setup_(setup), lobes_(lobes), over_(over), function_(over.nodes) {}

    [[nodiscard]] std::optional<Clash> first_clash() const {
        const std::vector<Obstacle> others = other_obstacles(setup_, lobes_, over_.lobe);
        const Obstacle own = own_obstacle(setup_, lobes_, over_.lobe);
        for (const RoundBody& body : bodies_of(setup_)) {
            if (body.part == BodyPart::edge && !over_.with_edge) continue;
            for (const double place : over_.places) {
                if (body.part != BodyPart::edge && touches(body, place, own))
                    return Clash{body.part, own.kind, own.index};
                for (const Obstacle& other : others) {
                    if (touches(body, place, other)) return Clash{body.part, other.kind, other.index};
                }
            }
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] bool touches(const RoundBody& body, double place, const Obstacle& obstacle) const {
        const auto slice = slice_of(setup_, body, place, obstacle.along);
        if (!slice) return false;
        const double near = touch_of_circle(slice->section, obstacle.radius);
        const double lowest = function_.least() - setup_.cut.tolerance + slice->raise;
        if (lowest >= near - hairline) return false;
        return obstacle.kind != ObstacleKind::finished_lobe ||
               meets_finished(*slice, lobes_[obstacle.index], near);
    }

    /// Whether the slice meets a finished lobe as the shaft turns, looked at in every half degree at which it
    /// comes as `near` to the axis as the lobe reaches.
    [[nodiscard]] bool meets_finished(const Slice& slice, const SolvedLobe& other, double near) const {
        constexpr int looks = 720;
        const OutlineTest test(setup_, slice.section,
                               turned(outline_of(other.contour, setup_.cut.allowance), other.at));
        for (int i = 0; i < looks; ++i) {
            const ShaftAngle facing = ShaftAngle::from_radians(i * full_turn / looks);
            const double tip = function_.at(facing).radial + slice.raise - setup_.cut.tolerance;
            if (tip <= near && test.at(tip, facing + lobes_[over_.lobe].at)) return true;
        }
        return false;
    }

    const Setup& setup_;
    const std::vector<SolvedLobe>& lobes_;
    const CutterOverLobe& over_;
    RadialFunction function_;
};

}  // namespace

std::optional<Clash> find_clash(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                const CutterOverLobe& over) {
    return ClashSearch(setup, lobes, over).first_clash();
}

std::optional<NeighbourInTheWay> neighbour_in_the_way(const Setup& setup,
                                                      const std::vector<SolvedLobe>& lobes,
                                                      const CutterOverLobe& over) {
    const auto clash = find_clash(setup, lobes, over);
    if (!clash) return std::nullopt;
    return with_cure(setup, lobes, over.lobe, *clash);
}

}  // namespace lobewright::toolpath
