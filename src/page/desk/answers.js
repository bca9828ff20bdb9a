// What a person answers before there is a job: the questions' fields, what is proposed where nothing is said, and what can't be
// meant. Lengths are in the unit that was chosen.
const per = { mm: 1, inch: 25.4 };
export const inUnit = (mm, units, step) => {
  const value = mm / per[units],
    grain = units === "inch" ? step.inch : step.mm;
  return Number((Math.round(value / grain) * grain).toFixed(4));
};

export const ways = [
  ["lathe", "a bare lathe: the shaft swings off centre in a fixture with an index wheel"],
  ["head", "a dividing head on a mill, turned by hand"],
  ["mill", "a mill with a rotary axis"],
  ["caxis", "a lathe with a C axis and a live cutter"],
  ["grinder", "a grinder that turns the shaft, on lobes that stand already"],
];
export const isProgram = (way) => way === "mill" || way === "caxis" || way === "grinder";
export const followers = [
  ["flat", "a flat tappet"],
  ["roller", "a roller on a straight lifter"],
  ["domed", "a curved shoe on a straight lifter"],
  ["pivoted", "a roller on an arm"],
];

const orders = { 1: "1", 2: "1 2", 3: "1 3 2", 4: "1 3 4 2", 5: "1 2 4 5 3", 6: "1 5 3 6 2 4", 8: "1 5 4 8 6 3 7 2" };
export const usualOrder = (cylinders) => orders[cylinders] ?? Array.from({ length: cylinders }, (_, i) => i + 1).join(" ");

export const first = () => ({
  title: "",
  units: "mm",
  cylinders: "1",
  order: "",
  firing: "",
  valves: "both",
  card: "events",
  opens: "",
  closes: "",
  exOpens: "",
  exCloses: "",
  duration: "",
  centre: "",
  exDuration: "",
  exCentre: "",
  clearance: "",
  exClearance: "",
  height: "",
  lift: "",
  exLift: "",
  at: "follower",
  ratio: "1",
  base: "",
  follower: "flat",
  size: "",
  pivot: "",
  arm: "",
  side: "ccw",
  way: "lathe",
  turns: "ccw",
  blank: "",
  width: "",
  spacing: "",
  divisions: "",
  dial: "radius",
  ratioHead: "40",
  cutter: "",
  teeth: "4",
  post: "",
  positive: "ccw",
  wheelWidth: "",
  fastest: "35",
  left: "",
});

const lengths = [
  "clearance",
  "exClearance",
  "height",
  "lift",
  "exLift",
  "base",
  "size",
  "pivot",
  "arm",
  "blank",
  "width",
  "spacing",
  "cutter",
  "wheelWidth",
  "left",
];
// The same lengths in the other unit.
export function changeUnits(a, units) {
  for (const name of lengths) {
    const value = numberOf(a[name]);
    if (Number.isFinite(value)) a[name] = String(Number(((value * per[a.units]) / per[units]).toPrecision(5)));
  }
  a.units = units;
}

// "12,5" is a number where people write it so.
export const numberOf = (text) => {
  const plain = String(text)
    .trim()
    .replace(/^(-?\d+),(\d+)$/, "$1.$2")
    .replace("−", "-");
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
};
export const listOf = (text) =>
  String(text)
    .trim()
    .split(/[\s,;–-]+/)
    .filter(Boolean)
    .map(Number);

// Half the time that a valve is open, in cam degrees.
const halfOpen = (a, exhaust) => {
  const n = (name) => numberOf(a[exhaust ? "ex" + name[0].toUpperCase() + name.slice(1) : name]);
  const crank = a.card === "events" ? n("opens") + n("closes") + 180 : n("duration");
  return Number.isFinite(crank) ? Math.min(90, Math.max(35, crank / 4)) : 60;
};
export const followerLift = (a, exhaust) => {
  const said = numberOf(exhaust && a.exLift !== "" ? a.exLift : a.lift),
    ratio = numberOf(a.ratio) || 1;
  return a.at === "valve" ? said / ratio : said;
};
const steps = { fine: { mm: 0.5, inch: 0.05 }, even: { mm: 0.5, inch: 0.02 }, bar: { mm: 1, inch: 0.0625 }, mill: { mm: 2, inch: 0.125 } };

// How far the flat end of a cutter touches the lobe to either side of the shaft's axis, about: the lift's own greatest velocity,
// per radian, of a lift as smooth as most laws make it.
export const sideways = (a) =>
  Math.max(
    ...[false, true].map((ex) => {
      const lift = followerLift(a, ex);
      return Number.isFinite(lift) ? (1.75 * lift) / ((halfOpen(a, ex) * Math.PI) / 180) : 0;
    }),
  );

