// The parts of the desk, each behind its tab; on a wide screen the job stands beside the part that is chosen.
import { element } from "./elements.js";

const wide = matchMedia("(min-width: 64rem)");

export class TabRow {
  // `parts`: [name, words, panel]; the first is the job.
  constructor(parts, onShow) {
    this.parts = parts;
    this.onShow = onShow;
    this.marks = new Map();
    this.row = element("div", { className: "tabs", role: "tablist", "aria-label": "parts of the desk" });
    this.row.addEventListener("keydown", (event) => this.press(event));
    for (const [name, words, panel] of parts) {
      const tab = element(
        "button",
        { type: "button", role: "tab", id: `tab-${name}`, "aria-controls": `panel-${name}`, onclick: () => this.show(name) },
        words,
      );
      Object.assign(panel, { id: `panel-${name}` });
      panel.setAttribute("role", "tabpanel");
      panel.setAttribute("aria-labelledby", `tab-${name}`);
      this.row.append(tab);
    }
    this.whole = element("div", { className: "desk" }, this.row, ...parts.map(([, , panel]) => panel));
    wide.addEventListener("change", () => this.show(this.shown));
    this.show(wide.matches ? "lobes" : "job", true);
  }
  tab(name) {
    return this.row.querySelector(`#tab-${name}`);
  }
  show(name, quiet = false) {
    this.shown = wide.matches && name === "job" ? (this.shown && this.shown !== "job" ? this.shown : "lobes") : name;
    this.tab("job").hidden = wide.matches;
    for (const [each, , panel] of this.parts) {
      const chosen = each === this.shown;
      panel.hidden = !chosen && !(wide.matches && each === "job");
      this.tab(each).setAttribute("aria-selected", chosen);
      this.tab(each).tabIndex = chosen ? 0 : -1;
    }
    if (!quiet) this.onShow(this.shown);
  }
  press(event) {
    const names = this.parts.map(([name]) => name).filter((name) => !this.tab(name).hidden),
      at = names.indexOf(this.shown);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: names.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.show(names[(to + names.length) % names.length]);
    this.tab(this.shown).focus();
  }
  // How many things want mending behind a tab.
  note(name, count) {
    const words = this.parts.find(([each]) => each === name)[1];
    this.tab(name).textContent = count ? `${words} (${count})` : words;
  }
}
