// The job file that answers come to, commented for somebody who reads one for the first time: the design, and how it is cut.
import { followerLift, isProgram, numberOf, settled } from "./answers.js";
import { block, comment, even, line, per, shown, whole } from "./job_lines.js";
import { quote } from "./toml_places.js";
import { WrittenDesign } from "./written_design.js";

class Writer extends WrittenDesign {
  limits(radial, axial, rotary, acceleration, turning) {
    return block(
      comment("What the axes can do. These are assumed: your machine's manual has its own."),
      "[machine.limits]",
      line("radial_speed", whole(even(radial / per[this.units], 5))),
      line("axial_speed", whole(even(axial / per[this.units], 5))),
      line("rotary_speed", whole(rotary), "degrees per minute"),
      line("radial_acceleration", whole(even(acceleration / per[this.units], 2)), "per second, per second"),
      line("rotary_acceleration", whole(turning)),
    );
  }
  machine(axis, more) {
    const radial = this.mm(60, { mm: 5, inch: 0.25 }),
      axial = Number((this.length + this.mm(12, { mm: 1, inch: 0.25 })).toFixed(3));
    return block(
      comment(
        `The machine. ${quote(this.a.post)} is a post-processor that the program brings along; the list under "post" shows the others.`,
      ),
      "[machine]",
      line("post", quote(this.a.post)),
      line("cutter_axis", quote(axis)),
      ...more,
      line("rotary_positive", quote(this.a.positive), "the way the shaft turns for a + move, seen from the drive end: try it"),
      line("tool_change", `{ radial = ${shown(radial)}, axial = ${shown(axial)} }`, "it begins there, and ends there"),
    );
  }
  mill() {
    const size = this.n("cutter"),
      mm = size * per[this.units],
      teeth = Number(this.a.teeth),
      speed = even(25000 / (Math.PI * mm), 10),
      feed = speed * teeth * (0.004 + 0.002 * mm);
    const shift = this.mm(Math.ceil((this.touches * per[this.units] * 1.06 + 0.2) * 2) / 2, { mm: 0.5, inch: 0.01 }),
      length = (value) => shown(this.mm(value, { mm: 1, inch: 0.05 }));
    const feeds = (value) => (this.inch ? shown(Number((value / 25.4).toFixed(1))) : whole(even(value, 5)));
    const cutter = block(
      comment(
        "The cutter, whose flat end the lobes are cut with: it must be wide enough for the lobe's touch to wander on it. Shank, reach and holder are assumed.",
      ),
      "[cutter.mill]",
      line("kind", '"end-mill"'),
      line("diameter", shown(size)),
      line("flute_length", length(1.9 * mm)),
      line("teeth", String(teeth)),
      line("shank_diameter", shown(size)),
      line("reach", length(2.75 * mm), "length out of the holder"),
      line("holder_diameter", length(2.5 * mm)),
    );
    const cut = block(
      comment(
        "Feeds and speed for high speed steel in soft case-hardening steel, about 25 m/min (80 ft/min): common practice, to be held against what your cutter and steel want.",
      ),
      "[cut]",
      line("cutter", '"mill"'),
      line("tolerance", shown(this.mm(0.004, { mm: 0.001, inch: 0.0001 })), "of the finished surface, along the normal, to either side"),
      line("rough_depth", shown(this.mm(0.04 * mm, { mm: 0.05, inch: 0.002 })), "rings no deeper than this first"),
      line("surface_feed", feeds(feed), "per minute along the lobe's surface"),
      line("rough_surface_feed", feeds(0.8 * feed)),
      line("spindle_speed", whole(speed)),
      line("direction", '"conventional"', 'or "climb", if the rotary axis has no slack'),
      line("clearance", shown(this.mm(3, { mm: 0.5, inch: 0.02 })), "rapids stay this far outside the blank"),
      line("spring_passes", "1", "repeats of the last pass"),
      line("side_shift", shown(shift), "the cutter's axis beside the shaft's, so that its dead middle doesn't cut"),
    );
    return [
      cutter,
      this.machine("radial", []),
      this.a.way === "mill" ? this.limits(1500, 3000, 3600, 200, 1800) : this.limits(3000, 5000, 7200, 500, 3600),
      cut,
    ];
  }
  grinder() {
    const size = this.n("cutter"),
      mm = size * per[this.units],
      speed = Math.floor((0.85 * this.n("fastest") * 60000) / (Math.PI * mm) / 50) * 50;
    const stock = block(
      comment("The lobes stand already, roughed or cast, with so much left on along the normal."),
      "[stock]",
      line("left_on", shown(this.n("left"))),
    );
    const wheel = block(
      comment(
        "The wheel, dressed. Its marking says how fast it may run: never faster, and ring it before it is put on. The flange beside it is assumed.",
      ),
      "[cutter.wheel]",
      line("kind", '"disc"'),
      line("diameter", shown(size)),
      line("width", shown(this.n("wheelWidth"))),
      line("neck_diameter", shown(this.mm(mm / 3, { mm: 1, inch: 0.0625 })), "flange and arbor beside it"),
      line("teeth", "0", "none: a wheel"),
      line("fastest", shown(this.n("fastest")), "m/s at the rim, as it is marked"),
    );
    const cut = block(
      comment("Depths and feeds of grinding on a small machine: common practice, no source."),
      "[cut]",
      line("cutter", '"wheel"'),
      line("tolerance", shown(this.mm(0.003, { mm: 0.001, inch: 0.0001 })), "of the finished surface, along the normal"),
      // In inches the slowest motion that controllers run is 25 times as fast, too fast for a wheel that is fed in as it turns.
      this.inch
        ? line("finish_depth", "0.001", "of each pass, as many as it takes")
        : line("rough_depth", "0.03", "of each turn, as the wheel is fed in"),
      line("surface_feed", this.inch ? "10.0" : "250.0", "per minute along the lobe's surface"),
      line("spindle_speed", whole(speed)),
      line("direction", '"conventional"'),
      line("overlap", "10.0"),
      line("spring_passes", "2", "turns at size that spark out"),
    );
    return [
      stock,
      wheel,
      this.machine("parallel", [
        line("cutter_zero", '"edge"', "radial zero where the wheel's face would touch the shaft's axis"),
        line("spindle_side", '"far"', "the arbor lies away from the drive end"),
      ]),
      this.limits(1200, 2000, 3600, 200, 1800),
      cut,
    ];
  }
  fixture() {
    return [
      block(
        comment(
          "The fixture and the lathe. Add tool_width, wheel_diameter, swing_over_bed and swing_over_cross_slide, and it is checked that all fits.",
        ),
        "[hand.lathe]",
        line("method", '"offset-fixture"'),
        line(
          "offset",
          shown(Number((this.shape.flank - this.base).toFixed(4))),
          "shaft's axis to lathe's axis: flank_radius less base_radius",
        ),
        line("divisions", String(this.wheel.divisions), "marks of the index wheel"),
        line("infeed", shown(this.inch ? 0.004 : 0.1), "per pass, on the way down a flank"),
        line("travel", '"along"', 'the slide locked at its stop, and the tool fed along the lobe; or "plunge"'),
        line("dial", quote(this.a.dial), "what the dial or read-out shows"),
        line("dial_zero", "0.0", "and what it shows with the tool's point on the lathe's axis"),
        line("zero", shown(this.wheel.zero), "shaft angle that points straight out from the lathe's axis at mark 0"),
        line("counts", '"ccw"', "the way round the shaft in which the marks' numbers grow"),
      ),
    ];
  }
  dividingHead() {
    return [
      block(
        comment("The dividing head. The plates are those of many heads: put in the circles of yours."),
        "[hand.head]",
        line("method", '"dividing-head"'),
        line("ratio", this.a.ratioHead, "turns of the crank in one turn of the shaft"),
        line("plates", "[[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]]"),
        line("cusp", shown(this.inch ? 0.0002 : 0.005), "highest ridge to leave; or step = 2.0 degrees"),
        line("zero", "0.0", "shaft angle that faces the cutter at the head's zero"),
        line("counts", '"ccw"', "the way round the shaft in which turns and holes count"),
        line("cutter_axis", '"radial"', "the end of a cutter cuts flats"),
      ),
    ];
  }
  text() {
    const cutting = {
      lathe: () => this.fixture(),
      head: () => this.dividingHead(),
      mill: () => this.mill(),
      caxis: () => this.mill(),
      grinder: () => this.grinder(),
    }[this.a.way]();
    return [this.top(), this.shaft(), this.engine(), this.profiles(), this.follower(), this.lobeTables(), ...cutting].join("\n");
  }
}
export const writtenJob = (answers, shape, found = {}) => new Writer(answers, shape, found).text();

// Lobes that may do, the likeliest first. Arcs are never hollow, so that the flat end of a cutter and any wheel can make them, and the
// fixture of a lathe cuts nothing else; a motion comes where no arcs keep the card.
export function shapesFor(answers) {
  const a = settled(answers),
    reach = numberOf(a.base) + followerLift(a, false) || 1,
    step = a.units === "inch" ? 0.05 : 1;
  const straight = a.way === "lathe" ? [] : [{ kind: "arcs", flank: "straight" }];
  const arcs = [2.6, 2.2, 3, 1.9, 3.6, 1.6, 4.5, 6, 9, 14].map((times) => ({
    kind: "arcs",
    flank: Number((Math.round((times * reach) / step) * step).toFixed(4)),
  }));
  const motions = ["modified-sine", "polynomial-345", "cycloidal", "simple-harmonic", "polynomial-4567"].map((law) => ({
    kind: "motion",
    law,
  }));
  return a.way === "lathe" ? arcs : [...arcs, ...straight, ...motions];
}
export const asksForTouch = (answers) => isProgram(answers.way) && answers.way !== "grinder";