// What is proposed where nothing was said, from what was.
export function proposals(a) {
  const mm = (value, step) => inUnit(value, a.units, step),
    unit = per[a.units],
    lift = followerLift(a, false),
    base = numberOf(a.base);
  const known = Number.isFinite(base) && Number.isFinite(lift) ? (base + Math.max(lift, followerLift(a, true) || 0)) * unit : 8.5,
    width = (numberOf(a.width) || mm(6, steps.fine)) * unit;
  const cutter =
    a.way === "grinder" ? mm(150, steps.bar) : mm(Math.max(6, Math.ceil((2 * (2.1 * sideways(a) * unit + 0.4)) / 2) * 2), steps.mill);
  const across = (isProgram(a.way) && a.way !== "grinder" ? ((numberOf(a.cutter) || cutter) * unit) / 2 : 4) + 2;
  return {
    order: usualOrder(Number(a.cylinders) || 1),
    blank:
      mm(Math.ceil(2 * known + 0.2), steps.bar) +
      (mm(Math.ceil(2 * known + 0.2), steps.bar) * unit < 2 * known + 0.1 ? (a.units === "inch" ? 0.0625 : 1) : 0),
    width: mm(width, steps.fine),
    spacing: mm(Math.ceil(width / 2 + across + width / 2), steps.even),
    cutter,
    clearance: mm(0.1, { mm: 0.01, inch: 0.001 }),
    exClearance: numberOf(a.clearance) || mm(0.1, { mm: 0.01, inch: 0.001 }),
    exLift: a.lift,
    wheelWidth: mm(width + 1, steps.fine),
    left: mm(0.25, { mm: 0.01, inch: 0.001 }),
    post: { mill: "rs274ngc-zxa", caxis: "rs274ngc-xzc", grinder: "rs274ngc-xza" }[a.way] ?? "",
  };
}
export const settled = (a) => ({
  ...a,
  ...Object.fromEntries(
    Object.entries(proposals(a))
      .filter(([name]) => String(a[name]).trim() === "")
      .map(([name, value]) => [name, String(value)]),
  ),
});

// What keeps a question from being answered: field and sentence.
const positive = (name, words) => (a) => (numberOf(a[name]) > 0 ? null : [name, words]);
const number = (name, words) => (a) => (Number.isFinite(numberOf(a[name])) ? null : [name, words]);
const when = (asked, check) => (a) => (asked(a) ? check(a) : null);
const events = (a) => a.card === "events",
  both = (a) => a.valves === "both",
  inlet = (a) => a.valves !== "exhaust",
  exhaust = (a) => a.valves !== "inlet";
export const checks = {
  name: [],
  engine: [
    (a) =>
      Number.isInteger(Number(a.cylinders)) && a.cylinders >= 1 && a.cylinders <= 16
        ? null
        : ["cylinders", "say how many cylinders, 1 to 16"],
    (a) => {
      const order = listOf(settled(a).order),
        firing = a.firing.trim() ? listOf(a.firing) : null,
        n = Number(a.cylinders);
      if (firing) return firing.length === n && firing[0] === 0 ? null : ["firing", `give ${n} crank angles, the first 0`];
      return order.length === n && new Set(order).size === n && order.every((each) => each >= 1 && each <= n)
        ? null
        : ["order", `name each of the ${n} cylinders once`];
    },
  ],
  card: [
    when((a) => events(a) && inlet(a), number("opens", "when does the inlet open?")),
    when((a) => events(a) && inlet(a), number("closes", "when does it close?")),
    when((a) => events(a) && exhaust(a), number("exOpens", "when does the exhaust open?")),
    when((a) => events(a) && exhaust(a), number("exCloses", "when does it close?")),
    when((a) => !events(a) && inlet(a), positive("duration", "for how many crank degrees is the inlet open?")),
    when((a) => !events(a) && inlet(a), number("centre", "where is its lobe's centre?")),
    when((a) => !events(a) && exhaust(a), positive("exDuration", "for how many crank degrees is the exhaust open?")),
    when((a) => !events(a) && exhaust(a), number("exCentre", "where is its lobe's centre?")),
    (a) => (numberOf(settled(a).clearance) >= 0 ? null : ["clearance", "give the clearance as a length, 0 for none"]),
    when(both, (a) => (numberOf(settled(a).exClearance) >= 0 ? null : ["exClearance", "give the clearance as a length, 0 for none"])),
    when((a) => a.height.trim() !== "", positive("height", "give the lift at which the angles hold, or leave it empty")),
  ],
  lobe: [
    positive("lift", "how far is it lifted?"),
    when((a) => a.exLift !== "", positive("exLift", "how far does the exhaust lift?")),
    positive("base", "how large is the base circle?"),
    positive("ratio", "the rocker's ratio; 1 without a rocker"),
  ],
  follower: [
    positive("size", "how large is it?"),
    when((a) => a.follower === "pivoted", positive("pivot", "how far is the pivot from the shaft's axis?")),
    when((a) => a.follower === "pivoted", positive("arm", "how long is the arm?")),
  ],
  way: [
    when(
      (a) => a.way === "lathe" && a.divisions.trim() !== "",
      (a) => (Number.isInteger(Number(a.divisions)) && a.divisions >= 12 ? null : ["divisions", "how many marks has the wheel?"]),
    ),
    when((a) => a.way === "head", positive("ratioHead", "how many turns of the crank for one of the work?")),
    when(
      (a) => isProgram(a.way),
      (a) => (numberOf(settled(a).cutter) > 0 ? null : ["cutter", "how large is the cutter?"]),
    ),
    when(
      (a) => a.way === "mill" || a.way === "caxis",
      (a) => (Number.isInteger(Number(a.teeth)) && a.teeth >= 1 ? null : ["teeth", "how many teeth has it?"]),
    ),
    when((a) => a.way === "grinder", positive("fastest", "what does the wheel's marking allow, m/s?")),
  ],
  shaft: ["blank", "width", "spacing"].map((name) => (a) => (numberOf(settled(a)[name]) > 0 ? null : [name, "give a length"])),
};
export const faultOf = (card, answers) => checks[card].map((check) => check(answers)).find(Boolean) ?? null;
