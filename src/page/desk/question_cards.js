// The questions, card by card: fields { name, words, unit, when, options, hint }.
import { followers, isProgram, ways } from "./answers.js";

const events = (a) => a.card === "events",
  inlet = (a) => a.valves !== "exhaust",
  exhaust = (a) => a.valves !== "inlet";
const unitOf = (a) => (a.units === "inch" ? "in" : "mm");
const sizeWords = {
  flat: "diameter of its face",
  roller: "radius of the roller",
  domed: "radius of its curve",
  pivoted: "radius of the roller",
};

export const cards = [
  {
    id: "name",
    title: "What is it for?",
    about: "Only you will see the name; it stands at the head of sheet and program.",
    senses: true,
    fields: [
      { name: "title", words: "name of the engine or job", wide: true },
      {
        name: "units",
        words: "lengths in",
        options: [
          ["mm", "millimetres"],
          ["inch", "inches"],
        ],
      },
      {
        name: "turns",
        words: "the camshaft runs, seen from its drive end",
        options: [
          ["ccw", "counter-clockwise"],
          ["cw", "clockwise"],
        ],
      },
    ],
  },
  {
    id: "engine",
    title: "The engine",
    about: "A four-stroke; others are a change or two in the text.",
    fields: [
      { name: "cylinders", words: "cylinders", whole: true },
      { name: "order", words: "firing order, evenly spaced", when: (a) => Number(a.cylinders) > 1 },
      {
        name: "firing",
        words: "or crank angles at which cylinders 1, 2 … fire",
        hint: "only where they don't fire evenly; the first is 0",
        when: (a) => Number(a.cylinders) > 1,
      },
      {
        name: "valves",
        words: "lobes for",
        options: [
          ["both", "inlet and exhaust"],
          ["inlet", "the inlets alone"],
          ["exhaust", "the exhausts alone"],
        ],
      },
    ],
  },
  {
    id: "card",
    title: "The timing card",
    about: "When the valves open and close, in degrees of the crank, as the engine's card has it.",
    fields: [
      {
        name: "card",
        words: "the card gives",
        options: [
          ["events", "when valves open and close"],
          ["centre", "how long they are open, and the lobes' centres"],
        ],
      },
      { name: "opens", words: "inlet opens", unit: "° before TDC", when: (a) => events(a) && inlet(a) },
      { name: "closes", words: "inlet closes", unit: "° after BDC", when: (a) => events(a) && inlet(a) },
      { name: "exOpens", words: "exhaust opens", unit: "° before BDC", when: (a) => events(a) && exhaust(a) },
      { name: "exCloses", words: "exhaust closes", unit: "° after TDC", when: (a) => events(a) && exhaust(a) },
      { name: "duration", words: "inlet open for", unit: "°", when: (a) => !events(a) && inlet(a) },
      { name: "centre", words: "inlet's centre", unit: "° after TDC", when: (a) => !events(a) && inlet(a) },
      { name: "exDuration", words: "exhaust open for", unit: "°", when: (a) => !events(a) && exhaust(a) },
      { name: "exCentre", words: "exhaust's centre", unit: "° before TDC", when: (a) => !events(a) && exhaust(a) },
      { name: "clearance", words: (a) => (a.valves === "both" ? "inlet's clearance" : "clearance"), unit: unitOf, hint: "at the valve" },
      { name: "exClearance", words: "exhaust's clearance", unit: unitOf, when: (a) => a.valves === "both" },
      {
        name: "height",
        words: "the angles hold at a valve lift of",
        unit: unitOf,
        hint: "a checking height; leave it empty where they hold at the clearance",
      },
    ],
  },
  {
    id: "follower",
    title: "What rides on the lobe?",
    about: "The lobe is made for its follower: another one on the same lobe moves otherwise.",
    fields: [
      { name: "follower", words: "follower", options: followers },
      { name: "size", words: (a) => sizeWords[a.follower], unit: unitOf },
      { name: "pivot", words: "pivot of the arm to the shaft's axis", unit: unitOf, when: (a) => a.follower === "pivoted" },
      { name: "arm", words: "pivot to the roller's centre", unit: unitOf, when: (a) => a.follower === "pivoted" },
      {
        name: "side",
        words: "from the shaft, looking at the pivot from the drive end, the roller lies",
        options: [
          ["ccw", "to the left (ccw)"],
          ["cw", "to the right (cw)"],
        ],
        when: (a) => a.follower === "pivoted",
      },
      { name: "ratio", words: "rocker: the valve moves so many times as far", hint: "1 without a rocker" },
    ],
  },
  {
    id: "lobe",
    title: "Lift and size",
    about: "",
    fields: [
      {
        name: "at",
        words: "the lift is that of the",
        options: [
          ["follower", "follower, on the lobe"],
          ["valve", "valve"],
        ],
      },
      { name: "lift", words: (a) => (a.valves === "both" ? "inlet's lift" : "lift"), unit: unitOf },
      { name: "exLift", words: "exhaust's lift", unit: unitOf, when: (a) => a.valves === "both", hint: "" },
      {
        name: "base",
        words: "radius of the base circle",
        unit: unitOf,
        hint: "of the lobe's round back: half of what calipers show across the lobe's heel and middle",
      },
    ],
  },
  {
    id: "way",
    title: "How will you cut it?",
    about: "The others can be added to the job later: one job can have them all.",
    senses: true,
    fields: [
      { name: "way", words: "with", options: ways, stacked: true },
      {
        name: "divisions",
        words: "marks of the index wheel",
        when: (a) => a.way === "lathe",
        whole: true,
        hint: "if empty: the wheel that suits best, to be made",
      },
      {
        name: "dial",
        words: "the cross slide's dial shows",
        options: [
          ["radius", "the way of the slide"],
          ["diameter", "twice that, the diameter"],
        ],
        when: (a) => a.way === "lathe",
      },
      { name: "ratioHead", words: "turns of the crank for one of the work", when: (a) => a.way === "head" },
      {
        name: "cutter",
        words: (a) => (a.way === "grinder" ? "wheel's diameter" : "end mill's diameter"),
        unit: unitOf,
        when: (a) => isProgram(a.way),
      },
      { name: "teeth", words: "its teeth", when: (a) => a.way === "mill" || a.way === "caxis", whole: true },
      { name: "wheelWidth", words: "wheel's width", unit: unitOf, when: (a) => a.way === "grinder" },
      { name: "fastest", words: "wheel's marking", unit: "m/s", when: (a) => a.way === "grinder" },
      { name: "left", words: "left on the lobes", unit: unitOf, hint: "along the normal", when: (a) => a.way === "grinder" },
      { name: "post", words: "controller", posts: true, when: (a) => isProgram(a.way) },
      {
        name: "positive",
        words: "for a + move of the rotary axis the shaft turns, seen from the drive end",
        options: [
          ["ccw", "counter-clockwise"],
          ["cw", "clockwise"],
        ],
        when: (a) => isProgram(a.way),
        hint: "try it at the machine: this is where camshafts get scrapped",
      },
    ],
  },
  {
    id: "shaft",
    title: "The bar and the lobes along it",
    about: "What is proposed follows from your answers.",
    fields: [
      { name: "blank", words: "bar's diameter", unit: unitOf },
      { name: "width", words: "width of a lobe", unit: unitOf },
      {
        name: "spacing",
        words: "from lobe to lobe",
        unit: unitOf,
        hint: "middle to middle; each lobe's place can be put right in the text",
      },
    ],
  },
];
