#include "toolpath/neighbours/neighbours.h"

#include "toolpath/neighbours/cross_section.h"
#include "toolpath/reach.h"
#include "toolpath/refusal.h"
#include "toolpath/section/axial_steps.h"

#include <lobewright/needs.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace lobewright::toolpath {
namespace {

constexpr double endless = 1e4;    // mm: longer than any shaft
constexpr double hairline = 1e-6;  // mm: intervals along the shaft that only touch don't overlap

struct Obstacle {
    double from = 0.0, to = 0.0;      ///< along the shaft
    double radius = 0.0;              ///< of the disc that holds it
    const SolvedLobe* cut = nullptr;  ///< a lobe that is finished, whose contour counts
    std::string name;
};

/// A round part of the cutter. Its axis: parallel, along the shaft at [from, to] of the axial word; radial,
/// along u from `above` the tip; tangential, along v from `beside` the middle.
struct Body {
    BodyPart part = BodyPart::edge;
    double radius = 0.0;
    double from = 0.0, to = 0.0;
    double above = 0.0;
    double beside = 0.0;
    double rounded =
        0.0;  ///< parallel edges: radius of the rounding at the tip, on the side away from the spindle
};

/// How far the rounding of radius r stands over its own tip, `from_axis` of its middle away.
double height_of_rounding(double r, double from_axis) {
    return r - std::sqrt(std::max(0.0, r * r - from_axis * from_axis));
}

bool comes_before(const std::vector<SolvedLobe>& lobes, std::size_t a, std::size_t b) {
    return lobes[a].z < lobes[b].z || (lobes[a].z == lobes[b].z && a < b);
}

std::vector<Obstacle> other_obstacles(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                      std::size_t own) {
    std::vector<Obstacle> found;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const SolvedLobe& lobe = lobes[i];
        if (i == own) continue;
        const bool cut = comes_before(lobes, i, own);
        found.push_back({lobe.z - 0.5 * lobe.width, lobe.z + 0.5 * lobe.width, setup.blank_radius,
                         cut ? &lobe : nullptr, (cut ? "lobe " : "the blank of lobe ") + lobe.name});
    }
    for (const Journal& journal : setup.job.shaft.journals) {
        found.push_back({journal.z - 0.5 * journal.width, journal.z + 0.5 * journal.width,
                         0.5 * journal.diameter, nullptr,
                         "the journal at z " + length_words(journal.z, setup.job.units)});
    }
    return found;
}

std::vector<Body> parallel_bodies(const Setup& setup) {
    const Cutter& cutter = cutter_of(setup.job);
    const bool disc = cutter.kind == CutterKind::disc;
    const double to_spindle = setup.job.machine->spindle_side == SpindleSide::far ? 1.0 : -1.0;
    const double edge = disc ? -0.5 * cutter.width : 0.0,
                 end = disc ? 0.5 * cutter.width : *cutter.flute_length;
    const double neck = disc ? cutter.neck_diameter.value_or(cutter.diameter)
                             : cutter.shank_diameter.value_or(cutter.diameter);
    const auto body = [&](BodyPart part, double diameter, double from, double to) {
        return Body{part, 0.5 * diameter, std::min(to_spindle * from, to_spindle * to),
                    std::max(to_spindle * from, to_spindle * to)};
    };
    std::vector<Body> bodies{body(BodyPart::edge, cutter.diameter, edge, end),
                             body(BodyPart::shank, neck, end, endless)};
    if (!disc)
        bodies[0].rounded = cutter.kind == CutterKind::ball_nose ? bodies[0].radius : cutter.corner_radius;
    if (cutter.reach && cutter.holder_diameter) {
        bodies.push_back(body(BodyPart::holder, *cutter.holder_diameter, edge + *cutter.reach, endless));
    }
    return bodies;
}

std::vector<Body> crossing_bodies(const Setup& setup) {
    const Cutter& cutter = cutter_of(setup.job);
    const bool lying = setup.job.machine->cutter_axis == CutterAxis::tangential;
    // A cutter lying across has its straight flutes' middle over the shaft's axis.
    const double tip =
        !lying ? 0.0
        : cutter.kind == CutterKind::disc
            ? -0.5 * cutter.width
            : -setup.section.half_flat - (*cutter.flute_length - 2.0 * setup.section.half_flat);
    const auto body = [&](BodyPart part, double diameter, double along) {
        Body made{part, 0.5 * diameter};
        (lying ? made.beside : made.above) = tip + along;
        return made;
    };
    std::vector<Body> bodies{body(BodyPart::edge, cutter.diameter, 0.0)};
    const double cutting =
        cutter.kind == CutterKind::disc ? cutter.width : cutter.flute_length.value_or(endless);
    const auto& neck = cutter.kind == CutterKind::disc ? cutter.neck_diameter : cutter.shank_diameter;
    if (neck && *neck > cutter.diameter) bodies.push_back(body(BodyPart::shank, *neck, cutting));
    if (cutter.reach && cutter.holder_diameter) {
        bodies.push_back(body(BodyPart::holder, *cutter.holder_diameter, *cutter.reach));
    }
    return bodies;
}

