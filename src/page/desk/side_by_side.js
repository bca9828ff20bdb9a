// Two lobes side by side, of this job or of another: both motions, the difference of each, both outlines, and the figures that
// `compare` tells of them.
import { column, figure, plot, stretchOf } from "./curves.js";
import { button, chooser, drawn, element } from "./elements.js";
import { complaintsOf, run } from "./engine_link.js";
import { LawsTable } from "./laws_table.js";
import { shapeOf } from "./lobe_view.js";
import { lobeNames, readTables, valueOf } from "./toml_places.js";

// What is told of each, in words; of figures in lengths, what follows the unit.
const told = [
  ["lift", "lift", 1, ""],
  ["area", "area under the lift", 1, "·degrees"],
  ["max_velocity", "greatest velocity", 1, " per degree"],
  ["max_acceleration", "greatest acceleration", 1, " per degree²"],
  ["min_acceleration", "greatest deceleration", 1, " per degree²"],
  ["min_curvature_radius", "smallest radius", 1, ""],
  ["max_pressure_angle", "greatest pressure angle, degrees", 0],
  ["max_contact_stress_mpa", "contact pressure, MPa", 0],
  ["float_speed_rpm", "floats at, rev/min", 0],
  ["duration", "valve open, crank degrees", 0],
  ["overlap", "both valves open, crank degrees", 0],
];
const mmOf = { mm: 1, inch: 25.4 };
const nose = (rows) => rows.find((row) => row.cam_angle === 0)?.shaft_angle ?? 0;

// A lobe's rows and figures in the unit of the first one.
const inUnit = (side, units) => {
  const by = mmOf[side.units] / mmOf[units],
    scaled = ["lift", "velocity", "acceleration", "contact_x", "contact_y", "polar_radius"];
  return {
    ...side,
    rows: side.rows.map((row) => ({ ...row, ...Object.fromEntries(scaled.map((name) => [name, row[name] * by])) })),
    facts: Object.fromEntries(
      told.map(([name, , isLength]) => [
        name,
        side.facts?.[name] === null || side.facts?.[name] === undefined ? null : side.facts[name] * (isLength ? by : 1),
      ]),
    ),
  };
};

export class SideBySide {
  // `job()` gives this job, `openOther` asks the person for a file.
  constructor({ job, openOther, fault }) {
    Object.assign(this, { job, openOther, fault });
    this.others = []; // { name, text, files }
    this.choices = element("div", { className: "buttons" });
    this.words = element("p", { className: "hint", role: "status" });
    this.result = element("div");
    this.laws = new LawsTable({ job, fault });
    this.whole = element(
      "div",
      { className: "side" },
      element("p", {
        className: "hint",
        textContent: "Two lobes of this job; or keep the job as it stands, change it, and see what the change does.",
      }),
      this.choices,
      this.words,
      this.result,
      this.laws.whole,
    );
    this.second = { source: 0, lobe: undefined };
    this.turn = 0;
  }
  add(job) {
    this.others.push(job);
    this.second = { source: this.others.length, lobe: this.firstLobe };
    return this.show();
  }
  keepNow() {
    const { name, text, files } = this.job(),
      time = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
    return this.add({ name, text, files: { ...files }, shown: `this job as it was at ${time}` });
  }
  source(number) {
    return number === 0 ? { ...this.job(), shown: "this job" } : this.others[number - 1];
  }
  namesIn(number) {
    return lobeNames(readTables(this.source(number).text));
  }

