#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/column_layout.h"
#include "base/text/length_text.h"
#include "base/text/wrapped.h"
#include "profile/fullest/limit_words.h"
#include "profile/judge/card_views.h"

#include <lobewright/number_text.h>
#include <lobewright/soundness.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace profile {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr double per_degree2 = per_degree * per_degree;
constexpr double per_degree3 = per_degree2 * per_degree;

/// Numbers as people read them, in the job's units.
struct Figures {
    Units units;

    [[nodiscard]] std::string length(double mm, int decimals_mm = 3) const {
        return short_length(mm, units, {decimals_mm, decimals_mm + 1});
    }
    static std::string angle(double degrees) { return shortest_fixed(degrees, 2); }
    static std::string significant(double value) {
        if (value == 0.0) return "0";
        const int decimals = 2 - elementary::decimal_exponent(value);
        return shortest_fixed(value, std::clamp(decimals, 0, 9));
    }
};

/// "14 BTDC": the size, and the word for its sign.
std::string event(CrankAngle angle, const char* positive, const char* negative) {
    const double degrees = angle.degrees();
    return shortest_fixed(std::abs(degrees), 1) + ' ' + (degrees >= 0.0 ? positive : negative);
}

std::string opens_text(Valve valve, CrankAngle opens) {
    return valve == Valve::inlet ? event(opens, "BTDC", "ATDC") : event(opens, "BBDC", "ABDC");
}

std::string closes_text(Valve valve, CrankAngle closes) {
    return valve == Valve::inlet ? event(closes, "ABDC", "BBDC") : event(closes, "ATDC", "BTDC");
}

std::string centre_text(Valve valve, CrankAngle centre) {
    return valve == Valve::inlet ? event(centre, "ATDC", "BTDC") : event(centre, "BTDC", "ATDC");
}

/// "14 BTDC to 46 ABDC, centre 106 ATDC"
std::string card_text(Valve valve, const CardView& card) {
    return opens_text(valve, card.opens) + " to " + closes_text(valve, card.closes) + ", centre " +
           centre_text(valve, card.centre);
}

/// Cells in columns: the first, and a last one without a heading, to the left as words are, the others right.
std::string columns_text(const std::vector<std::vector<std::string>>& rows) {
    std::vector<ColumnStyle> styles;
    for (const std::string& head : rows.front())
        styles.push_back({styles.empty() || head.empty() ? Flush::left : Flush::right});
    return in_columns(rows, styles);
}

std::string lobe_rows(const Job& job, const JobReport& report) {
    const bool timed = std::any_of(report.lobes.begin(), report.lobes.end(),
                                   [](const LobeReport& lobe) { return lobe.opens.has_value(); });
    const Figures figures{job.units};
    std::vector<std::vector<std::string>> rows{{"lobe", "nose at", "lift", "action"}};
    if (timed)
        rows.front().insert(rows.front().end(), {"opens", "closes", "open for", "centre", "clearance"});
    for (const LobeReport& lobe : report.lobes) {
        std::vector<std::string> row{lobe.name, Figures::angle(lobe.at.degrees()),
                                     figures.length(lobe.lift, 4),
                                     Figures::angle(lobe.action_angle.degrees())};
        if (lobe.opens) {
            row.insert(row.end(),
                       {opens_text(lobe.valve, *lobe.opens), closes_text(lobe.valve, *lobe.closes),
                        shortest_fixed(lobe.duration->degrees(), 1),
                        centre_text(lobe.valve, *lobe.lobe_centre), figures.length(lobe.clearance)});
        }
        row.resize(rows.front().size());
        rows.push_back(std::move(row));
    }
    return columns_text(rows);
}

/// Lobes that differ in no figure but their place are told once.
bool told_together(const LobeReport& a, const LobeReport& b) {
    constexpr double same = 1e-9;               // radians: a millionth of the last decimal that is printed
    constexpr double same_stress = 1e3 * same;  // MPa, likewise
    return a.profile == b.profile && a.follower == b.follower && a.face_needed == b.face_needed &&
           std::abs((a.action_angle - b.action_angle).radians()) < same &&
           std::abs(a.max_pressure_angle.value - b.max_pressure_angle.value) < same &&
           std::abs(a.max_contact_stress_mpa.value_or(FigureAt{}).value -
                    b.max_contact_stress_mpa.value_or(FigureAt{}).value) < same_stress &&
           a.valve == b.valve && a.opens.has_value() == b.opens.has_value();
}

/// The figures of one group of lobes, a row each: what, how much, at which cam angle, and what that means.
class LobeText {
  public:
    LobeText(const Job& job, const LobeReport& lobe)
        : job_(job), lobe_(lobe), figures_{job.units}, rows_{{"", "figure", "cam angle", ""}} {}

    std::string text();