/// A body against an obstacle: its section in the obstacle's nearest slice, and how far its tip stands over
/// the cutter's.
struct Slice {
    PlaneSection section;
    double raise = 0.0;
};

/// Nothing where they lie apart along the shaft.
std::optional<Slice> slice_of(const Setup& setup, const Body& body, double place, const Obstacle& obstacle) {
    const PlaneSection& cutter = setup.section;
    if (setup.job.machine->cutter_axis == CutterAxis::parallel) {
        const bool apart =
            place + body.to <= obstacle.from + hairline || place + body.from >= obstacle.to - hairline;
        if (apart) return std::nullopt;
        const bool far = setup.job.machine->spindle_side == SpindleSide::far;
        const double from_tip = far ? obstacle.to - place - body.from : place + body.to - obstacle.from;
        const double radius =
            body.radius - height_of_rounding(body.rounded, std::max(0.0, body.rounded - from_tip));
        return Slice{{0.0, radius, 0.0, 0.0, true}, cutter.corner - radius};
    }
    const double off = std::max({0.0, obstacle.from - place, place - obstacle.to});
    if (off >= body.radius - hairline) return std::nullopt;
    const double half = std::sqrt(body.radius * body.radius - off * off);
    if (setup.job.machine->cutter_axis == CutterAxis::tangential) {
        const double radius = 0.5 * cutter_of(setup.job).diameter;
        return Slice{{0.5 * (endless - body.beside), 0.0, 0.5 * (endless + body.beside), 0.0, true},
                     radius - half};
    }
    if (body.part != BodyPart::edge) return Slice{{half, 0.0, cutter.shift, 0.0, true}, body.above};
    if (cutter.half_flat == 0.0) return Slice{{0.0, half, cutter.shift, 0.0, true}, body.radius - half};
    const double corner = std::min(cutter.corner, half);
    const double raise = height_of_rounding(cutter.corner, std::max(0.0, off - cutter.half_flat));
    return Slice{{half - corner, corner, cutter.shift, 0.0, true}, raise};
}

/// Whether the slice, facing along u with its tip at `tip`, meets an outline.
class OutlineTest {
  public:
    OutlineTest(const Setup& setup, const PlaneSection& section, const Outline& fixed)
        : round_(setup.job.machine->cutter_axis == CutterAxis::parallel),
          section_(section),
          meets_(meeting(fixed)),
          distance_(distance_from(fixed)) {}

