// The job as text or as fields, and below it what to mind, each with its way to the place.
import { button, element } from "./elements.js";
import { entriesAt, entryOf, readTables, tableAt, valueOf } from "./toml_places.js";

export class JobPane {
  constructor(editorPlace, form, editor, onSwitch) {
    Object.assign(this, { editorPlace, form, editor, onSwitch });
    this.complaints = this.found = [];
    this.asText = button("as text", () => this.switchTo(true));
    this.asFields = button("as fields", () => this.switchTo(false));
    this.list = element("ol", { className: "complaints" });
    this.mind = element("section", { className: "mind", hidden: true }, element("h2", { textContent: "To mind" }), this.list);
    this.whole = element(
      "div",
      { className: "job-pane" },
      element("div", { className: "buttons switch", role: "group", "aria-label": "the job" }, this.asText, this.asFields),
      editorPlace,
      form.whole,
      this.mind,
    );
    this.switchTo(true);
  }
  switchTo(text) {
    this.editorPlace.hidden = !text;
    this.form.whole.hidden = text;
    this.asText.setAttribute("aria-pressed", text);
    this.asFields.setAttribute("aria-pressed", !text);
    this.onSwitch();
  }
  // Of what the engine complains about, `name` being the job's file.
  tell(complaints, name) {
    const text = this.editor.text,
      tables = readTables(text);
    this.complaints = complaints.map((each) => ({ ...each, ...this.spanOf(each, name, tables, text) }));
    this.found = [];
    this.draw();
  }
  // What is wrong with lobes that can be made: it stands at the lobe.
  tellFindings(findings) {
    const tables = readTables(this.editor.text);
    this.found = findings
      .filter((each) => each.severity === "error" && !each.way)
      .map(({ lobe, message, severity }) => {
        const first = tables.find((table) => table.path.join() === "lobe" && (lobe ?? "").startsWith(valueOf(table, "name") ?? "\n")),
          entry = first && entryOf(first, "name");
        const place = entry ? { from: entry.value.from, to: entry.value.to, line: this.editor.lineOf(entry.value.from) } : {};
        return { severity, words: (lobe ? `${lobe}: ` : "") + message, ...place };
      });
    this.draw();
    return this.found.length;
  }
  spanOf({ file, line, column }, name, tables, text) {
    if (!line || file !== name) return {};
    const from = this.editor.offsetOf(line, Math.max(1, column)),
      table = tableAt(tables, from),
      chain = entriesAt(table, from),
      entry = chain[chain.length - 1];
    const lineEnd = text.indexOf("\n", from),
      end = lineEnd < 0 ? text.length : lineEnd;
    if (!entry) return { from, to: from >= table.from && from <= table.headTo ? table.headTo : end };
    return { from, to: Math.min(end, entry.value && from >= entry.value.from ? entry.value.to : entry.keyTo) };
  }
  // Like complaints are told once, with how many more there are.
  draw() {
    const groups = new Map(),
      all = [...this.complaints, ...this.found];
    this.editor.mark(all.filter((each) => each.from !== undefined));
    for (const each of all) {
      const cause = each.severity + each.words.replace(/\[\d+\]/g, "");
      groups.set(cause, [...(groups.get(cause) ?? []), each]);
    }
    this.mind.hidden = !groups.size;
    this.list.replaceChildren(...[...groups.values()].map((alike) => this.row(alike)));
  }
  row([each, ...more]) {
    const word = each.severity === "error" ? "wrong" : each.severity === "note" ? "note" : "asked",
      last = more[more.length - 1];
    const to =
      each.from === undefined
        ? null
        : button(
            `line ${each.line}`,
            () => {
              this.switchTo(true);
              this.editor.goTo(each.from);
            },
            { className: "small" },
          );
    return element(
      "li",
      {},
      to,
      element("strong", { className: `severity ${each.severity}`, textContent: word }),
      ` ${each.words}`,
      last ? element("span", { className: "more", textContent: ` (and ${more.length} more like it, to line ${last.line})` }) : null,
    );
  }
}
