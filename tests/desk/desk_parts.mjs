// The desk's parts that need no browser: node desk_parts.mjs LOBEWRIGHT EXAMPLES. What they make is judged by the program itself.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { first, settled, ways } from "../../src/page/desk/answers.js";
import { jobFrom } from "../../src/page/desk/job_from_answers.js";
import { keyFacts } from "../../src/page/desk/key_facts.mjs";
import { changeValue, copyLobe, insertKey, locate, removeKey, removeTable, valueText } from "../../src/page/desk/text_changes.js";
import { entriesAt, lobeNames, meaningOf, readTables, tableAt } from "../../src/page/desk/toml_places.js";

const [program, examples] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "desk"));
function native(words, files) {
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const { status, stdout, stderr } = spawnSync(program, words, { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28 });
  return { code: status, out: stdout, err: stderr, files: {} };
}
globalThis.window = { lobewright: { run: async (words, files) => native(words, files) } };
const complaints = (text) => JSON.parse(native(["check", "job.toml", "--json"], { "job.toml": text }).out).complaints ?? [];
const applied = (text, changes) =>
  changes.reduceRight((whole, { from, to, insert }) => whole.slice(0, from) + insert + whole.slice(to), text);
const example = (name) => readFileSync(join(examples, name), "utf8");
const facts = keyFacts(example("job-file.md"));