    [[nodiscard]] bool at(double tip, double facing) const {
        if (round_) return distance_((tip + section_.corner) * unit(facing)) < section_.corner;
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

/// Whether the slice meets a finished lobe as it goes round, looked at in every half degree at which it comes
/// as near to the axis as the lobe's `largest` radius.
bool meets_finished(const Setup& setup, const SolvedLobe& own, const CutterOverLobe& standing,
                    const Slice& slice, const SolvedLobe& other, double largest) {
    const double allowance = setup.job.cut->allowance, tolerance = setup.job.cut->tolerance;
    const OutlineTest meeting(setup, slice.section,
                              turned(outline_of(other.contour, allowance), other.at.radians()));
    const double near = touch_of_circle(slice.section, largest);
    const RadialFunction function(standing.nodes);
    constexpr int looks = 720;
    for (int i = 0; i < looks; ++i) {
        const double facing = i * full_turn / looks;
        const double tip = function.at(facing).radial + slice.raise - tolerance;
        if (tip <= near && meeting.at(tip, facing + own.at.radians())) return true;
    }
    return false;
}

class ClashSearch {
  public:
    ClashSearch(const Setup& setup, const std::vector<SolvedLobe>& lobes, const CutterOverLobe& standing)
        : setup_(setup), lobes_(lobes), standing_(standing) {
        least_ = standing.nodes.front().radial;
        for (const CutterContact& c : standing.nodes)
            least_ = std::min(least_, c.radial);
        least_ -= setup.job.cut->tolerance;
    }

    std::optional<Clash> first_clash() const {
        const bool parallel = setup_.job.machine->cutter_axis == CutterAxis::parallel;
        const std::vector<Obstacle> others = other_obstacles(setup_, lobes_, standing_.lobe);
        const Obstacle own = own_blank();
        for (const Body& body : parallel ? parallel_bodies(setup_) : crossing_bodies(setup_)) {
            for (const double place : standing_.places) {
                if (body.part != BodyPart::edge && touches(body, place, own))
                    return Clash{body.part, own.name};
                for (const Obstacle& other : others) {
                    if (touches(body, place, other)) return Clash{body.part, other.name};
                }
            }
        }
        return std::nullopt;
    }

  private:
    /// What the shank and the holder find on the lobe itself: a parallel cutter steps away from its spindle,
    /// so that they come over what is cut; others stand over the blank.
    [[nodiscard]] Obstacle own_blank() const {
        const SolvedLobe& lobe = lobes_[standing_.lobe];
        const bool cut = setup_.job.machine->cutter_axis == CutterAxis::parallel;
        return {lobe.z - 0.5 * lobe.width, lobe.z + 0.5 * lobe.width, setup_.blank_radius,
                cut ? &lobe : nullptr, (cut ? "lobe " : "the blank of lobe ") + lobe.name};
    }
    [[nodiscard]] bool touches(const Body& body, double place, const Obstacle& obstacle) const {
        const auto slice = slice_of(setup_, body, place, obstacle);
        if (!slice) return false;
        const double radius = obstacle.cut != nullptr
                                  ? std::min(obstacle.radius, obstacle.cut->contour.largest_radius() +
                                                                  setup_.job.cut->allowance)
                                  : obstacle.radius;
        if (least_ + slice->raise >= touch_of_circle(slice->section, radius) - hairline) return false;
        return obstacle.cut == nullptr ||
               meets_finished(setup_, lobes_[standing_.lobe], standing_, *slice, *obstacle.cut, radius);
    }

    const Setup& setup_;
    const std::vector<SolvedLobe>& lobes_;
    const CutterOverLobe& standing_;
    double least_ = 0.0;
};

using Change = std::function<void(Cutter&, double)>;

/// Whether the lobe can be cut with the job's cutter changed so.
bool fits(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index, const Change& change,
          double size) {
    Job job = setup.job;
    Cutter& cutter = job.cutters.find(job.cut->cutter)->second;
    change(cutter, size);
    cutter.corner_radius = std::min(cutter.corner_radius, 0.5 * cutter.diameter);
    if (unfit_cutter(job, cutter)) return false;
    const PlaneSection section = section_of(job, cutter);
    Setup changed{job, section, setup.grid, setup.steps};
    changed.blank_radius = setup.blank_radius;
    if (refuse_shift(changed, lobes[index])) return false;
    const auto nodes = contacts(lobes[index].contour, section, job.cut->allowance, {1e-4});
    if (hindrance(nodes, section) != Hindrance::none) return false;
    const auto steps = axial_steps(changed, lobes[index], nodes, 0.25 * job.cut->tolerance);
    return steps && !find_clash(changed, lobes, {index, steps->places, nodes});
}

/// The size nearest to `from`, between it and `to`, that fits: by bisection; nothing where `to` does not fit
/// either.
std::optional<double> nearest_fit(const std::function<bool(double)>& fit, double from, double to) {
    if (!fit(to)) return std::nullopt;
    double fails = from, works = to;
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (fails + works);
        (fit(middle) ? works : fails) = middle;
    }
    return works;
}

/// As nearest_fit, going down from `from` by halves first: smaller still may not reach, though a size between
/// does.
std::optional<double> largest_fit(const std::function<bool(double)>& fit, double from) {
    constexpr int parts = 24;
    for (int i = parts - 1; i > 0; --i) {
        const double size = from * i / parts;
        if (fit(size)) return nearest_fit(fit, from * (i + 1) / parts, size);
    }
    return std::nullopt;
}

const char* part_name(BodyPart part, CutterKind kind) {
    switch (part) {
        case BodyPart::edge:
            return "";
        case BodyPart::holder:
            return "the holder of ";
        case BodyPart::shank:
            break;
    }
    return kind == CutterKind::disc ? "the neck of " : "the shank of ";
}

struct ClashCure {
    std::string key;
    std::string remedy;
};

class ClashCures {
  public:
    ClashCures(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index)
        : setup_(setup), lobes_(lobes), index_(index), cutter_(cutter_of(setup.job)) {}