  async show() {
    const turn = (this.turn += 1),
      first = this.namesIn(0),
      second = this.namesIn(this.second.source);
    if (!first.includes(this.firstLobe)) this.firstLobe = first[0];
    if (!second.includes(this.second.lobe))
      this.second.lobe = this.second.source === 0 ? (second.find((name) => name !== this.firstLobe) ?? second[0]) : second[0];
    this.showChoices(first, second);
    this.laws.show();
    if (this.firstLobe === undefined || this.second.lobe === undefined) return this.say("Both jobs need a lobe.");
    try {
      const sides = [await this.read(0, this.firstLobe), await this.read(this.second.source, this.second.lobe)];
      if (turn !== this.turn) return;
      const bad = sides.find((side) => side.words);
      if (bad) return this.say(`${bad.shown}: ${bad.words}`);
      this.say("");
      this.draw(sides[0], inUnit(sides[1], sides[0].units));
    } catch (fault) {
      this.fault(fault);
    }
  }
  say(words) {
    this.words.textContent = words;
    this.words.hidden = !words;
    this.result.classList.toggle("stale", Boolean(words));
  }
  showChoices(first, second) {
    const sources = [["0", "this job"], ...this.others.map((other, i) => [String(i + 1), other.shown ?? other.name])];
    this.choices.replaceChildren(
      chooser(
        "first: this job's",
        first.map((name) => [name]),
        this.firstLobe,
        (name) => {
          this.firstLobe = name;
          this.show();
        },
      ),
      chooser("second: of", sources, String(this.second.source), (word) => {
        this.second = { source: Number(word), lobe: this.firstLobe };
        this.show();
      }),
      chooser(
        "lobe",
        second.map((name) => [name]),
        this.second.lobe,
        (name) => {
          this.second.lobe = name;
          this.show();
        },
      ),
      button("keep this job as it stands", () => this.keepNow()),
      button("open another job …", () => this.openOther()),
    );
  }
  async read(number, lobe) {
    const job = this.source(number),
      shown = `${lobe}, ${job.shown ?? job.name}`,
      files = job.files;
    const table = await run(["table", job.name, "--lobe", lobe, "--json"], files, "quick");
    if (table.code !== 0) return { shown, words: complaintsOf(table).map((each) => each.words)[0] ?? "it can't be made" };
    const { units, rows } = JSON.parse(table.out),
      compared = await run(["compare", job.name, "--json"], files, "quick"),
      tables = readTables(job.text);
    const profile = valueOf(
      tables.find((each) => each.path.join() === "lobe" && valueOf(each, "name") === lobe),
      "profile",
    );
    return {
      shown,
      units,
      rows,
      facts: JSON.parse(compared.out).rows?.find((row) => row.profile === profile),
      shape: shapeOf(tables, lobe, rows),
    };
  }
  draw(first, second) {
    const [from, to] = stretchOf(first.rows, second.rows),
      unit = first.units === "inch" ? "in" : "mm";
    const both = (title, name) =>
      plot({
        title,
        from,
        to,
        series: [
          { kind: "first", points: column(first.rows, name) },
          { kind: "second", points: column(second.rows, name) },
        ],
      }).picture;
    const less = (title, name) =>
      plot({
        title,
        from,
        to,
        tall: 130,
        series: [{ kind: "difference", points: column(first.rows, name).map(([x, y], i) => [x, second.rows[i][name] - y]) }],
      }).picture;
    const key = element(
      "p",
      { className: "legend" },
      element("span", { className: "key first", textContent: first.shown }),
      element("span", { className: "key second", textContent: second.shown }),
      element("span", { className: "key difference", textContent: "difference: second less first" }),
    );
    this.result.replaceChildren(
      key,
      element(
        "div",
        { className: "pair" },
        element(
          "div",
          { className: "curves" },
          both(`lift, ${unit}`, "lift"),
          less(`difference of lift, ${unit}`, "lift"),
          both(`velocity, ${unit} per degree`, "velocity"),
          both(`acceleration, ${unit} per degree²`, "acceleration"),
          less("difference of acceleration", "acceleration"),
        ),
        this.outlines(first, second),
        this.figures(first, second, unit),
      ),
    );
  }
  outlines(first, second) {
    const reach = 1.06 * Math.max(...[first, second].flatMap((side) => side.rows.map((row) => Math.hypot(row.contact_x, row.contact_y))));
    const outline = (side, kind) => {
      const turn = Math.PI / 2 - (nose(side.rows) * Math.PI) / 180,
        c = Math.cos(turn),
        s = Math.sin(turn);
      return drawn("path", {
        class: `curve ${kind}`,
        d:
          side.rows
            .map(
              (row, i) =>
                `${i ? "L" : "M"}${(row.contact_x * c - row.contact_y * s).toFixed(5)} ${(-(row.contact_x * s + row.contact_y * c)).toFixed(5)}`,
            )
            .join("") + "Z",
      });
    };
    return drawn(
      "svg",
      { class: "lobe", viewBox: `${-reach} ${-reach} ${2 * reach} ${2 * reach}`, role: "img", "aria-label": "both lobes, nose up" },
      outline(first, "first"),
      outline(second, "second"),
    );
  }
  figures(first, second, unit) {
    const cell = (value, digits) => element("td", { className: "figure", textContent: figure(value, digits) });
    const rows = told
      .map(([name, words, isLength, per]) => [isLength ? `${words}, ${unit}${per}` : words, first.facts?.[name] ?? null, second.facts[name]])
      .filter(([, a, b]) => a !== null || b !== null)
      .map(([words, a, b]) =>
        element(
          "tr",
          {},
          element("th", { scope: "row", textContent: words }),
          cell(a),
          cell(b),
          cell(a === null || b === null ? null : b - a, 3),
        ),
      );
    const heads = ["", "first", "second", "difference"].map((words) =>
      element(words ? "th" : "td", { textContent: words, ...(words ? { scope: "col" } : {}) }),
    );
    return element(
      "div",
      { className: "table", tabIndex: 0, role: "region", "aria-label": "figures side by side" },
      element("table", {}, element("thead", {}, element("tr", {}, ...heads)), element("tbody", {}, ...rows)),
    );
  }
}
