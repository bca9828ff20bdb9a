// The same keys as fields: what is typed here stands in the text at once, and what is typed there stands here. The text is the
// truth; comments and order stay as they are.
import { button, chooser, element, newId } from "./elements.js";
import { hintOf, keyNamed, keysFor, sectionOf, sections, valuesFor } from "./key_help.js";
import { addTable, changeValue, copyLobe, insertKey, locate, removeKey, removeTable } from "./text_changes.js";
import { readTables } from "./toml_places.js";

const addressOf = (table) => `${table.path.join(".")}#${table.index}`;
const headingOf = (table) => (table.list ? `[[${table.path.join(".")}]]` : `[${table.path.join(".")}]`);

export class JobForm {
  // `text()` gives the job, `change(changes)` changes it, `open(address)` is told which table was last worked on.
  constructor({ text, change }) {
    Object.assign(this, { text, change });
    this.waiting = new Map(); // keys that were asked for and have no value yet, by table
    this.folded = new Set();
    this.whole = element("div", { className: "form" });
  }
  get visible() {
    return this.whole.isConnected && this.whole.getClientRects().length > 0;
  }

  // After a change of the text that didn't come from a field here.
  show() {
    if (!this.visible) return;
    const focused = document.activeElement?.dataset?.field,
      caret = document.activeElement?.selectionStart ?? null;
    this.tables = readTables(this.text());
    this.whole.replaceChildren(...this.tables.filter((table) => table.path.length).map((table) => this.card(table)), this.adding());
    const again = focused && this.whole.querySelector(`[data-field="${CSS.escape(focused)}"]`);
    if (!again) return;
    again.focus();
    if (caret !== null && again.setSelectionRange)
      try {
        again.setSelectionRange(caret, caret);
      } catch {
        /* a select has none */
      }
  }
  card(table) {
    const address = addressOf(table),
      section = sectionOf(table.path, table.list),
      name = table.entries.find((entry) => entry.name === "name")?.value?.value;
    const card = element(
      "details",
      { className: "card", open: !this.folded.has(address) },
      element("summary", {}, element("code", { textContent: headingOf(table) }), name ? ` ${name}` : ""),
    );
    card.addEventListener("toggle", () => {
      this.folded[card.open ? "delete" : "add"](address);
    });
    if (section?.about) card.append(element("p", { className: "hint", textContent: section.about }));
    const had = table.entries.map((entry) => entry.name);
    card.append(...table.entries.filter((entry) => entry.value).map((entry) => this.field(table, address, entry)));
    for (const name of this.waiting.get(address) ?? []) if (!had.includes(name)) card.append(this.emptyField(table, address, name));
    card.append(this.cardButtons(table, address, had));
    return card;
  }
  cardButtons(table, address, had) {
    const left = keysFor(table).filter((key) => !key.list && !had.includes(key.name) && !this.waiting.get(address)?.includes(key.name));
    const more = element(
      "select",
      {
        "aria-label": `key to add to ${headingOf(table)}`,
        onchange: () => {
          this.waiting.set(address, [...(this.waiting.get(address) ?? []), more.value]);
          const wanted = `${address}/${more.value}`;
          this.show();
          this.whole.querySelector(`[data-field="${CSS.escape(wanted)}"]`)?.focus();
        },
      },
      element("option", { value: "", textContent: "add a key …" }),
      ...left.map((key) => element("option", { value: key.name, textContent: key.name + (key.absent === "needed" ? " (needed)" : "") })),
    );
    const isLobe = table.list && table.path.join() === "lobe";
    return element(
      "div",
      { className: "buttons" },
      left.length ? more : null,
      isLobe ? button("another like it", () => this.act(copyLobe(this.text(), table.index))) : null,
      button("take out", () => this.act(removeTable(this.text(), table.path, table.index)), {
        "aria-label": `take out ${headingOf(table)} ${table.index || ""}`.trim(),
      }),
    );
  }
  act(changes) {
    this.change(changes);
    this.show();
  }

