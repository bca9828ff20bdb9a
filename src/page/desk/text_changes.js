// Changes of a job's text that leave everything else as it stands: each as a list of { from, to, insert }.
import { isBare, quote, readTables, valueOf } from "./toml_places.js";

export const locate = (text, path, index) =>
  readTables(text).find((table) => table.path.join(".") === path.join(".") && table.index === index);

const looksLikeNumber = (typed) => /^[+-]?(\d[\d_]*)?\.?\d+([eE][+-]?\d+)?$|^[+-]?\d+\.$/.test(typed);

// What was typed into a field, as it has to stand in the file; `kind` is that of the value that stood there.
export function valueText(typed, kind, words) {
  const text = typed.trim(),
    number = /^[+-]?\d+,\d+$/.test(text) ? text.replace(",", ".") : text;
  if (kind === "string" && !(words.length && looksLikeNumber(number))) return quote(typed);
  if (looksLikeNumber(number)) return number.startsWith(".") ? "0" + number : number.endsWith(".") ? number + "0" : number;
  if (text === "" || /^[[{"']/.test(text) || text === "true" || text === "false") return text;
  return kind === "number" && /^[\d.,+-]/.test(text) ? text : quote(text);
}

// The value at a path of keys within a table; null where the key isn't there.
export function changeValue(table, path, typed, kind, words) {
  let entry = table.entries.find((each) => each.name === path[0] && each.value);
  for (const name of path.slice(1)) entry = entry?.value.entries?.find((each) => each.name === name && each.value);
  return entry ? [{ from: entry.value.from, to: entry.value.to, insert: valueText(typed, kind, words) }] : null;
}
export function insertKey(text, table, path, typed, kind, words) {
  if (typed.trim() === "") return null;
  const value = valueText(typed, kind, words),
    name = path[path.length - 1];
  if (path.length === 1) {
    const lineEnd = text.indexOf("\n", table.to),
      at = lineEnd < 0 ? text.length : lineEnd;
    return [{ from: at, to: at, insert: `\n${name} = ${value}` }];
  }
  const group = table.entries.find((each) => each.name === path[0])?.value;
  if (group?.kind !== "inline") return null;
  const last = group.entries[group.entries.length - 1];
  return last
    ? [{ from: last.to, to: last.to, insert: `, ${name} = ${value}` }]
    : [{ from: group.from + 1, to: group.from + 1, insert: ` ${name} = ${value} ` }];
}

// Whole lines: from the start of the one to the end of the other, a comment behind it too.
function linesOut(text, from, to) {
  const start = text.lastIndexOf("\n", from - 1) + 1,
    end = text.indexOf("\n", to);
  return [{ from: start, to: end < 0 ? text.length : end + 1, insert: "" }];
}
export function removeKey(text, path, index, name) {
  const entry = locate(text, path, index)?.entries.find((each) => each.name === name);
  return entry ? linesOut(text, entry.from, entry.to) : [];
}
export function removeTable(text, path, index) {
  const table = locate(text, path, index);
  return table ? linesOut(text, table.from, table.to) : [];
}

// Another lobe like one, as far behind it as that is behind the one before, or twice its width.
export function copyLobe(text, index) {
  const lobe = locate(text, ["lobe"], index),
    before = index > 0 ? locate(text, ["lobe"], index - 1) : null;
  const last = locate(text, ["lobe"], readTables(text).filter((table) => table.path.join() === "lobe").length - 1);
  const z = valueOf(lobe, "z"),
    step = before && valueOf(before, "z") < z ? z - valueOf(before, "z") : 2 * (valueOf(lobe, "width") || 0);
  const names = new Set(
    readTables(text)
      .filter((table) => table.path.join() === "lobe")
      .map((table) => valueOf(table, "name")),
  );
  let name = `${valueOf(lobe, "name")} again`;
  for (let i = 2; names.has(name); ++i) name = `${valueOf(lobe, "name")} again ${i}`;
  const made = { name: quote(name), z: String(Number((valueOf(last, "z") + step).toFixed(6))) };
  const lines = lobe.entries
    .filter((entry) => entry.value)
    .map((entry) => `${entry.name} = ${made[entry.name] ?? text.slice(entry.value.from, entry.value.to)}`);
  const lineEnd = text.indexOf("\n", last.to),
    at = lineEnd < 0 ? text.length : lineEnd;
  return [{ from: at, to: at, insert: `\n\n[[lobe]]\n${lines.join("\n")}` }];
}

// A table more at the file's end, and the keys that it needs and that wait for a value.
export function addTable(text, section, name) {
  const group = section.path[section.path.length - 1],
    names = readTables(text)
      .filter((table) => table.path[0] === group)
      .map((table) => table.path[1]);
  let called = name || group;
  for (let i = 2; section.named && names.includes(called); ++i) called = `${name || group}${i}`;
  const path = section.named ? [...section.path, called] : section.path,
    shown = path.map((part) => (isBare(part) ? part : quote(part))).join(".");
  const index = readTables(text).filter((table) => table.path.join(".") === path.join(".")).length;
  const kind = section.keys.find((key) => ["shape", "kind", "method"].includes(key.name)),
    word = kind?.words[0];
  const line = word ? `${kind.name} = ${quote(word)}\n` : "";
  const needed = section.keys.filter(
    (key) =>
      key.absent === "needed" &&
      key !== kind &&
      (!key.needs || key.needs === "all" || key.needs.split(/[ ,-]+/).some((each) => word?.includes(each))),
  );
  return {
    address: `${path.join(".")}#${index}`,
    waiting: [...new Set(needed.map((key) => key.name))],
    changes: [
      {
        from: text.length,
        to: text.length,
        insert: `${text.endsWith("\n") || !text ? "" : "\n"}\n${section.list ? `[[${shown}]]` : `[${shown}]`}\n${line}`,
      },
    ],
  };
}
