// The chosen lobe as it moves: under its follower, nose up, and its lift with what follows from it; told again at every change
// of the job.
import { column, figure, plot, stretchOf } from "./curves.js";
import { chooser, drawn, element } from "./elements.js";
import { entryOf, readTables, valueOf } from "./toml_places.js";

const radians = (degrees) => (degrees * Math.PI) / 180;
const turned = (x, y, angle) => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
const path = (points) => points.map(([x, y], i) => `${i ? "L" : "M"}${x.toFixed(5)} ${(-y).toFixed(5)}`).join("") + "Z";

// A lobe's outline in the shaft's frame, and what the drawing needs to know of its follower.
export function shapeOf(tables, name, rows) {
  const lobe = tables.find((table) => table.list && table.path.join() === "lobe" && valueOf(table, "name") === name);
  const follower = tables.find((table) => table.path[0] === "follower" && table.path[1] === valueOf(lobe, "follower"));
  const radius = valueOf(follower, "radius");
  return {
    points: rows.map((row) => [row.contact_x, row.contact_y]),
    rows,
    rounded: typeof radius === "number" ? radius : 0,
    profile: valueOf(lobe, "profile"),
    flat: valueOf(follower, "kind") === "flat" || Boolean(entryOf(follower, "pad_depth")),
    base: Math.min(...rows.map((row) => row.polar_radius)),
  };
}

// The outward normal where a row touches: across the way from its neighbours' contacts.
function normalAt(shape, index) {
  const { points } = shape,
    at = points[index];
  for (let reach = 1; reach < 20; ++reach) {
    const [a, b] = [points[Math.max(0, index - reach)], points[Math.min(points.length - 1, index + reach)]];
    const along = [b[0] - a[0], b[1] - a[1]],
      size = Math.hypot(...along);
    if (size < 1e-7) continue;
    const normal = [along[1] / size, -along[0] / size];
    return normal[0] * at[0] + normal[1] * at[1] < 0 ? [-normal[0], -normal[1]] : normal;
  }
  return [at[0] / Math.hypot(...at), at[1] / Math.hypot(...at)];
}

function followerOf(shape, index, turn, reach) {
  const at = turned(...shape.points[index], turn),
    normal = turned(...normalAt(shape, index), turn);
  const parts = [drawn("circle", { class: "touch", cx: at[0], cy: -at[1], r: reach / 60 })];
  if (shape.flat) {
    const end = (way) => [at[0] - way * normal[1] * reach * 0.55, -(at[1] + way * normal[0] * reach * 0.55)];
    const [a, b] = [end(-1), end(1)];
    parts.push(drawn("line", { class: "follower", x1: a[0], y1: a[1], x2: b[0], y2: b[1] }));
  } else if (shape.rounded) {
    parts.push(
      drawn("circle", {
        class: "follower",
        cx: at[0] + normal[0] * shape.rounded,
        cy: -(at[1] + normal[1] * shape.rounded),
        r: shape.rounded,
      }),
    );
  }
  return parts;
}

