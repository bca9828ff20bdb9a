// What stands where in a job file, also in one that is half written: its tables, keys and values with their places in the
// text. The engine alone judges the file; this is for editing it.
const BARE = /[A-Za-z0-9_-]/;

class Scanner {
  constructor(text) {
    this.text = text;
    this.at = 0;
  }
  get next() {
    return this.text[this.at];
  }
  get done() {
    return this.at >= this.text.length;
  }
  skip(pattern) {
    while (!this.done && pattern.test(this.next)) this.at += 1;
  }
  // Blanks, line ends and comments between the members of a list.
  skipGap() {
    for (;;) {
      this.skip(/[\s]/);
      if (this.next !== "#") return;
      this.toLineEnd();
    }
  }
  toLineEnd() {
    while (!this.done && this.next !== "\n") this.at += 1;
  }

  quoted() {
    const from = this.at,
      mark = this.next,
      long = this.text.startsWith(mark.repeat(3), this.at);
    const end = long ? mark.repeat(3) : mark;
    let value = "";
    for (this.at += end.length; !this.done && !this.text.startsWith(end, this.at) && (long || this.next !== "\n"); this.at += 1) {
      if (mark === '"' && this.next === "\\") this.at += 1;
      value += this.next ?? "";
    }
    if (this.text.startsWith(end, this.at)) this.at += end.length;
    this.at = Math.min(this.at, this.text.length);
    return { kind: "string", from, to: this.at, value };
  }
  // A name, or names with points between.
  keyPath() {
    const names = [];
    for (;;) {
      this.skip(/[ \t]/);
      if (this.next === '"' || this.next === "'") names.push(this.quoted().value);
      else {
        const from = this.at;
        this.skip(BARE);
        if (this.at === from) return names;
        names.push(this.text.slice(from, this.at));
      }
      this.skip(/[ \t]/);
      if (this.next !== ".") return names;
      this.at += 1;
    }
  }
  value() {
    if (this.next === '"' || this.next === "'") return this.quoted();
    if (this.next === "[") return this.list();
    if (this.next === "{") return this.inline();
    const from = this.at;
    while (!this.done && !/[,\]}#\n]/.test(this.next)) this.at += 1;
    const words = this.text.slice(from, this.at).trimEnd(),
      to = from + words.length;
    const number = Number(words.replace(/_/g, ""));
    if (words && Number.isFinite(number)) return { kind: "number", from, to, value: number };
    return { kind: words === "true" || words === "false" ? "boolean" : "broken", from, to, value: words };
  }
  list() {
    const from = this.at,
      items = [];
    this.at += 1;
    for (;;) {
      this.skipGap();
      if (this.done || this.next === "]" || this.next === "}") break;
      const before = this.at;
      if (this.next === ",") this.at += 1;
      else items.push(this.value());
      if (this.at === before) this.at += 1;
    }
    if (this.next === "]") this.at += 1;
    return { kind: "list", from, to: this.at, items };
  }
  inline() {
    const from = this.at,
      entries = [];
    this.at += 1;
    for (;;) {
      this.skip(/[ \t,]/);
      if (this.done || /[}\n\]#]/.test(this.next)) break;
      const before = this.at;
      entries.push(this.entry());
      if (this.at === before) this.at += 1;
    }
    if (this.next === "}") this.at += 1;
    return { kind: "inline", from, to: this.at, entries };
  }
  entry() {
    const from = this.at,
      path = this.keyPath(),
      keyTo = from + this.text.slice(from, this.at).trimEnd().length;
    this.skip(/[ \t]/);
    let value = null;
    if (this.next === "=") {
      this.at += 1;
      this.skip(/[ \t]/);
      value = this.value();
    }
    return { name: path[path.length - 1] ?? "", path, from, keyTo, to: value ? value.to : keyTo, value };
  }
  header() {
    const from = this.at,
      list = this.text.startsWith("[[", this.at);
    this.at += list ? 2 : 1;
    const path = this.keyPath();
    this.skip(/\]/);
    return { path, list, from, headTo: this.at, entries: [] };
  }
}

// The tables in the file's order, the keys before the first one in a table without a path; `index` counts a list's tables,
// `to` is where a table's last line of its own ends.
export function readTables(text) {
  const scan = new Scanner(text),
    counts = new Map();
  let table = { path: [], list: false, index: 0, from: 0, headTo: 0, to: 0, entries: [] };
  const tables = [table];
  for (; !scan.done; scan.at += 1) {
    scan.skip(/[\s]/);
    if (scan.done) break;
    if (scan.next === "[") {
      table = scan.header();
      const name = table.path.join(".");
      table.index = counts.get(name) ?? 0;
      counts.set(name, table.index + 1);
      table.to = table.headTo;
      tables.push(table);
    } else if (scan.next !== "#") {
      const entry = scan.entry();
      table.entries.push(entry);
      table.to = Math.max(table.to, entry.to);
    }
    scan.toLineEnd();
  }
  return tables;
}

export const entryOf = (table, name) => table?.entries.find((entry) => entry.name === name && entry.value);
export const valueOf = (table, name) => entryOf(table, name)?.value.value;
export const tablesOf = (tables, ...path) => tables.filter((table) => path.every((part, i) => table.path[i] === part));
export const namesOf = (tables, group) => [
  ...new Set(tables.filter((table) => table.path[0] === group && table.path.length > 1).map((table) => table.path[1])),
];
export const lobeNames = (tables) =>
  tables
    .filter((table) => table.list && table.path.join() === "lobe")
    .map((table) => valueOf(table, "name"))
    .filter((name) => typeof name === "string");
export const tableAt = (tables, place) => tables.filter((table) => table.from <= place).pop();

// The chain of keys about a place: the outermost first, its value's own members behind it.
export function entriesAt(table, place) {
  const chain = [];
  const seek = (entries) => {
    const entry = entries.find((each) => each.from <= place && place <= each.to);
    if (!entry) return;
    chain.push(entry);
    if (entry.value) inside(entry.value);
  };
  const inside = (value) => {
    if (value.kind === "inline") seek(value.entries);
    if (value.kind === "list") for (const item of value.items) if (item.from <= place && place <= item.to) inside(item);
  };
  seek(table.entries);
  return chain;
}

// Text as a value: in quotes, whatever is in it.
export const quote = (text) =>
  `"${text
    .replace(/\\/g, "\\\\")
    .replace(/"/g, '\\"')
    .replace(/[\n\r\t]/g, " ")}"`;
export const isBare = (name) => /^[A-Za-z0-9_-]+$/.test(name);
// The text without comments, blanks around and empty lines: what means the same is the same.
export function meaningOf(text) {
  return readTables(text)
    .map(
      (table) =>
        table.path.join(".") +
        (table.list ? "*" : "") +
        "\n" +
        table.entries
          .map((entry) => entry.path.join(".") + "=" + (entry.value ? text.slice(entry.value.from, entry.value.to) : ""))
          .join("\n"),
    )
    .join("\n");
}
