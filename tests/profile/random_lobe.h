/// Random lobes of every law, ramp, arc and follower kind, ready to be judged.
#pragma once

#include "basalt.h"
#include "known_law.h"

#include <optional>
#include <random>

namespace random_lobe {

using namespace lobewright;

/// The same on every machine, which the library's own distributions are not.
class Source {
  public:
    explicit Source(unsigned seed) : engine_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
    }
    int pick(int low, int high) {
        return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
    }
    bool chance(double share) { return between(0.0, 1.0) < share; }

  private:
    std::mt19937 engine_;
};

inline std::optional<Ramp> draw_ramp(Source& random, double lift) {
    if (random.chance(0.4)) return std::nullopt;
    return basalt::ramp(lift * random.between(0.01, 0.08), random.between(8.0, 35.0));
}

inline MotionProfile draw_law(Source& random, int kind) {
    const std::vector<int> powers[] = {{2, 6}, {2, 5, 9}, {2, 10, 18, 26}, {2, 4, 6, 8, 10}, {2, 16, 30, 44}};
    MotionProfile profile =
        basalt::law(static_cast<LawKind>(kind), random.between(10.0, 30.0), random.between(2.0, 9.0),
                    random.between(45.0, 100.0), random.between(45.0, 100.0));
    if (profile.law == LawKind::power_polynomial) profile.powers = powers[random.pick(0, 4)];
    if (random.chance(0.3)) profile.closing_angle = profile.opening_angle;
    if (random.chance(0.3)) profile.dwell_angle = basalt::cam_degrees(random.between(0.0, 20.0));
    profile.opening_ramp = draw_ramp(random, profile.lift);
    profile.closing_ramp = draw_ramp(random, profile.lift);
    return profile;
}

inline SegmentsProfile draw_segments(Source& random) {
    const LawKind laws[] = {LawKind::cycloidal, LawKind::parabolic, LawKind::simple_harmonic,
                            LawKind::modified_trapezoid, LawKind::power_polynomial};
    const auto move = [&](double to) {
        return Segment{
            basalt::cam_degrees(random.between(45.0, 75.0)), to, laws[random.pick(0, 4)], {2, 7, 11}};
    };
    const double top = random.between(2.0, 6.0);
    SegmentsProfile profile{random.between(15.0, 35.0), {move(top)}};
    profile.segments.push_back(
        {basalt::cam_degrees(random.between(5.0, 40.0)), std::nullopt, LawKind::polynomial_345, {}});
    profile.segments.push_back(move(top * random.between(0.2, 0.6)));
    profile.segments.push_back(move(0.0));
    return profile;
}

inline ArcsProfile draw_arcs(Source& random) {
    const double base = random.between(10.0, 25.0), lift = base * random.between(0.1, 0.5);
    const double flanks[] = {base * random.between(1.5, 8.0), straight_flank,
                             -base * random.between(2.0, 10.0)};
    ArcsProfile arcs =
        basalt::arcs_with_flank(base, lift, random.between(90.0, 170.0), flanks[random.pick(0, 2)]);
    if (random.chance(0.4)) arcs.closing_flank_radius = flanks[random.pick(0, 2)];
    if (random.chance(0.4))
        arcs.ramps = ArcRamps{0.02 * lift, basalt::cam_degrees(random.between(15.0, 30.0)),
                              basalt::cam_degrees(random.between(15.0, 30.0))};
    return arcs;
}

/// A law of the tests' own, read every degree or two with the scatter of a good indicator.
inline TableProfile draw_table(Source& random) {
    const known_law::Event law{static_cast<known_law::Law>(random.pick(0, 3)), random.between(3.0, 9.0),
                               random.between(55.0, 90.0), random.between(55.0, 90.0)};
    TableProfile profile;
    profile.base_radius = random.between(12.0, 30.0);
    profile.smoothing = random.chance(0.3) ? 0.0 : 0.005;
    const double step = random.chance(0.5) ? 1.0 : 2.0;
    for (double angle = -110.0; angle <= 110.0; angle += step) {
        const double lift = law.at(angle).lift;
        const double scatter = profile.smoothing > 0.0 && lift > 0.0 ? random.between(-0.001, 0.001) : 0.0;
        profile.readings.push_back({basalt::cam_degrees(angle), std::max(0.0, lift + scatter), {}});
    }
    return profile;
}

inline constexpr int follower_kinds = 7;

inline Follower draw_follower(Source& random, int kind) {
    const double offset = random.chance(0.5) ? random.between(-4.0, 4.0) : 0.0;
    const Sense side = random.chance(0.5) ? Sense::ccw : Sense::cw;
    switch (kind) {
        case 0:
            return basalt::flat(30.0);
        case 1:
            return basalt::roller(random.between(3.0, 12.0), offset);
        case 2:
            return basalt::domed(random.between(30.0, 120.0), offset);
        case 3:
            return basalt::knife(offset);
        case 4:
            return basalt::pivoted(random.between(4.0, 15.0), random.between(35.0, 55.0),
                                   random.between(30.0, 50.0), side);
        case 5: {
            Follower tilted = basalt::flat(40.0);
            tilted.face_tilt = SpaceAngle::from_degrees(random.between(-20.0, 20.0));
            return tilted;
        }
        default: {
            Follower pad = basalt::pivoted(0.0, random.between(45.0, 65.0), random.between(30.0, 50.0), side);
            pad.pad_depth = random.between(-5.0, 5.0);
            return pad;
        }
    }
}

inline ContactLoad draw_load(Source& random) {
    ContactLoad load;
    load.spring_preload = random.chance(0.1) ? 0.0 : random.between(20.0, 300.0);
    load.spring_rate = random.chance(0.1) ? 0.0 : random.between(2.0, 40.0);
    load.moving_mass = random.chance(0.1) ? 0.0 : random.between(0.02, 0.5);
    load.crank_speed = random.between(500.0, 9000.0);
    return load;
}

/// Of every eleven numbers in a row eight are a law each, the others arcs, a table and segments.
inline Profile draw_profile(Source& random, int number) {
    const int shape = number % 11;
    if (shape == 8) return draw_arcs(random);
    if (shape == 9) return draw_table(random);
    if (shape == 10) return draw_segments(random);
    return draw_law(random, shape);
}

/// One lobe, or nothing where it was drawn impossible; every seven have every kind of follower.
inline std::optional<Job> draw(Source& random, int number) {
    const Profile profile = draw_profile(random, number);
    Job job = basalt::job(profile, draw_follower(random, number % follower_kinds),
                          random.chance(0.5) ? Sense::ccw : Sense::cw);
    job.contact = draw_load(random);
    if (random.chance(0.2)) job.lobes.front().repeat = 2;
    if (!solve_lobes(job)) return std::nullopt;
    return job;
}

}  // namespace random_lobe
