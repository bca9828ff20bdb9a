// All laws of motion in the place of one profile, a row each: which one to take.
import { figure } from "./curves.js";
import { chooser, element } from "./elements.js";
import { complaintsOf, run } from "./engine_link.js";
import { namesOf, readTables } from "./toml_places.js";

const columns = [
  ["law", "law"],
  ["area", "area"],
  ["max_velocity", "velocity"],
  ["max_acceleration", "acceleration"],
  ["min_acceleration", "deceleration"],
  ["max_jerk", "jerk"],
  ["min_curvature_radius", "smallest radius"],
  ["max_pressure_angle", "pressure angle"],
];

export class LawsTable {
  constructor({ job, fault }) {
    Object.assign(this, { job, fault });
    this.pick = element("div");
    this.result = element("div");
    this.whole = element(
      "section",
      {},
      element("h2", { textContent: "All laws of motion" }),
      element("p", {
        className: "hint",
        textContent: "In the place of a profile, with its lift and ramps, and its angles or those that its card gives each law.",
      }),
      this.pick,
      this.result,
    );
  }
  // After a change of the job; what isn't asked for is not worked out.
  show() {
    const names = namesOf(readTables(this.job().text), "profile");
    this.whole.hidden = !names.length;
    if (!names.includes(this.profile)) this.profile = "";
    const offered = [["", "choose a profile …"], ...names.map((name) => [name])];
    this.pick.replaceChildren(chooser("in the place of", offered, this.profile, (name) => this.choose(name)));
    this.result.hidden = !this.profile;
    return this.profile ? this.ask() : null;
  }
  choose(name) {
    this.profile = name;
    this.show();
  }
  async ask() {
    const { profile } = this,
      { name, files, text } = this.job();
    if (this.told === profile + text) return;
    try {
      const outcome = await run(["compare", name, "--laws", profile, "--json"], files, "quick");
      if (profile !== this.profile) return;
      this.told = profile + text;
      this.result.replaceChildren(
        outcome.code === 0
          ? this.table(JSON.parse(outcome.out))
          : element("p", { className: "hint", textContent: complaintsOf(outcome)[0]?.words ?? "" }),
      );
    } catch (fault) {
      this.fault(fault);
    }
  }
  table({ rows, units }) {
    const head = element("tr", {}, ...columns.map(([, words]) => element("th", { scope: "col", textContent: words })));
    const cells = (row) =>
      row.message
        ? [element("td", { colSpan: columns.length - 1 }, element("span", { className: "why", textContent: row.message }))]
        : columns.slice(1).map(([name]) => element("td", { className: "figure", textContent: figure(row[name]) }));
    const lines = rows.map((row) => element("tr", {}, element("th", { scope: "row", textContent: row.law ?? row.profile }), ...cells(row)));
    const unit = units === "inch" ? "inches" : "mm";
    return element(
      "div",
      { className: "laws" },
      element("p", { className: "hint", textContent: `Greatest figures of each, in ${unit} and degrees of the cam; – where one has no bound.` }),
      element(
        "div",
        { className: "table", tabIndex: 0, role: "region", "aria-label": "laws of motion" },
        element("table", {}, element("thead", {}, head), element("tbody", {}, ...lines)),
      ),
    );
  }
}
