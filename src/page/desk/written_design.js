// The design's part of a job file: shaft, engine, lobes and followers, from a person's answers.
import { followerLift, inUnit, listOf, numberOf, settled } from "./answers.js";
import { block, comment, grain, line, per, shown } from "./job_lines.js";
import { quote } from "./toml_places.js";

export class WrittenDesign {
  // `shape` says of what kind the lobes are (see shapesFor), `touches` how far the flat end of a cutter touches them sideways,
  // `wheel` { divisions, zero } which index wheel suits them.
  constructor(answers, shape, { touches = 0, wheel = null } = {}) {
    this.a = settled(answers);
    this.shape = shape;
    this.units = this.a.units;
    this.inch = this.units === "inch";
    this.n = (name) => numberOf(this.a[name]);
    this.base = this.n("base");
    this.touches = touches;
    this.wheel = wheel ?? { divisions: Number(this.a.divisions) || 72, zero: 0 };
    this.lobes = this.placeLobes();
  }
  mm(value, step = grain) {
    return inUnit(value, this.units, step);
  }
  get valves() {
    return this.a.valves === "both" ? ["inlet", "exhaust"] : [this.a.valves];
  }
  lift(valve) {
    return followerLift(this.a, valve === "exhaust");
  }
  clearance(valve) {
    return this.n(valve === "exhaust" && this.valves.length > 1 ? "exClearance" : "clearance");
  }

