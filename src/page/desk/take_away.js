// What the job comes to, as files to take to the shop; and the files that lie beside the job.
import { button, chooser, element, newId } from "./elements.js";
import { complaintsOf, run } from "./engine_link.js";
import { save } from "./job_store.js";
import { lobeNames, namesOf, readTables, tablesOf, valueOf } from "./toml_places.js";

const purposes = [
  ["read", "the job reads it"],
  ["readings", "readings of finished lobes"],
  ["program", "a program, to be proven"],
];
const cautions = [
  "This work can hurt you. Your machine's manual, the local rules and trained practice come before all that stands here.",
  "Hold the senses in the program's header against the machine, with the spindle off. Then run the whole program above the part, with a hand on the stop.",
  "What is proven is the geometry of the text. Clamps, backlash, run-out, a worn tool and a wrongly set zero are yours to check: measure the first lobe before you cut the next.",
];

export class TakeAway {
  // `job()` gives { name, text, files, beside }, `printSheet()` prints the sheet, `fault` is told what went wrong, `changed` that a
  // file beside the job has come, gone, or serves another purpose.
  constructor({ job, printSheet, fault, changed, drop }) {
    Object.assign(this, { job, printSheet, fault, changed, drop });
    this.told = element("p", { className: "told", role: "status" });
    this.offers = element("div", { className: "offers" });
    this.besides = element("div");
    this.whole = element("div", { className: "take" }, this.told, this.offers, this.besides);
  }
  stem() {
    return this.job().name.replace(/\.toml$/i, "") || "job";
  }
  lobe() {
    return this.lobeChoice ?? lobeNames(readTables(this.job().text))[0] ?? "";
  }