const tests = {
  "every key that is described is one that the reader knows": () => {
    for (const { path, named, list, keys } of facts.sections) {
      const name = [...path, ...(named ? ["x"] : [])].join("."),
        head = name ? (list ? `[[${name}]]` : `[${name}]`) : "";
      const own = [...new Set(keys.filter((key) => !key.list).map((key) => key.name))];
      const text = `${name ? "layout = 1\n" : ""}${head}\n${own.map((key) => `${key} = 1`).join("\n")}\n`;
      const unknown = complaints(text).filter((each) => each.code === "unknown-key");
      assert.deepEqual(
        unknown.map((each) => each.message),
        [],
        name,
      );
      for (const key of keys.filter(
        (each) => each.members.length && !each.list && each.name !== "segments" && !/material/.test(each.name),
      )) {
        const inside = complaints(`${head}\n${key.name} = { ${key.members.map((member) => `${member.name} = 1`).join(", ")} }\n`);
        const bad = inside.filter((each) => each.code === "unknown-key" && each.message.includes(`.${key.name}.`));
        assert.deepEqual(
          bad.map((each) => each.message),
          [],
          `${name}.${key.name}`,
        );
      }
    }
  },
  "every key that the reader knows is described": () => {
    const kinds = {
      profile: ["shape", ["arcs", "motion", "segments", "fullest", "table"]],
      follower: ["kind", ["flat", "roller", "domed", "knife", "pivoted"]],
      cutter: ["kind", ["end-mill", "ball-nose", "disc"]],
      hand: ["method", ["offset-fixture", "dividing-head", "rotary-table"]],
    };
    let asked = 0;
    for (const { path, named, list, keys } of facts.sections.filter((section) => section.path.length)) {
      const [key, words] = kinds[path[0]] ?? ["", [""]],
        name = [...path, ...(named ? ["x"] : [])].join(".");
      for (const word of words) {
        const text = `${list ? `[[${name}]]` : `[${name}]`}\nqqqqqqqq = 1\n${key ? `${key} = "${word}"\n` : ""}`;
        const told = complaints(text).find((each) => each.code === "unknown-key" && each.message.includes("qqqqqqqq"));
        assert.ok(told, `${name} ${word}: nothing is told of a key that is unknown`);
        const known = [...told.remedy.matchAll(/"([a-z_]+)"/g)].map((found) => found[1]);
        for (const each of known)
          assert.ok(
            keys.some((one) => one.name === each),
            `${name}: ${each} isn't described`,
          );
        asked += known.length;
      }
    }
    assert.ok(asked > 150, `${asked} keys`);
  },
  "what stands where in the examples": () => {
    for (const file of readdirSync(examples).filter((name) => name.endsWith(".toml"))) {
      const text = example(file),
        tables = readTables(text);
      for (const table of tables)
        for (const entry of table.entries) {
          assert.match(text.slice(entry.from, entry.keyTo), /^[a-z_]+$/, file);
          const value = text.slice(entry.value.from, entry.value.to);
          assert.ok(value && value === value.trim() && !value.includes("#"), `${file}: ${value}`);
          assert.equal(tableAt(tables, entry.from), table);
          assert.equal(entriesAt(table, entry.value.from)[0], entry);
        }
      assert.equal(meaningOf(text), meaningOf(text.replace(/#.*$/gm, "# other words").replace(/\n/g, "\n\n")), file);
    }
    assert.deepEqual(lobeNames(readTables(example("basalt-four.toml"))).length, 8);
  },
  "no text, however broken, stops the scanner": () => {
    const seed = Number(process.env.SEED ?? Date.now() % 1e6),
      pieces = ["[", "]", "{", "}", "=", "\n", '"', "'", '"""', "#", ",", ".", "a", "1", "\\", " ", "[[lobe]]\n", 'name = "x"\n'];
    console.log(`seed ${seed}`);
    let state = seed + 1;
    const random = (count) => {
      state = (state * 48271) % 2147483647;
      return state % count;
    };
    const four = example("basalt-four.toml");
    for (let i = 0; i < 400; ++i) {
      let text = i % 2 ? four.slice(0, 3000) : "";
      for (let k = 0; k < 40; ++k) {
        const at = random(text.length + 1);
        text = text.slice(0, at) + pieces[random(pieces.length)] + text.slice(at + random(3));
      }
      const tables = readTables(text);
      for (const table of tables) for (const entry of table.entries) assert.ok(entry.from <= entry.to && entry.to <= text.length);
      entriesAt(tableAt(tables, random(text.length + 1)), random(text.length + 1));
    }
  },
  "what is typed into a field stands as it must in the file": () => {
    for (const [typed, kind, words, wanted] of [
      ["6,25", "number", [], "6.25"],
      [".5", "number", [], "0.5"],
      ["5.", "number", [], "5.0"],
      ["-3", "number", [], "-3"],
      ["straight", "number", ["straight"], '"straight"'],
      ["16", "string", ["straight"], "16"],
      ["two words", "new", [], '"two words"'],
      ['a "b" \\ c', "string", [], '"a \\"b\\" \\\\ c"'],
      ["[1, 2]", "list", [], "[1, 2]"],
      ["12", "string", [], '"12"'],
      ["1 2", "number", [], "1 2"],
      ["", "number", [], ""],
    ])
      assert.equal(valueText(typed, kind, words), wanted, typed);
  },
  "a change leaves everything else as it stands": () => {
    const four = example("basalt-four.toml"),
      inlet = locate(four, ["profile", "inlet"], 0);
    const lift = applied(four, changeValue(inlet, ["lift"], "2.35", "number", []));
    assert.equal(lift, four.replace("base_radius = 6.0\nlift = 2.4\n", "base_radius = 6.0\nlift = 2.35\n"));
    const card = applied(four, changeValue(locate(four, ["engine"], 0), ["exhaust", "clearance"], "0.15", "number", []));
    assert.equal(card, four.replace("clearance = 0.12 }", "clearance = 0.15 }"));
    const more = applied(four, insertKey(four, locate(four, ["machine"], 0), ["limits", "rotary_travel"], "720", "new", []));
    assert.match(more, /blocks_per_second = 400, rotary_travel = 720 \}/);
    const without = applied(four, removeKey(four, ["cut"], 0, "spring_passes"));
    assert.equal(without, four.replace("spring_passes = 1\n", ""));
    assert.deepEqual(complaints(applied(four, removeTable(four, ["hand", "head"], 0))), []);
    const nine = applied(four, copyLobe(four, 7));
    assert.deepEqual(lobeNames(readTables(nine)).slice(-2), ["4 exhaust", "4 exhaust again"]);
  },
  "answers come to a job that can be made, and cut as was asked": async () => {
    const card = { opens: "14", closes: "46", exOpens: "48", exCloses: "12" },
      sizes = { flat: 12, roller: 5, domed: 60, pivoted: 6 };
    const told = [];
    const asked = ways.flatMap(([way], row) =>
      Object.keys(sizes).map((follower, column) => ({
        way,
        follower,
        units: (row + column) % 2 ? "inch" : "mm",
        cylinders: follower === "flat" ? "4" : "1",
      })),
    );
    for (const { way, follower, units, cylinders } of asked) {
      const length = (mm) => String(Number((mm / (units === "inch" ? 25.4 : 1)).toFixed(3)));
      const figures = { size: length(sizes[follower]), pivot: length(30), arm: length(28), lift: length(2.4), base: length(6.5) };
      const text = await jobFrom({ ...first(), ...card, ...figures, way, follower, units, cylinders, title: `Basalt ${way}` }),
        outcome = native(["check", "job.toml", "--json"], { "job.toml": text }),
        report = JSON.parse(outcome.out),
        where = `${way}, ${follower}, ${units}, ${cylinders}`;
      assert.ok(report.ways, `${where}: ${outcome.out}\n${text}`);
      assert.equal(report.lobes.length, 2 * Number(cylinders), where);
      assert.notEqual(report.ways[0].verdict, "no", `${where}: ${JSON.stringify(report.findings)}`);
      for (const line of text.split("\n")) assert.ok(line.length <= 150, line);
      told.push(`${where}: ${report.ways[0].verdict}`, ...report.findings.map((finding) => "  " + finding.message));
    }
    if (process.env.TELL) console.log(told.join("\n"));
  },
  "what isn't said is proposed": () => {
    const all = settled({
      ...first(),
      way: "mill",
      base: "0.4",
      lift: "0.18",
      units: "inch",
      opens: "18",
      closes: "46",
      exOpens: "50",
      exCloses: "14",
    });
    for (const name of ["blank", "width", "spacing", "cutter", "clearance", "exClearance", "post"]) assert.notEqual(all[name], "", name);
    assert.ok(Number(all.blank) > 2 * 0.58 && Number(all.blank) < 2 * 0.58 + 0.1, all.blank);
  },
};

let failed = 0;
for (const [name, test] of Object.entries(tests)) {
  try {
    await test();
  } catch (fault) {
    failed += 1;
    console.log(`FAILED: ${name}\n${fault.stack}`);
  }
}
rmSync(folder, { recursive: true });
console.log(`${Object.keys(tests).length - failed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