  private:
    void row(const std::string& what, const std::string& value, const std::string& remark = {}) {
        rows_.push_back({"  " + what, value, "", remark});
    }
    void row(const std::string& what, const std::string& value, std::optional<CamAngle> at,
             const std::string& remark = {}) {
        rows_.push_back({"  " + what, value, at ? fixed(at->degrees(), 1) : "everywhere", remark});
    }
    void put_shape();
    void put_cards();
    void put_motion();
    void put_limits();
    void put_follower();
    void put_contact();

    const Job& job_;
    const LobeReport& lobe_;
    Figures figures_;
    std::vector<std::vector<std::string>> rows_;
};

void LobeText::put_shape() {
    const std::string share = Figures::significant(lobe_.nose_to_base) + " of the base circle's";
    row("base circle radius", figures_.length(lobe_.base_radius));
    if (lobe_.flank_radius) {
        const auto flank = [this](double radius) {
            return std::isinf(radius) ? "straight" : figures_.length(radius);
        };
        const bool alike = *lobe_.flank_radius == *lobe_.closing_flank_radius;
        row(alike ? "flank radius" : "opening flank radius", flank(*lobe_.flank_radius));
        if (!alike) row("closing flank radius", flank(*lobe_.closing_flank_radius));
        row("nose radius", figures_.length(*lobe_.nose_radius), share);
    }
    row("smallest radius", figures_.length(lobe_.min_curvature_radius.value), lobe_.min_curvature_radius.at,
        lobe_.flank_radius ? "" : "at the peak " + share);
    if (lobe_.min_hollow_radius) row("smallest hollow", figures_.length(*lobe_.min_hollow_radius));
}

/// "valve open at clearance", "at the card's 1 mm", "at 0.050 in of valve lift"
std::string view_words(const CardView& card, Units units) {
    if (card.at == CheckingLift::clearance) return "valve open at clearance";
    if (card.at == CheckingLift::card)
        return "at the card's " + with_unit(short_length(card.valve_lift, units, {3, 4}), units);
    return "at " + checking_word(card.at) + " of valve lift";
}

/// How long the valve is open at each lift at which cards are compared, each lift once.
void LobeText::put_cards() {
    double last = -1.0;
    for (const CardView& card : lobe_.cards) {
        if (card.valve_lift == last) continue;
        last = card.at == CheckingLift::card ? card.valve_lift : last;
        row(view_words(card, job_.units), shortest_fixed(card.duration.degrees(), 1),
            card_text(lobe_.valve, card));
    }
}

/// What keeps a fullest lift from being fuller, the dearest limit first.
void LobeText::put_limits() {
    std::vector<ReachedLimit> limits = lobe_.limited_by;
    std::stable_sort(limits.begin(), limits.end(),
                     [](const ReachedLimit& a, const ReachedLimit& b) { return a.gain > b.gain; });
    for (const ReachedLimit& reached : limits) {
        const std::string change = is_least(reached.limit) ? "1 % less" : "1 % more";
        const double percent = 100.0 * reached.gain;
        constexpr double worth_telling = 0.0005;
        row("limited by " + limit_key(reached.limit),
            percent < worth_telling ? "0 %" : Figures::significant(percent) + " %", "of area for " + change);
    }
}

void LobeText::put_motion() {
    const double scale = 1.0 / mm_per(job_.units);
    const auto at_speed = [](const std::optional<double>& value, const char* unit) {
        return value ? Figures::significant(*value) + unit : std::string();
    };
    const std::string speed =
        job_.contact ? " at " + shortest_fixed(job_.contact->crank_speed, 0) + " rev/min" : std::string();
    row("area, lift × degrees", Figures::significant(lobe_.area * scale / per_degree));
    put_limits();
    row("velocity per degree", Figures::significant(lobe_.max_velocity.value * scale * per_degree),
        lobe_.max_velocity.at, at_speed(lobe_.peak_velocity, " m/s") + speed);
    row("acceleration per degree²", Figures::significant(lobe_.max_acceleration.value * scale * per_degree2),
        lobe_.max_acceleration.at, at_speed(lobe_.peak_acceleration, " m/s²"));
    row("deceleration", Figures::significant(lobe_.min_acceleration.value * scale * per_degree2),
        lobe_.min_acceleration.at, at_speed(lobe_.peak_deceleration, " m/s²"));
    row("jerk per degree³", Figures::significant(lobe_.max_jerk.value * scale * per_degree3),
        lobe_.max_jerk.at);
    if (lobe_.seating_velocity)
        row("valve meets its seat", Figures::significant(*lobe_.seating_velocity) + " m/s");
}