  show() {
    const tables = readTables(this.job().text),
      names = lobeNames(tables),
      methods = namesOf(tables, "hand");
    const operations = tablesOf(tables, "operation")
      .map((table) => valueOf(table, "name"))
      .filter((name) => typeof name === "string");
    const machine = tablesOf(tables, "cut").length || operations.length;
    if (!names.includes(this.lobeChoice)) this.lobeChoice = names[0];
    if (!methods.includes(this.methodChoice)) this.methodChoice = methods[0];
    const parts = [this.paper()];
    if (machine) parts.push(this.programs(operations));
    if (methods.length) parts.push(this.hand(methods));
    if (names.length) parts.push(this.lobes(names));
    for (const [name, { purpose, text }] of Object.entries(this.job().beside))
      if (purpose === "readings") parts.push(this.measured(name, text));
    this.offers.replaceChildren(...parts);
    this.showBeside();
  }
  part(title, ...children) {
    return element("section", {}, element("h2", { textContent: title }), ...children);
  }
  // A file made by a command, given over when the run has said yes.
  offer(words, name, kind, command) {
    return button(words, () => this.make(name(), kind, command()));
  }
  async make(name, kind, words) {
    this.told.textContent = `making ${name} …`;
    this.told.className = "told";
    try {
      const { name: job, files } = this.job(),
        outcome = await run([words[0], job, ...words.slice(1)], files);
      const complaints = complaintsOf(outcome),
        written = Object.entries(outcome.files ?? {}),
        made = written.length ? written : [[name, outcome.out]];
      if (outcome.code === 0) for (const [each, text] of made) save(each, text, kind);
      const names = made.map(([each]) => each).join(", ");
      this.told.textContent =
        outcome.code === 0
          ? `Saved, as this browser saves downloads: ${names}. ${outcome.err.trim()}`
          : `No file was made. ${complaints.map((each) => each.words).join(" ")}`;
      this.told.classList.toggle("bad", outcome.code !== 0);
    } catch (fault) {
      this.told.textContent = "";
      this.fault(fault);
    }
  }
  paper() {
    const sheet = button("the sheet, one page", async () =>
      this.make(`${this.stem()}.html`, "text/html", ["sheet", ...this.job().sheetWords]),
    );
    return this.part(
      "The job and its sheet",
      element(
        "div",
        { className: "buttons" },
        button("the job's text", () => save(this.job().name, this.job().text)),
        sheet,
        button("print the sheet", () => this.printSheet()),
      ),
      element("p", {
        className: "hint",
        textContent:
          "The sheet opens on any phone or computer without a network: drawings, settings step by step, the program played, and the proof.",
      }),
    );
  }
  programs(operations) {
    const caution = element(
      "aside",
      { className: "caution", role: "note" },
      element("h3", { textContent: "Before it runs" }),
      element("ul", {}, ...cautions.map((each) => element("li", { textContent: each }))),
    );
    const names = lobeNames(readTables(this.job().text));
    if (!names.includes(this.firstLobe)) this.firstLobe = "";
    const from = chooser(
      "cuts",
      [["", "all lobes"], ...names.map((name) => [name, `${name} and those after it`])],
      this.firstLobe,
      (name) => {
        this.firstLobe = name;
      },
    );
    return this.part(
      "The program",
      caution,
      names.length > 1 ? from : null,
      ...(operations.length ? operations : [""]).map((operation) => this.programOf(operation)),
      element("p", {
        className: "hint",
        textContent: "It is given only when its own text has been proven to cut the lobes within the tolerance.",
      }),
    );
  }
  // A long one comes in several files, as its controller asks for.
  programOf(operation) {
    const name = () => `${this.stem()}${operation ? "-" + operation : ""}${this.firstLobe ? "-rest" : ""}`,
      words = () => ["cut", ...(operation ? ["--operation", operation] : []), ...(this.firstLobe ? ["--from", this.firstLobe] : [])];
    return element(
      "div",
      { className: "buttons" },
      this.offer(
        operation ? `the program of ${operation}` : "the program",
        () => `${name()}.ngc`,
        "text/plain",
        () => [...words(), "-o", `${name()}.ngc`],
      ),
      this.offer(
        operation ? `passes and times of ${operation}` : "its passes and times",
        () => `${name()}-plan.txt`,
        "text/plain",
        () => [...words(), "--plan"],
      ),
    );
  }
  // Of finished lobes that were read: what the readings say, and the program that takes off what is left.
  measured(name, text) {
    const of = () => (/\blobe\b/i.test(text.split("\n")[0]) ? [] : ["--lobe", this.lobe()]);
    const most = element("input", {
      type: "text",
      id: newId("most"),
      inputMode: "decimal",
      value: this.most ?? "",
      autocomplete: "off",
      oninput: () => {
        this.most = most.value;
      },
    });
    return this.part(
      `Readings: ${name}`,
      element(
        "div",
        { className: "buttons" },
        this.offer(
          "what they say",
          () => `${this.stem()}-measured.txt`,
          "text/plain",
          () => ["inspect", "--readings", name, ...of(), "--format", "text"],
        ),
      ),
      element("p", {
        className: "hint",
        textContent:
          "A second program leads the cutter as far below the design as the readings stand above it, and never further than you allow; what is too deep is told, not chased.",
      }),
      element(
        "div",
        { className: "buttons" },
        element("label", { className: "chooser", htmlFor: most.id }, element("span", { textContent: "at most" }), most),
        this.offer(
          "a second program",
          () => `${this.stem()}-second.ngc`,
          "text/plain",
          () => ["cut", "--correct", name, "--most", most.value.replace(",", ".") || "0", ...of(), "-o", `${this.stem()}-second.ngc`],
        ),
      ),
    );
  }
  hand(methods) {
    const named = (ext) => () => `${this.stem()}-${this.methodChoice}.${ext}`,
      command =
        (...words) =>
        () => [...words, "--method", this.methodChoice];
    const swings =
      valueOf(
        readTables(this.job().text).find((table) => table.path.join(".") === `hand.${this.methodChoice}`),
        "method",
      ) === "offset-fixture";
    const pick = chooser(
      "method",
      methods.map((name) => [name]),
      this.methodChoice,
      (name) => {
        this.methodChoice = name;
        this.show();
      },
    );
    return this.part(
      "By hand",
      methods.length > 1 ? pick : null,
      element(
        "div",
        { className: "buttons" },
        this.offer("the route on paper", named("txt"), "text/plain", command("index")),
        this.offer("its settings as a table", named("csv"), "text/csv", command("index", "--format", "csv")),
        swings
          ? this.offer("the index wheel, drawn", () => `${this.stem()}-wheel.svg`, "image/svg+xml", command("draw", "--what", "wheel"))
          : null,
      ),
      element("p", {
        className: "hint",
        textContent: swings
          ? "A shaft that swings off centre is out of balance: run it slowly, guarded, and with everything clamped twice."
          : "Lock the spindle of head or table before each cut, and clear the chips with the machine stopped.",
      }),
    );
  }
  lobes(names) {
    const lobe = () => ["--lobe", this.lobe()],
      name = (what, ext) => () => `${this.stem()}-${this.lobe().replace(/[^\w-]+/g, "-")}${what}.${ext}`;
    const drawing = (words, what, format) =>
      this.offer(words, name(`-${what}`, format), format === "svg" ? "image/svg+xml" : "application/dxf", () => [
        "draw",
        "--what",
        what,
        ...lobe(),
        "--format",
        format,
      ]);
    return this.part(
      "A lobe",
      names.length > 1
        ? chooser(
            "lobe",
            names.map((each) => [each]),
            this.lobe(),
            (each) => {
              this.lobeChoice = each;
            },
          )
        : null,
      element(
        "div",
        { className: "buttons" },
        this.offer("its lift table", name("-table", "csv"), "text/csv", () => ["table", ...lobe()]),
        drawing("drawn, SVG", "lobe", "svg"),
        drawing("drawn, DXF", "lobe", "dxf"),
        this.offer("what an indicator should read", name("-readings", "csv"), "text/csv", () => ["inspect", ...lobe(), "--every", "2"]),
      ),
      element(
        "div",
        { className: "buttons" },
        this.offer(
          "the shaft, drawn",
          () => `${this.stem()}-shaft.svg`,
          "image/svg+xml",
          () => ["draw", "--what", "shaft"],
        ),
        this.offer(
          "a degree wheel",
          () => `${this.stem()}-degree-wheel.svg`,
          "image/svg+xml",
          () => ["draw", "--what", "degree-wheel"],
        ),
      ),
    );
  }
  showBeside() {
    const beside = Object.entries(this.job().beside);
    const rows = beside.map(([name, { purpose }]) =>
      element(
        "div",
        { className: "beside" },
        element("code", { textContent: name }),
        chooser("is", purposes, purpose, (word) => this.changed(name, word)),
        button("put away", () => this.drop(name), { "aria-label": `put away ${name}` }),
      ),
    );
    this.besides.replaceChildren(
      this.part(
        "Beside the job",
        element("p", {
          className: "hint",
          textContent:
            "Open or drop files that the job reads (lift tables, a post-processor of your own), readings of finished lobes, or a program: the sheet then shows them. They stay in this page.",
        }),
        ...rows,
      ),
    );
  }
}
