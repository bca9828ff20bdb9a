// What a key means, and which keys and names may stand at a place: from the one description of the job file, which the build
// puts in here.
import facts from "desk:key-facts";
import { element } from "./elements.js";
import { entriesAt, lobeNames, namesOf, readTables, tableAt, valueOf } from "./toml_places.js";

// Groups whose names a key may hold.
const references = { profile: "profile", follower: "follower", cutter: "cutter", machine: "machine" };
let postNames = [];
export const knowPosts = (names) => {
  postNames = names;
};

export const sections = facts.sections;
const sectionNamed = (name) => sections.find((section) => section.path.join(".") === name);

// The keys that a table of that path may have: of a table within a section's key ([machine.limits]) that key's members.
export function sectionOf(path, list) {
  const section = sectionNamed(path[0] === "operation" || path[0] === "cut" ? path[0] : path.length ? path[0] : "");
  if (!section) return null;
  const within = path.slice(section.named ? 2 : 1);
  const keys =
    within.length && section.path[0] === "machine" && !section.keys.some((key) => key.name === within[0]) ? within.slice(1) : within;
  if (!keys.length) return section;
  const key = section.keys.find((each) => each.name === keys[0]);
  return key
    ? {
        path,
        list,
        about: key.about,
        keys: key.members.map((member) => ({ absent: "", about: "", words: [], members: [], needs: "", ...member })),
        of: key,
      }
    : null;
}

// Whether a key belongs to what the table says that it is: a "roller" has no face_diameter.
const kindOf = (table) => ["shape", "kind", "method"].map((name) => valueOf(table, name)).find((word) => typeof word === "string") ?? "";
const fits = (key, kind, table) => {
  if (!key.needs || key.needs === "all" || !kind) return true;
  const said = key.needs
    .replace(/, in place of.*/, "")
    .split(",")
    .map((word) => word.trim());
  if (said.includes("wheel")) return kind === "disc" && valueOf(table, "teeth") === 0;
  return said.some((word) => kind.replace("-", " ") === word || kind.split("-").includes(word));
};
export const keysFor = (table) => {
  const section = sectionOf(table.path, table.list),
    kind = kindOf(table);
  return (section?.keys ?? []).filter((key) => fits(key, kind, table));
};

// The key's description at its place: the one of its table's kind goes before others of that name.
export function keyNamed(table, name) {
  const all = (sectionOf(table.path, table.list)?.keys ?? []).filter((key) => key.name === name);
  return all.find((key) => fits(key, kindOf(table), table)) ?? all[0] ?? null;
}

// What may be written as a key's value: words of the key, or names that the file has.
export function valuesFor(key, tables) {
  if (key.name === "post") return postNames;
  if (key.name === "lobe" || key.name === "lobes") return lobeNames(tables);
  const group = references[key.name];
  return group ? namesOf(tables, group) : (key.words ?? []);
}

// What is assumed without a key, in words; nothing where it is always needed.
const withoutIt = ({ absent }) => {
  if (!absent || absent === "–" || absent === "needed") return "";
  return /^needed/.test(absent) ? absent : `if absent: ${absent}`;
};
// What a key means, as a line or two below its field.
export const hintOf = (key) => [withoutIt(key), key.about].filter(Boolean).join("; ");

// A description as elements: the name, what is assumed without it, what it means.
export function describe(key, holder) {
  const absent = key.absent === "needed" ? "needed" : withoutIt(key);
  return element(
    "div",
    { className: "key-help" },
    element(
      "p",
      { className: "key-name" },
      element("code", { textContent: key.name }),
      absent ? element("span", { textContent: absent }) : null,
    ),
    element("p", { textContent: key.about || holder?.about || "" }),
    key.words?.length ? element("p", { className: "words", textContent: "one of: " + key.words.join(", ") }) : null,
  );
}

// The description of what stands at a place of the text, with the place's bounds; null where there is none.
export function helpAt(text, place) {
  const table = tableAt(readTables(text), place);
  if (place <= table.headTo && table.path.length) {
    const section = sectionOf(table.path, table.list);
    return section?.about
      ? { from: table.from, to: table.headTo, shown: describe({ name: table.path.join("."), about: section.about }) }
      : null;
  }
  const [outer, inner] = entriesAt(table, place),
    key = outer && keyNamed(table, outer.name);
  if (!key) return null;
  const member = inner && key.members.find((each) => each.name === inner.name);
  if (member)
    return {
      from: inner.from,
      to: inner.to,
      shown: describe({ ...member, absent: member.absent ?? "", name: `${key.name}.${member.name}` }, key),
    };
  return { from: outer.from, to: outer.to, shown: describe(key) };
}

const option = (label, key, apply) => ({
  label,
  apply: apply ?? label,
  detail: key?.absent === "needed" ? "needed" : "",
  info: key?.about ? () => describe(key) : undefined,
});

// What could stand next at a place: a table's heading, a key that the table hasn't got yet, a word or a name as a value.
export function completionsAt(text, place) {
  const line = text.slice(text.lastIndexOf("\n", place - 1) + 1, place),
    tables = readTables(text),
    table = tableAt(tables, place);
  const heading = line.match(/^\s*(\[\[?)([a-z_.]*)$/);
  if (heading) {
    const options = sections
      .filter((section) => section.path.length && section.list === (heading[1] === "[["))
      .map((section) => ({ label: section.path.join(".") + (section.named ? "." : ""), info: section.about || undefined }));
    if (heading[1] === "[[") options.push({ label: "shaft.journal" }, { label: "shaft.hole" });
    return { from: place - heading[2].length, options };
  }
  if (/^[^"']*#/.test(line)) return null;
  const bare = line.match(/^\s*([a-z_]*)$/);
  if (bare) {
    const had = new Set(table.entries.filter((entry) => entry.value).map((entry) => entry.name));
    return {
      from: place - bare[1].length,
      options: keysFor(table)
        .filter((key) => !had.has(key.name))
        .map((key) => option(key.name, key, `${key.name} = `)),
    };
  }
  const value = line.match(/=\s*(\[\s*)?("?)([\w .-]*)$/),
    [outer, inner] = entriesAt(table, place);
  const holder = outer && keyNamed(table, outer.name);
  const member = line.match(/[{,]\s*([a-z_]*)$/);
  if (member && holder?.members.length) {
    const had = outer.value?.entries?.map((entry) => entry.value && entry.name) ?? [];
    return {
      from: place - member[1].length,
      options: holder.members.filter((each) => !had.includes(each.name)).map((each) => option(each.name, each, `${each.name} = `)),
    };
  }
  const key = inner ? (holder?.members.find((each) => each.name === inner.name) ?? null) : holder;
  const words = value && key ? valuesFor(key, tables) : [];
  if (!words.length) return null;
  const closed = text[place] === '"' ? '"' : "";
  return {
    from: place - value[2].length - value[3].length,
    to: place + closed.length,
    options: words.map((word) => ({ label: `"${word}"` })),
  };
}
