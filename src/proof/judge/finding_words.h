/// The proof's sentences, all of them: facts in, words in the job's unit out.
#pragma once

#include <lobewright/number_text.h>
#include <lobewright/proof.h>

#include <string>

namespace lobewright::proof {

class FindingWords {
  public:
    explicit FindingWords(Units units) : units_(units) {}

    /// What a lobe's surface is found to be.
    [[nodiscard]] std::string gouge(const LobeVerdict& lobe, double tolerance) const;
    [[nodiscard]] std::string material_left(const LobeVerdict& lobe, double tolerance) const;
    [[nodiscard]] static std::string not_cut(const std::string& lobe);
    [[nodiscard]] static std::string too_many_planes(const std::string& lobe, std::size_t most);
    [[nodiscard]] static std::string two_motions();

    /// What the cutter does on its way. `psi`: radians, the direction of the ray.
    [[nodiscard]] std::string rapid_in_stock(const std::string& lobe, double psi, double depth) const;
    [[nodiscard]] static std::string rapid_apart(const std::string& lobe, double psi);
    [[nodiscard]] static std::string spindle_off(const std::string& lobe, double psi);
    [[nodiscard]] std::string touches_lobe(const char* part, const std::string& lobe, double psi,
                                           double depth) const;
    [[nodiscard]] std::string touches_journal(const char* part, double z, double depth) const;
    [[nodiscard]] std::string surface_feed(double mm_per_minute, double wanted) const;

    /// How the metal is taken off. `roughs`: the job gives a depth for its roughing.
    [[nodiscard]] std::string depth(const std::string& lobe, double psi, double depth, double wanted,
                                    bool roughs) const;
    [[nodiscard]] std::string plunge(const std::string& lobe, double psi, double depth) const;
    [[nodiscard]] static std::string dwell(const std::string& lobe);
    [[nodiscard]] std::string thick_chip(double chip, double largest) const;
    [[nodiscard]] std::string thin_chip(double chip, double smallest) const;
    [[nodiscard]] static std::string rim_speed(double metres_per_second, double fastest);

    /// What the words say, whatever the cutter leaves.
    [[nodiscard]] static std::string not_ended();
    [[nodiscard]] static std::string blind_move();
    [[nodiscard]] static std::string unbounded_blend();
    [[nodiscard]] static std::string past_axis();
    [[nodiscard]] static std::string spindle_speed(double rev_per_minute, double wanted);
    [[nodiscard]] static std::string spindle_reversed();

    /// What must be right around the cutting. Numbers of a tool or a length: 0 is none.
    [[nodiscard]] static std::string wrong_tool(int tool, int wanted);
    [[nodiscard]] static std::string changes_elsewhere();
    [[nodiscard]] static std::string length_number(int length, int wanted);
    [[nodiscard]] std::string side_axis(double side, double wanted) const;
    /// `radial` is NaN where no word ever said it.
    [[nodiscard]] std::string ends_not_clear(double radial, double clear) const;
    [[nodiscard]] std::string ends_elsewhere(const ToolChange& place) const;
    [[nodiscard]] static std::string home_from_within();

    /// What the machine must do. Speeds by the minute, accelerations by the second squared, in mm or degrees.
    struct AxisName {
        const char* name;
        bool rotary;
    };
    [[nodiscard]] std::string axis_speed(AxisName axis, double speed, double limit) const;
    [[nodiscard]] std::string axis_acceleration(AxisName axis, double acceleration, double limit) const;
    [[nodiscard]] std::string axis_jump(AxisName axis, double jump, double limit) const;
    [[nodiscard]] std::string beyond_travel(AxisName axis, double word, const Travel& travel) const;
    [[nodiscard]] static std::string beyond_rotary_travel(double word, double travel);
    [[nodiscard]] static std::string turns_too_far(double turned, double travel);
    [[nodiscard]] static std::string runs_away(double seconds, double asked);
    [[nodiscard]] static std::string block_rate(double seconds, double blocks_per_second);

  private:
    /// "0.0123 mm" or "0.00048 in".
    [[nodiscard]] std::string length(double mm) const;
    /// "850 mm/min".
    [[nodiscard]] std::string speed(double mm_per_minute) const;
    [[nodiscard]] std::string axis_speed_text(AxisName axis, double per_minute) const;
    [[nodiscard]] std::string acceleration_text(AxisName axis, double value) const;
    [[nodiscard]] std::string place(const LobeVerdict& lobe, const Deviation& deviation) const;

    Units units_;
};

}  // namespace lobewright::proof
