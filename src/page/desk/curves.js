// Curves over the cam angle, as pictures of the page itself.
import { drawn } from "./elements.js";

const angleSteps = [1, 2, 5, 10, 15, 20, 30, 45, 60]; // degrees
const wide = 440,
  left = 66,
  right = 14,
  top = 22,
  bottom = 26;

// A step of 1, 2 or 5 that parts a range into about so many.
export function evenStep(range, parts) {
  const raw = range / parts,
    power = 10 ** Math.floor(Math.log10(raw));
  return power * [1, 2, 5, 10].find((each) => each * power >= raw * 0.999);
}
export const figure = (value, digits = 4) => {
  if (value === null || value === undefined) return "–";
  const text = Math.abs(value) >= 1000 ? value.toFixed(0) : Number(value.toPrecision(digits)).toString();
  return (/e/.test(text) ? value.toFixed(9).replace(/0+$/, "") : text).replace("-", "−");
};
const tick = (value, step) => value.toFixed(Math.min(9, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)))).replace("-", "−");

function rangeOf(series) {
  const values = series.flatMap(({ points }) => points.map((point) => point[1]));
  const low = Math.min(0, ...values),
    high = Math.max(0, ...values),
    span = high - low || 1;
  return [low - 0.04 * span, high + 0.06 * span];
}

// `series`: { name, kind, points: [[x, y], ...] }; kind names its line in the style. Gives { picture, mark(x) }.
export function plot({ title, series, from, to, tall = 150 }) {
  const [low, high] = rangeOf(series),
    inner = tall - top - bottom;
  const across = (x) => left + ((x - from) / (to - from)) * (wide - left - right);
  const up = (y) => top + inner - ((y - low) / (high - low)) * inner;
  const picture = drawn("svg", { class: "plot", viewBox: `0 0 ${wide} ${tall}`, role: "img", "aria-label": title });
  picture.append(drawn("text", { x: left, y: 14, class: "name" }, title));
  const xStep = angleSteps.find((step) => (to - from) / step <= 9) ?? 90,
    yStep = evenStep(high - low, 4);
  for (let x = Math.ceil(from / xStep) * xStep; x <= to + 1e-9; x += xStep)
    picture.append(
      drawn("line", { class: "grid", x1: across(x), x2: across(x), y1: top, y2: top + inner }),
      drawn("text", { class: "tick", x: across(x), y: tall - 8, "text-anchor": "middle" }, tick(x, xStep)),
    );
  for (let y = Math.ceil(low / yStep) * yStep; y <= high; y += yStep)
    picture.append(
      drawn("line", { class: Math.abs(y) < yStep / 1e6 ? "zero" : "grid", x1: left, x2: wide - right, y1: up(y), y2: up(y) }),
      drawn("text", { class: "tick", x: left - 6, y: up(y) + 4, "text-anchor": "end" }, tick(Math.abs(y) < yStep / 1e6 ? 0 : y, yStep)),
    );
  for (const { kind, points } of series) {
    const shown = points.filter(([x]) => x >= from - 1e-9 && x <= to + 1e-9);
    picture.append(
      drawn("path", {
        class: `curve ${kind}`,
        d: shown.map(([x, y], i) => `${i ? "L" : "M"}${across(x).toFixed(2)} ${up(y).toFixed(2)}`).join(""),
      }),
    );
  }
  const cursor = drawn("line", { class: "cursor", y1: top, y2: top + inner });
  const mark = (x) => {
    for (const end of ["x1", "x2"]) cursor.setAttribute(end, across(Math.min(to, Math.max(from, x))));
    if (!cursor.isConnected) picture.append(cursor);
  };
  return { picture, mark };
}

// The stretch of cam angle about a lobe's lift, in tens of degrees.
export function stretchOf(...tables) {
  const lifted = tables.flatMap((rows) => rows.filter((row) => row.lift > 0).map((row) => row.cam_angle));
  if (!lifted.length) return [-180, 180];
  return [Math.max(-180, Math.floor((Math.min(...lifted) - 6) / 10) * 10), Math.min(180, Math.ceil((Math.max(...lifted) + 6) / 10) * 10)];
}
export const column = (rows, name) => rows.map((row) => [row.cam_angle, row[name]]);
