// Begin, open, save, and how the job stands, in a line.
import { button, counted, element } from "./elements.js";

const starters = [
  ["offset-fixture", "lathe, offset fixture"],
  ["dividing-head", "dividing head"],
  ["rotary-mill", "mill, rotary axis"],
  ["lathe-c", "lathe, C axis"],
];

export class TopBar {
  constructor({ ask, open, save, starter, fault }) {
    Object.assign(this, { open, fault });
    this.input = element("input", {
      type: "file",
      multiple: true,
      hidden: true,
      accept: ".toml,.csv,.tsv,.txt,.ngc,.nc,.tap",
      "aria-label": "files to open",
    });
    this.input.addEventListener("change", () => {
      this.act(this.wanted ?? this.open, [...this.input.files]);
      this.wanted = null;
      this.input.value = "";
    });
    const begin = element(
      "details",
      { className: "menu" },
      element("summary", { textContent: "example ▾" }),
      element(
        "div",
        { role: "group", "aria-label": "examples to begin from" },
        ...starters.map(([word, shown]) =>
          button(shown, () => {
            begin.open = false;
            this.act(starter, word);
          }),
        ),
      ),
    );
    begin.addEventListener("focusout", ({ relatedTarget }) => {
      if (!begin.contains(relatedTarget)) begin.open = false;
    });
    begin.addEventListener("keydown", ({ key }) => {
      if (key !== "Escape" || !begin.open) return;
      begin.open = false;
      begin.querySelector("summary").focus();
    });
    this.buttons = [
      element(
        "button",
        { type: "button", onclick: ask },
        element("span", { className: "wide-only", textContent: "begin by " }),
        "questions",
      ),
      begin,
      button("open …", () => {
        this.wanted = null;
        this.input.click();
      }),
      button("save", save),
      this.input,
    ];
    this.state = document.getElementById("state");
  }
  act(act, what) {
    Promise.resolve()
      .then(() => act(what))
      .catch(this.fault);
  }
  // Asks for files, for another purpose than opening a job.
  ask(take) {
    this.wanted = take;
    this.input.click();
  }
  say(words) {
    this.state.textContent = words;
  }
  tell(found, took) {
    const errors = found.complaints.filter((each) => each.severity === "error").length,
      asked = found.complaints.length - errors;
    this.sound = !errors && found.table ? counted(found.names.length, "lobe") + " can be made" : "";
    this.asked = asked ? `, ${counted(asked, "question")} asked` : "";
    this.say(errors ? `${counted(errors, "thing")} to mend${this.asked}` : `${this.sound || "not a whole job yet"}${this.asked}`);
    this.state.className = errors ? "bad" : "good";
    this.state.title = `judged in ${Math.round(took)} ms`;
  }
  // When the ways to cut it have been worked out.
  tellWays({ ways }, wrong) {
    if (!this.sound || (!wrong && !ways.length)) return;
    if (wrong) {
      this.say(`${this.sound}, ${counted(wrong, "thing")} wrong with them${this.asked}`);
      this.state.className = "bad";
      return;
    }
    const can = ways.filter((way) => way.verdict !== "no").length;
    this.say(
      `${this.sound}, ${ways.length === 1 ? (can ? "and cut" : "but not cut as it stands") : `${can} of ${ways.length} ways cut them`}${this.asked}`,
    );
    this.state.className = can ? "good" : "bad";
  }
  watchDrops(place) {
    place.addEventListener("dragover", (event) => {
      event.preventDefault();
      place.classList.add("dropping");
    });
    place.addEventListener("dragleave", () => place.classList.remove("dropping"));
    place.addEventListener("drop", (event) => {
      event.preventDefault();
      place.classList.remove("dropping");
      if (event.dataTransfer.files.length) this.act(this.open, [...event.dataTransfer.files]);
    });
  }
}
