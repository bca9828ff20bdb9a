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
      "select",
      {
        "aria-label": "an example to begin from",
        onchange: () => {
          if (begin.value) this.act(starter, begin.value);
          begin.value = "";
        },
      },
      element("option", { value: "", textContent: "example …" }),
      ...starters.map(([word, shown]) => element("option", { value: word, textContent: shown })),
    );
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
      warnings = found.complaints.length - errors;
    const sound = found.table ? `${counted(found.names.length, "lobe")} can be made` : "not a whole job yet";
    this.state.textContent =
      (errors ? `${counted(errors, "thing")} to mend` : sound) + (warnings ? `, ${counted(warnings, "question")} asked` : "");
    this.state.className = errors ? "bad" : "good";
    this.state.title = `judged in ${Math.round(took)} ms`;
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