  // Along the shaft: journal, the cylinders' lobes, journal; neighbouring cylinders have like valves next to each other.
  placeLobes() {
    const spacing = this.n("spacing"),
      bearing = this.mm(10, { mm: 1, inch: 0.05 }),
      lobes = [];
    this.bearing = { width: bearing, diameter: this.mm(1.6 * this.base * per[this.units], { mm: 0.5, inch: 0.0625 }) };
    this.firstJournal = this.mm(6, { mm: 1, inch: 0.05 });
    let z = this.firstJournal + spacing + bearing / 2;
    for (let cylinder = 1; cylinder <= Number(this.a.cylinders); ++cylinder) {
      const order = this.valves.length === 1 ? this.valves : cylinder % 2 ? ["exhaust", "inlet"] : ["inlet", "exhaust"];
      for (const valve of order) {
        lobes.push({ cylinder, valve, z: Number(z.toFixed(4)) });
        z += spacing;
      }
    }
    this.lastJournal = Number((z + bearing / 2).toFixed(4));
    this.length = Number((this.lastJournal + this.firstJournal + bearing / 2).toFixed(4));
    return lobes;
  }
  top() {
    const units = this.inch ? "inches" : "millimetres";
    return block(
      comment(
        `${this.a.title || "A camshaft"}: a job to begin with, written from your answers. Read it once from the top: what you did not say is assumed here, and every assumption is yours to change.`,
      ),
      "#",
      comment(
        `Everything is seen from the drive end of the shaft, looking along it: z grows away from you, and angles on the shaft grow counter-clockwise ("ccw") from its datum, the keyway or dowel. Angles are degrees, lengths ${units}.`,
      ),
      "",
      "layout = 1",
      "",
      "[job]",
      line("title", quote(this.a.title || "A camshaft")),
      line("units", quote(this.units), "for every length in this file and in all that is made from it"),
    );
  }
  shaft() {
    const journal = (z) => [
      "",
      "[[shaft.journal]]",
      line("z", shown(z)),
      line("width", shown(this.bearing.width)),
      line("diameter", shown(this.bearing.diameter)),
    ];
    return block(
      "[shaft]",
      line("turns", quote(this.a.turns), "the way it runs, seen from the drive end"),
      line("blank_diameter", shown(this.n("blank")), "of the bar over the lobes, before cutting"),
      line("length", shown(this.length)),
      "",
      comment("Places that no cutter may touch; z is the middle of each. Sizes and places are assumed: put in those of your bearings."),
      journal(this.firstJournal).slice(1),
      journal(this.lastJournal),
    );
  }
  card(valve) {
    const ex = valve === "exhaust",
      n = (name) => shown(numberOf(this.a[ex ? "ex" + name[0].toUpperCase() + name.slice(1) : name])).replace(/\.0$/, "");
    const angles =
      this.a.card === "events"
        ? ex
          ? `opens_before_bdc = ${n("opens")}, closes_after_tdc = ${n("closes")}`
          : `opens_before_tdc = ${n("opens")}, closes_after_bdc = ${n("closes")}`
        : `duration = ${n("duration")}, centre = ${n("centre")}`;
    const height = this.a.height.trim() ? `, at_lift = ${shown(this.n("height"))}` : "";
    return line(valve, `{ ${angles}, clearance = ${shown(this.clearance(valve))}${height} }`);
  }
  engine() {
    const many = Number(this.a.cylinders) > 1,
      firing = this.a.firing.trim()
        ? `firing_angles = [${listOf(this.a.firing).join(", ")}]`
        : `firing_order = [${listOf(this.a.order).join(", ")}]`;
    const where = this.a.height.trim()
      ? "The angles hold where the valve lifts at_lift, its checking height."
      : "The angles hold at the clearance, where the valve leaves its seat.";
    return block(
      comment(`The timing card, in crank degrees. ${where} It puts the lobes round the shaft.`),
      "[engine]",
      line("cam_per_crank", "0.5", "a four-stroke's cam turns once for two turns of the crank"),
      line("cylinders", this.a.cylinders),
      many ? firing : null,
      ...this.valves.map((valve) => this.card(valve)),
    );
  }
  ramp(valve) {
    const clearance = this.clearance(valve) / this.n("ratio");
    if (!(clearance > 0)) return [];
    const lift = shown(Math.max(this.mm(1.25 * clearance * per[this.units], { mm: 0.01, inch: 0.0005 }), this.inch ? 0.001 : 0.02));
    return [
      line("opening_ramp", `{ lift = ${lift}, angle = 18.0 }`, "slow, while the clearance is taken up"),
      line("closing_ramp", `{ lift = ${lift}, angle = 22.0 }`, "and slower, as the valve comes down"),
    ];
  }
  profile(valve) {
    const { shape } = this,
      size = [
        line("base_radius", shown(this.base)),
        line("lift", shown(Number(this.lift(valve).toFixed(5))), "at the follower, the whole of it"),
      ];
    if (shape.kind === "arcs")
      return block(
        `[profile.${valve}]`,
        line("shape", '"arcs"', "base circle, two flanks and a nose, all circular arcs"),
        size,
        line(
          "flank_radius",
          shape.flank === "straight" ? quote(shape.flank) : shown(shape.flank),
          "nose radius and action angle are solved from it",
        ),
      );
    return block(
      `[profile.${valve}]`,
      line("shape", '"motion"', "the follower's lift is a law of the angle; the lobe is what gives it"),
      size,
      line("law", quote(shape.law), "its angles are solved from the timing card"),
      this.ramp(valve),
    );
  }
  profiles() {
    const fixture = this.a.way === "lathe" ? " The fixture cuts one flank radius for all lobes: its offset + base_radius." : "";
    return (
      block(
        comment(
          this.shape.kind === "arcs"
            ? `The lobes. Another flank_radius makes another nose: see what it does to the smallest radius.${fixture}`
            : "The lobes. Other laws are set side by side by `compare`; the clearance is taken up on the ramps.",
        ),
      ) + this.valves.map((valve) => this.profile(valve)).join("\n")
    );
  }
  follower() {
    const { a } = this,
      size = shown(this.n("size")),
      ratio =
        this.n("ratio") === 1
          ? null
          : line("valve_ratio", shown(this.n("ratio")), "valve movement for that of the follower, by the rocker");
    const rows = {
      flat: [line("kind", '"flat"'), line("face_diameter", size)],
      roller: [line("kind", '"roller"'), line("radius", size)],
      domed: [line("kind", '"domed"', "a curved face that does not roll"), line("radius", size)],
      pivoted: [
        line("kind", '"pivoted"', "an arm with a roller"),
        line("radius", size, "of the roller"),
        line("pivot_radius", shown(this.n("pivot")), "pivot to shaft axis"),
        line("arm_length", shown(this.n("arm")), "pivot to the roller's centre"),
        line("side", quote(a.side), "of the line from shaft to pivot, on which the roller lies"),
      ],
    }[a.follower];
    return block("[follower.lifter]", rows, ratio);
  }
  lobeTables() {
    const many = Number(this.a.cylinders) > 1;
    return (
      block(
        comment("One [[lobe]] for each lobe. Its place round the shaft comes from the engine; z, along the shaft, is yours to put right."),
      ) +
      this.lobes
        .map(({ cylinder, valve, z }) =>
          block(
            "[[lobe]]",
            line("name", quote(many ? `${cylinder} ${valve}` : valve)),
            line("profile", quote(valve)),
            line("follower", '"lifter"'),
            line("cylinder", String(cylinder)),
            line("valve", quote(valve)),
            line("z", shown(z), "middle of the lobe, from the drive end"),
            line("width", shown(this.n("width"))),
          ),
        )
        .join("\n")
    );
  }
}
