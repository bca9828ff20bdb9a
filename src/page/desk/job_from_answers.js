// From answers to a job: of the lobes that may do, those that turn out best.
import { numberOf } from "./answers.js";
import { run } from "./engine_link.js";
import { lobeNames, readTables } from "./toml_places.js";
import { asksForTouch, shapesFor, writtenJob } from "./written_job.js";

const least = 0.3; // of the base circle: a lobe's smallest radius that is looked for first

// How far from the foot of its normal the lobe is touched: how wide a flat end must be.
function touchOf(rows) {
  let most = 0;
  for (let i = 1; i + 1 < rows.length; ++i) {
    const [a, b] = [rows[i - 1], rows[i + 1]],
      x = b.contact_x - a.contact_x,
      y = b.contact_y - a.contact_y,
      size = Math.hypot(x, y);
    if (size > 1e-6) most = Math.max(most, Math.abs(rows[i].contact_x * x + rows[i].contact_y * y) / size);
  }
  return most;
}

const worth = { yes: 2, but: 1, no: 0 };
// How well a job turns out: whether it can be cut as was asked, and how round its sharpest place is; null where a lobe can't be.
async function judged(text, base) {
  const outcome = await run(["check", "job.toml", "--json"], { "job.toml": text });
  const report = outcome.out.includes('"ways"') ? JSON.parse(outcome.out) : null;
  if (!report || report.findings.some((each) => each.severity === "error" && !each.way)) return null;
  const round = Math.min(1, Math.min(...report.lobes.map((lobe) => lobe.min_curvature_radius)) / base / least);
  return { worth: worth[report.ways[0]?.verdict ?? "no"] + round, good: round === 1 && report.ways[0]?.verdict === "yes" };
}

// The job of the first shape that makes sound lobes, not too sharp ones, that can be cut; where none does, the best there is, and what
// keeps it from being made is told at its place.
export async function jobFrom(answers) {
  const shapes = shapesFor(answers),
    base = numberOf(answers.base);
  let best = null;
  for (const shape of shapes) {
    const text = await fitted(answers, shape),
      found = await judged(text, base);
    if (found && (!best || found.worth > best.worth)) best = { ...found, text };
    if (best?.good) break;
  }
  return best?.text ?? writtenJob(answers, shapes[0]);
}
// The job of one shape, with what its lobes ask of the tools: a flat end is set beside the shaft's axis by as much as they are touched
// sideways; an index wheel that is still to be made has its marks where they are wanted.
async function fitted(answers, shape) {
  const text = writtenJob(answers, shape);
  if (answers.way === "lathe") return withWheel(answers, shape, text);
  return asksForTouch(answers) ? withTouch(answers, shape, text) : text;
}
async function withTouch(answers, shape, text) {
  let touches = 0;
  for (const name of lobeNames(readTables(text)).slice(0, 2)) {
    const table = await run(["table", "job.toml", "--lobe", name, "--json"], { "job.toml": text }, "quick");
    if (table.code === 0) touches = Math.max(touches, touchOf(JSON.parse(table.out).rows));
  }
  return touches ? writtenJob(answers, shape, { touches }) : text;
}
async function withWheel(answers, shape, text) {
  const listed = await run(["index", "job.toml", "--format", "json"], { "job.toml": text });
  if (listed.code !== 0) return text;
  const marks = answers.divisions.trim(),
    wheel = JSON.parse(listed.out).wheels.find((each) => marks === "" || each.divisions === Number(marks));
  return wheel ? writtenJob(answers, shape, { wheel }) : text;
}