void LobeText::put_follower() {
    if (!lobe_.face_needed) {
        const auto angle = [](const FigureAt& figure) { return fixed(figure.value / per_degree, 1); };
        row("pressure angle, rising", angle(lobe_.rise_pressure_angle), lobe_.rise_pressure_angle.at);
        row("falling", angle(lobe_.fall_pressure_angle), lobe_.fall_pressure_angle.at);
        if (lobe_.contact_travel)
            row("contact runs along pad", figures_.length(lobe_.contact_travel->value),
                lobe_.contact_travel->at);
        return;
    }
    const auto& has = job_.followers.find(lobe_.follower)->second.face_diameter;
    row("contact runs sideways", figures_.length(lobe_.contact_travel->value), lobe_.contact_travel->at);
    row("tappet face needed", figures_.length(*lobe_.face_needed),
        has ? "it has " + figures_.length(*has) : std::string());
}

void LobeText::put_contact() {
    if (!lobe_.greatest_force) return;
    row("least contact force", Figures::significant(lobe_.least_force->value) + " N", lobe_.least_force->at);
    row("greatest", Figures::significant(lobe_.greatest_force->value) + " N", lobe_.greatest_force->at);
    if (lobe_.float_speed_rpm) row("floats at", shortest_fixed(*lobe_.float_speed_rpm, 0) + " rev/min");
    if (!lobe_.max_contact_stress_mpa) return;
    row("contact pressure", shortest_fixed(lobe_.max_contact_stress_mpa->value, 0) + " MPa",
        lobe_.max_contact_stress_mpa->at);
    row("turned slowly", shortest_fixed(lobe_.standing_contact_stress_mpa->value, 0) + " MPa",
        lobe_.standing_contact_stress_mpa->at,
        "greatest shear " + figures_.length(*lobe_.shear_depth, 4) + " deep");
}

std::string LobeText::text() {
    put_shape();
    put_cards();
    put_motion();
    put_follower();
    put_contact();
    return columns_text(rows_);
}

std::string groups_text(const Job& job, const JobReport& report) {
    std::string text;
    std::vector<bool> told(report.lobes.size(), false);
    for (std::size_t i = 0; i < report.lobes.size(); ++i) {
        if (told[i]) continue;
        std::string names;
        for (std::size_t j = i; j < report.lobes.size(); ++j) {
            if (told[j] || !told_together(report.lobes[i], report.lobes[j])) continue;
            told[j] = true;
            names += (names.empty() ? "" : ", ") + report.lobes[j].name;
        }
        text += '\n' + report_lines(names + ": profile " + report.lobes[i].profile + ", follower " +
                                        report.lobes[i].follower,
                                    2);
        text += LobeText(job, report.lobes[i]).text();
    }
    return text;
}

std::string findings_text(const JobReport& report) {
    std::string text;
    for (const Diagnostic& finding : lobes_together(report.findings)) {
        const std::string about = finding.lobe.empty() ? std::string() : finding.lobe + ": ";
        text += report_lines(severity_word(finding.severity) + ": " + about + finding.what, 2);
    }
    return text;
}

/// "both open for 12", "both shut for 3"
std::string overlap_words(CrankAngle overlap) {
    const double degrees = overlap.degrees();
    return degrees >= 0.0 ? "both open for " + shortest_fixed(degrees, 1)
                          : "both shut for " + shortest_fixed(-degrees, 1);
}

std::string first_cylinder_text(const JobReport& report) {
    if (!report.overlap) return {};
    std::string text = "cylinder 1: " + overlap_words(*report.overlap) + " crank degrees round TDC, lobes " +
                       shortest_fixed(report.lobe_separation->degrees(), 2) + " cam degrees apart";
    for (const OverlapView& view : report.overlaps) {
        if (view.at == CheckingLift::clearance) continue;
        text += (view.at == CheckingLift::card ? "; at the cards' lift "
                                               : "; at " + checking_word(view.at) + ' ') +
                overlap_words(view.overlap) + ", " + shortest_fixed(view.lobe_separation.degrees(), 2) +
                " apart";
    }
    return report_lines(text, 2);
}

}  // namespace
}  // namespace profile

std::string report_text(const Job& job, const JobReport& report) {
    using namespace profile;
    const std::string title = job.title.empty() ? std::string("camshaft") : job.title;
    const std::string count = counted(static_cast<long long>(report.lobes.size()), "lobe");
    const std::string turning = sense_words(job.shaft.turns);
    std::string text =
        report_lines(title + ": " + count + ", turning " + turning + " seen from the drive end", 2);
    text += std::string("lengths in ") + units_noun(job.units) +
            "; angles in degrees of the cam, 0 at the peak; valve events in degrees of the crank\n";
    if (report.lobes.empty()) return text;
    text += '\n' + lobe_rows(job, report) + first_cylinder_text(report) + groups_text(job, report);
    if (!report.findings.empty()) text += '\n' + findings_text(report);
    return text;
}

}  // namespace lobewright