export class LobeView {
  constructor(onLobe) {
    this.onLobe = onLobe;
    this.angle = 0;
    this.pick = element("div");
    this.words = element("p", { className: "figures", "aria-live": "polite" });
    this.picture = drawn("svg", { class: "lobe", role: "img", "aria-label": "the lobe under its follower, seen from the drive end" });
    this.slider = element("input", {
      type: "range",
      min: -180,
      max: 180,
      step: 1,
      value: 0,
      "aria-label": "cam angle, degrees",
      oninput: () => this.turnTo(Number(this.slider.value)),
    });
    this.curves = element("div", { className: "curves" });
    this.figures = element("dl", { className: "facts" });
    this.empty = element("p", {
      className: "hint",
      textContent: "There is no job yet: begin by questions, take an example, open a file, or type one.",
    });
    this.shown = element("div", { className: "lobe-view" }, element("div", {}, this.picture, this.slider, this.words), this.curves);
    this.shown.hidden = this.figures.hidden = true;
    this.whole = element("div", {}, this.pick, this.empty, this.shown, this.figures);
  }
  // `found` as Judging tells it, `text` the job it is of.
  show(found, text) {
    this.pick.replaceChildren(
      chooser(
        "lobe",
        found.names.map((name) => [name]),
        found.lobe ?? "",
        (name) => this.onLobe(name),
      ),
    );
    this.pick.hidden = found.names.length < 2;
    this.empty.hidden = Boolean(found.table);
    for (const part of [this.shown, this.figures]) part.classList.toggle("stale", !found.table);
    if (!found.table) {
      this.empty.textContent = found.names.length
        ? "What stands under “To mind” keeps this lobe from being made. Below is the last one that could be."
        : "There is no lobe yet: a [[lobe]] with a profile and a follower makes one.";
      if (!this.shape) this.shown.hidden = this.figures.hidden = true;
      return;
    }
    this.shown.hidden = this.figures.hidden = false;
    this.unit = found.table.units === "inch" ? "in" : "mm";
    this.shape = shapeOf(readTables(text), found.lobe, found.table.rows);
    this.reach = 1.12 * Math.max(...this.shape.points.map((point) => Math.hypot(...point)));
    this.above = this.reach + (this.shape.flat ? 0 : Math.min(2.1 * this.shape.rounded, 2 * this.reach));
    this.drawCurves();
    this.turnTo(this.angle);
  }
  drawCurves() {
    const { rows } = this.shape,
      [from, to] = stretchOf(rows),
      { unit } = this;
    const curve = (title, name) => plot({ title, from, to, series: [{ kind: "first", points: column(rows, name) }] });
    this.plots = [
      curve(`lift, ${unit}, over the cam angle`, "lift"),
      curve(`velocity, ${unit} per degree`, "velocity"),
      curve(`acceleration, ${unit} per degree²`, "acceleration"),
    ];
    this.curves.replaceChildren(...this.plots.map((each) => each.picture));
  }
  // `figures`: what `compare` tells of each profile.
  showFigures(figures) {
    if (!this.shape) return;
    const row = figures.find((each) => each.profile === this.shape.profile);
    const { unit } = this,
      { rows } = this.shape;
    const told = [["greatest lift", figure(Math.max(...rows.map((each) => each.lift))) + " " + unit]];
    if (row)
      told.push(
        ["area under the lift", `${figure(row.area)} ${unit}·degrees`],
        ["smallest radius", `${figure(row.min_curvature_radius)} ${unit}`],
        ["greatest pressure angle", `${figure(row.max_pressure_angle, 3)}°`],
      );
    if (row?.duration) told.push(["valve open for", `${figure(row.duration)}° of the crank`]);
    if (row?.max_contact_stress_mpa) told.push(["contact pressure", `${figure(row.max_contact_stress_mpa, 3)} MPa`]);
    if (row?.float_speed_rpm) told.push(["floats at", `${figure(row.float_speed_rpm, 4)} rev/min`]);
    this.figures.replaceChildren(
      ...told.map(([name, value]) => element("div", {}, element("dt", { textContent: name }), element("dd", { textContent: value }))),
    );
  }
  turnTo(angle) {
    this.angle = angle;
    this.slider.value = angle;
    const { rows, points, base } = this.shape,
      index = Math.min(rows.length - 1, Math.max(0, Math.round(angle) + 180)),
      row = rows[index];
    const turn = Math.PI / 2 - radians(row.shaft_angle),
      { reach } = this;
    this.picture.setAttribute("viewBox", `${-reach} ${-this.above} ${2 * reach} ${this.above + reach}`);
    this.picture.replaceChildren(
      drawn("path", { class: "outline", d: path(points.map((point) => turned(...point, turn))) }),
      drawn("circle", { class: "base", cx: 0, cy: 0, r: base }),
      drawn("circle", { class: "axis", cx: 0, cy: 0, r: reach / 120 }),
      ...followerOf(this.shape, index, turn, reach),
    );
    for (const each of this.plots) each.mark(angle);
    this.words.textContent = `cam angle ${angle}°: lift ${row.lift.toFixed(this.unit === "in" ? 4 : 3)} ${this.unit}, velocity ${figure(row.velocity)} per degree, acceleration ${figure(row.acceleration)} per degree²`;
  }
}
