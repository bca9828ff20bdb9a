// What the users' page on the job file (examples/job-file.md) says of every key, as data for the desk: its one source.
//   keyFacts(markdown) gives { sections: [{ path, named, list, about, keys: [{ name, list, needs, absent, about, words, members }] }] }
const IDENTIFIER = /^[a-z][a-z0-9_]*$/;
const ticked = (text) => [...text.matchAll(/`([^`]+)`/g)].map((found) => found[1]);
const plain = (text) =>
  text
    .replace(/`/g, "")
    .replace(/\[([^\]]+)\]\([^)]*\)/g, "$1")
    .trim();
const cellsOf = (line) =>
  line
    .replace(/^\s*\||\|\s*$/g, "")
    .split("|")
    .map((cell) => cell.trim());
// The words that a key may have, the usual one first; who may go one way round may go the other.
function wordsIn(absent, meaning) {
  const words = [...new Set([...(absent + " " + meaning).matchAll(/"([a-z][a-z0-9-]*)"/g)].map((found) => found[1]))];
  return words.join() === "ccw" ? ["ccw", "cw"] : words;
}

// The names that stand in braces or alone in backticks: the members of a table within the key.
function membersIn(text) {
  const names = [];
  for (const piece of ticked(text)) {
    const inside = piece.startsWith("{") || piece.startsWith("[{") ? piece.replace(/[{}[\]]/g, " ").split(",") : [piece];
    for (const each of inside) names.push(each.trim().split(/\s*=/)[0].trim());
  }
  return [...new Set(names.filter((name) => IDENTIFIER.test(name)))];
}

// A heading "[profile.NAME]" as a path, "[[lobe]]" as a list.
function placesOf(heading) {
  return [...heading.matchAll(/(\[\[?)([a-z.A-Z]+)\]\]?/g)].map(([, bracket, name]) => ({
    path: name.split(".").filter((part) => part !== "NAME"),
    named: name.includes("NAME"),
    list: bracket === "[[",
  }));
}

function keysOfRow(cells, columns, kind, only) {
  const cell = (name) => cells[columns.indexOf(name)] ?? "";
  const about = plain(cell("meaning")),
    braced = /`\[?\{/.test(cell("meaning"));
  return ticked(cells[0]).map((raw, i) => {
    const name = raw.replace(/[[\]]/g, "").split(/[\s=]/)[0];
    const nested = raw.startsWith("[[") || braced || /^a table/.test(about);
    const words =
      i === 0 && about.startsWith("number, and") ? [] : wordsIn(/needed/.test(cell("if absent")) ? "" : cell("if absent"), cell("meaning"));
    return {
      name: name.split(".").pop(),
      list: raw.startsWith("[["),
      needs: plain(cell("for")) || kind,
      only,
      absent: plain(cell("if absent")).replace(/; –$/, ""),
      about,
      words,
      members: nested ? membersIn(cell("meaning")).map((each) => ({ name: each })) : [],
    };
  });
}

// One heading's lines: sentences, and tables of keys.
function readSection(lines) {
  const found = { about: [], keys: [], limits: [], card: [] };
  let columns = null,
    kind = "",
    only = "",
    fenced = false;
  for (const line of lines) {
    if (line.startsWith("```")) fenced = !fenced;
    else if (fenced) continue;
    else if (line.startsWith("|")) {
      const cells = cellsOf(line);
      if (!columns) {
        only = /operation/.test(cells[0]) ? "operation" : "";
        columns = [cells[0].split(" ")[0], ...cells.slice(1)];
        continue;
      }
      if (/^[-:]+$/.test(cells[0])) continue;
      if (columns[0] === "card") found.card.push(...membersIn(cells[1]).filter((name) => IDENTIFIER.test(name)));
      else found[columns[0] === "limit" ? "limits" : "keys"].push(...keysOfRow(cells, columns, kind, only));
    } else {
      columns = null;
      const shape = line.match(/^`shape = "([a-z]+)"`/);
      if (shape) kind = shape[1];
      if (line.trim() && !found.keys.length) found.about.push(line.trim());
    }
  }
  return found;
}

const named = (keys, name) => keys.find((key) => key.name === name);

// What other rows and tables of a profile say: the limits' own, and the laws where a law may stand.
function completeProfile(keys, limits) {
  const laws = named(keys, "law").words,
    segments = named(keys, "segments");
  named(keys, "limits").members = limits;
  segments.words = [];
  named(segments.members, "law").words = laws;
  for (const key of keys) if (key.name === "opening_law" || key.name === "closing_law") key.words = laws;
}

// The ways to write a timing card: an inlet has no exhaust's events, nor the other way round.
function completeCards(keys, card) {
  const others = { inlet: ["opens_before_bdc", "closes_after_tdc"], exhaust: ["opens_before_tdc", "closes_after_bdc"] };
  for (const [name, not] of Object.entries(others)) {
    const key = named(keys, name),
      all = new Set([...key.members.map((each) => each.name), ...card, "at_lift"]);
    key.members = [...all].filter((each) => !not.includes(each) && !named(keys, each)).map((each) => ({ name: each }));
  }
}

// "...; or" leads on to the next row's key.
function nameAlternatives(keys) {
  for (const [i, key] of keys.entries()) if (/\bor$/.test(key.about) && keys[i + 1]) key.about += " " + keys[i + 1].name;
}

function sectionsOf(block) {
  const [heading, ...lines] = block.split("\n"),
    { about, keys, limits, card } = readSection(lines);
  if (!heading.startsWith("[")) return [];
  nameAlternatives(keys);
  if (limits.length) completeProfile(keys, limits);
  if (card.length) completeCards(keys, card);
  const own = (place) => keys.filter((key) => !key.only || key.only === place.path[0]);
  const words = plain(about.join(" ")).replace(/[^.]*:$/, ""); // but for what leads over to a table
  return placesOf(heading).map((place) => ({ ...place, about: words, keys: own(place) }));
}

export function keyFacts(markdown) {
  const [before, ...blocks] = markdown
    .split(/^## /m)
    .find((part) => part.startsWith("Keys"))
    .split(/^### /m);
  const layout = {
    name: "layout",
    list: false,
    needs: "",
    absent: "needed",
    about: plain(before.replace(/^Keys\s*/, "")),
    words: [],
    members: [],
  };
  return { sections: [{ path: [], named: false, list: false, about: "", keys: [layout] }, ...blocks.flatMap(sectionsOf)] };
}