  field(table, address, entry) {
    const key = keyNamed(table, entry.name) ?? { name: entry.name, about: "", words: [], members: [], absent: "" };
    if (entry.value.kind === "inline") return this.group(table, address, entry, key);
    return this.row({
      key,
      label: entry.name,
      address,
      path: [entry.name],
      value: entry.value,
      takeOut: () => this.act(removeKey(this.text(), table.path, table.index, entry.name)),
    });
  }
  emptyField(table, address, name) {
    return this.row({ key: keyNamed(table, name), label: name, address, path: [name], value: null });
  }
  // A table on one line: its members as fields of their own.
  group(table, address, entry, key) {
    const had = entry.value.entries.map((each) => each.name);
    const rows = [
      ...entry.value.entries.filter((each) => each.value),
      ...key.members
        .filter((each) => !had.includes(each.name) && this.waiting.get(address)?.includes(`${entry.name}.${each.name}`))
        .map((each) => ({ name: each.name, value: null })),
    ].map((each) =>
      this.row({
        key: { words: [], absent: "", about: "", ...key.members.find((one) => one.name === each.name) },
        label: each.name,
        address,
        path: [entry.name, each.name],
        value: each.value,
      }),
    );
    const left = key.members.filter((each) => !had.includes(each.name));
    const more = element(
      "select",
      {
        "aria-label": `member to add to ${entry.name}`,
        onchange: () => {
          this.waiting.set(address, [...(this.waiting.get(address) ?? []), `${entry.name}.${more.value}`]);
          this.show();
        },
      },
      element("option", { value: "", textContent: "add …" }),
      ...left.map((each) => element("option", { value: each.name, textContent: each.name })),
    );
    return element(
      "fieldset",
      { className: "group" },
      element("legend", { textContent: entry.name }),
      key.about ? element("p", { className: "hint", textContent: key.about }) : null,
      ...rows,
      element(
        "div",
        { className: "buttons" },
        left.length ? more : null,
        button("take out", () => this.act(removeKey(this.text(), table.path, table.index, entry.name)), {
          "aria-label": `take out ${entry.name}`,
        }),
      ),
    );
  }
  row({ key, label, address, path, value, takeOut }) {
    const id = newId("field"),
      hint = newId("hint"),
      words = valuesFor(key, this.tables),
      field = `${address}/${path.join(".")}`;
    const plain = value === null ? "" : value.kind === "string" ? value.value : this.text().slice(value.from, value.to);
    const put = (typed) => this.put(address, path, typed, value?.kind ?? (words.length ? "string" : "new"), words);
    const choose = words.length && (value === null || value.kind === "string");
    const control = choose
      ? element(
          "select",
          {
            id,
            onchange: () => {
              put(control.value);
              this.show();
            },
          },
          ...[...new Set([...(words.includes(plain) ? [] : [plain]), ...words])].map((word) =>
            element("option", { value: word, textContent: word, selected: word === plain }),
          ),
        )
      : element("input", {
          id,
          type: "text",
          value: plain,
          spellcheck: false,
          autocomplete: "off",
          inputMode: value?.kind === "number" ? "decimal" : "text",
          oninput: () => put(control.value),
        });
    control.dataset.field = field;
    if (key.about) control.setAttribute("aria-describedby", hint);
    return element(
      "div",
      { className: "row" },
      element("label", { htmlFor: id }, element("code", { textContent: label })),
      control,
      takeOut ? button("×", takeOut, { className: "small", "aria-label": `take out ${label}` }) : element("span"),
      key.about
        ? element("p", {
            className: "hint",
            id: hint,
            textContent: hintOf(key),
          })
        : null,
    );
  }
  put(address, path, typed, kind, words) {
    const text = this.text(),
      [names, index] = address.split("#"),
      table = locate(text, names.split("."), Number(index));
    if (!table) return;
    const changes = changeValue(table, path, typed, kind, words) ?? insertKey(text, table, path, typed, kind, words);
    if (changes) this.change(changes);
  }
  // A whole table more.
  adding() {
    const kinds = sections.filter(
      (section) =>
        section.path.length &&
        (section.named || section.list || !this.tables.some((table) => table.path.join(".") === section.path.join("."))),
    );
    const name = element("input", { type: "text", value: "", id: newId("name"), spellcheck: false, autocomplete: "off" });
    const named = element("label", { className: "chooser" }, element("span", { textContent: "called" }), name);
    const chosen = chooser(
      "add",
      kinds.map((section) => [section.path.join("."), section.path.join(".")]),
      "lobe",
      () => update(),
    );
    const select = chosen.querySelector("select");
    const update = () => {
      named.hidden = !kinds.find((section) => section.path.join(".") === select.value)?.named;
    };
    update();
    const add = button("add it", () => {
      const section = kinds.find((each) => each.path.join(".") === select.value);
      const made = addTable(this.text(), section, name.value.trim());
      this.waiting.set(made.address, made.waiting);
      this.act(made.changes);
    });
    return element("div", { className: "adding buttons" }, chosen, named, add);
  }
}