    ClashCure of(BodyPart part) const {
        switch (part) {
            case BodyPart::edge:
                return of_edge();
            case BodyPart::holder:
                return of_holder();
            case BodyPart::shank:
                break;
        }
        return of_shank();
    }

  private:
    [[nodiscard]] std::function<bool(double)> fit(Change change) const {
        return [this, change = std::move(change)](double size) {
            return fits(setup_, lobes_, index_, change, size);
        };
    }
    [[nodiscard]] std::string at_most(double mm) const { return length_at_most(mm, setup_.job.units); }
    [[nodiscard]] std::string at_least(double mm) const { return length_at_least(mm, setup_.job.units); }

    [[nodiscard]] ClashCure of_edge() const {
        const bool parallel = setup_.job.machine->cutter_axis == CutterAxis::parallel;
        if (parallel && cutter_.kind != CutterKind::disc) {
            return {".flute_length",
                    "the body of a parallel end mill lies over the neighbours: use a disc with a slim neck, "
                    "or a radial cutter"};
        }
        if (parallel) {
            const auto width =
                largest_fit(fit([](Cutter& c, double size) { c.width = size; }), cutter_.width);
            return {".width", width ? "use a width of " + at_most(*width) + " or less"
                                    : "use a disc with a slimmer neck, or a radial cutter"};
        }
        const auto diameter =
            largest_fit(fit([](Cutter& c, double size) { c.diameter = size; }), cutter_.diameter);
        return {".diameter", diameter ? "use a diameter of " + at_most(*diameter) + " or less"
                                      : "use a narrow disc parallel to the shaft"};
    }

    [[nodiscard]] ClashCure of_shank() const {
        const bool disc = cutter_.kind == CutterKind::disc;
        const bool parallel = setup_.job.machine->cutter_axis == CutterAxis::parallel;
        if (!parallel) {
            const auto length =
                nearest_fit(fit([](Cutter& c, double size) { c.flute_length = size; }),
                            cutter_.flute_length.value_or(0.0), cutter_.flute_length.value_or(0.0) + 200.0);
            return {".flute_length", length ? "use a flute_length of " + at_least(*length) + " or more"
                                            : "use a shank no thicker than the cutter"};
        }
        const Change change = [disc](Cutter& c, double size) {
            (disc ? c.neck_diameter : c.shank_diameter) = size;
        };
        const double now = (disc ? cutter_.neck_diameter : cutter_.shank_diameter).value_or(cutter_.diameter);
        const auto slim = nearest_fit(fit(change), now, 0.01 * now);
        const std::string key = disc ? ".neck_diameter" : ".shank_diameter";
        if (slim) return {key, "use a " + key.substr(1) + " of " + at_most(*slim) + " or less"};
        const auto wide = nearest_fit(fit([](Cutter& c, double size) { c.diameter = size; }),
                                      cutter_.diameter, 8.0 * cutter_.diameter);
        return {key, wide ? "use a cutter of " + at_least(*wide) + " diameter or more on the same neck"
                          : "cut it with a radial cutter"};
    }

    [[nodiscard]] ClashCure of_holder() const {
        const Change change = [](Cutter& c, double size) { c.reach = size; };
        const auto longer = nearest_fit(fit(change), *cutter_.reach, *cutter_.reach + 2000.0);
        return {".reach", longer ? "let the cutter stand out of its holder by a reach of " +
                                       at_least(*longer) + " or more"
                                 : "use a slimmer holder"};
    }

    const Setup& setup_;
    const std::vector<SolvedLobe>& lobes_;
    std::size_t index_;
    const Cutter& cutter_;
};

}  // namespace

std::optional<Clash> find_clash(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                const CutterOverLobe& standing) {
    return ClashSearch(setup, lobes, standing).first_clash();
}

std::optional<Diagnostic> refuse_neighbours(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                            const CutterOverLobe& standing) {
    const auto clash = find_clash(setup, lobes, standing);
    if (!clash) return std::nullopt;
    const ClashCure cure = ClashCures(setup, lobes, standing.lobe).of(clash->part);
    const Job& job = setup.job;
    return refusal(job, cutter_key(job) + cure.key, "neighbour-in-the-way",
                   std::string(part_name(clash->part, cutter_of(job).kind)) + "cutter " + job.cut->cutter +
                       " touches " + clash->with + " while it cuts lobe " + lobes[standing.lobe].name +
                       " at full depth",
                   cure.remedy);
}

}  // namespace lobewright::toolpath
