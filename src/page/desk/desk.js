// The desk: the job on the one side, what follows from it on the other. This file brings the parts together.
import { faulty } from "./faults.js";
import { button, element } from "./elements.js";
import { run } from "./engine_link.js";
import { JobEditor } from "./editor.js";
import { JobForm } from "./job_form.js";
import { JobPane } from "./job_pane.js";
import { Judging } from "./judging.js";
import { forget, keep, kept, plainName, purposeOf, save, textOf } from "./job_store.js";
import { KeyHere } from "./key_here.js";
import { knowPosts } from "./key_help.js";
import { LobeView } from "./lobe_view.js";
import { Questions } from "./questions.js";
import { SheetFrame } from "./sheet_frame.js";
import { SideBySide } from "./side_by_side.js";
import { TabRow } from "./tab_row.js";
import { TakeAway } from "./take_away.js";
import { TopBar } from "./top_bar.js";
import { WaysView } from "./ways_view.js";

class Desk {
  constructor() {
    this.name = "job.toml";
    this.beside = {};
    this.posts = [];
    const fault = faulty(() => this.saveJob());
    this.fault = fault;
    this.editorPlace = element("div", { className: "editor" });
    this.keyHere = new KeyHere();
    this.editor = new JobEditor(
      this.editorPlace,
      () => this.changed(),
      (place) => this.keyHere.at(this.text, place),
    );
    this.form = new JobForm({
      text: () => this.text,
      change: (changes) => {
        this.byForm = true;
        this.editor.change(changes);
        this.byForm = false;
      },
    });
    this.pane = new JobPane(element("div", {}, this.editorPlace, this.keyHere.whole), this.form, this.editor, () => this.showJob());
    this.lobes = new LobeView((name) => {
      this.lobe = name;
      this.judging.changed();
    });
    this.ways = new WaysView();
    this.sheet = new SheetFrame();
    this.side = new SideBySide({ job: () => this.job(), openOther: () => this.bar.ask((files) => this.takeOther(files)), fault });
    this.take = new TakeAway({
      job: () => this.job(),
      printSheet: () => this.printSheet(),
      fault,
      changed: (name, purpose) => this.besideChanged(name, purpose),
      drop: (name) => this.besideChanged(name, null),
    });
    this.questions = new Questions({
      done: (name, text) => this.open(name, text),
      leave: () => this.showDesk(),
      posts: () => this.posts,
      fault,
    });
    this.judging = new Judging({
      read: () => this.job(),
      tellQuick: (found, took) => this.tellQuick(found, took),
      tellFigures: (rows) => this.lobes.showFigures(rows),
      tellWays: (report, complaints) => {
        this.ways.show(report, complaints);
        if (report) this.bar.tellWays(report, this.pane.tellFindings(report.findings));
      },
      tellSheet: (html, complaints) => this.sheet.show(html, complaints),
      tellBusy: (busy) => this.ways.busy(busy),
      fault,
    });
    this.bar = new TopBar({
      ask: () => this.showQuestions(),
      open: (files) => this.takeFiles(files),
      save: () => this.saveJob(),
      starter: (purpose) => this.openStarter(purpose),
      fault,
    });
    this.layOut();
  }
  get text() {
    return this.editor.text;
  }
  // The job as commands want it, with the files beside it.
  job() {
    const files = Object.fromEntries(Object.entries(this.beside).map(([name, { text }]) => [name, text])),
      named = (purpose) => Object.keys(this.beside).filter((name) => this.beside[name].purpose === purpose);
    const words = [
      ...named("readings")
        .slice(-1)
        .flatMap((name) => ["--readings", name]),
      ...named("program")
        .slice(-1)
        .flatMap((name) => ["--program", name]),
    ];
    return {
      name: this.name,
      text: this.text,
      files: { ...files, [this.name]: this.text },
      beside: this.beside,
      lobe: this.lobe,
      sheet: this.tabs?.shown === "sheet",
      sheetWords: words,
    };
  }
  layOut() {
    const seen = element("div", {}, this.lobes.whole, this.ways.whole);
    this.tabs = new TabRow(
      [
        ["job", "Job", this.pane.whole],
        ["lobes", "Lobes", seen],
        ["sheet", "Sheet", this.sheet.whole],
        ["side", "Compare", this.side.whole],
        ["take", "Take away", this.take.whole],
      ],
      (name) => this.tabShown(name),
    );
    document.getElementById("file-buttons").append(...this.bar.buttons);
    this.bar.watchDrops(document.body);
    document.getElementById("desk").append(this.questions.whole, this.tabs.whole);
  }
  tabShown(name) {
    if (name === "sheet") this.judging.wanted();
    if (name === "side") this.side.show();
    if (name === "take") this.take.show();
    if (name === "job") this.showJob();
  }
  showJob() {
    this.form.show();
  }

  // Something was typed, in the text or in a field.
  changed() {
    if (this.opening) return;
    if (!this.byForm) this.form.show();
    this.judging.changed();
    clearTimeout(this.keeping);
    this.keeping = setTimeout(() => this.keepNow(), 300);
  }
  keepNow() {
    const done = keep({ name: this.name, text: this.text, beside: this.beside }),
      words = done
        ? `${this.name} is kept in this browser, on this machine alone, until you open another job. Save it to have it as a file. `
        : "This browser keeps nothing for this page: save the job before you close it.";
    this.unkept = !done;
    const gone = button("don't keep it here", () => this.keepNoLonger(), { className: "small" });
    document.getElementById("kept").replaceChildren(words, done ? gone : "");
  }
  keepNoLonger() {
    forget();
    clearTimeout(this.keeping);
    document.getElementById("kept").textContent = "Nothing is kept here until you change the job again.";
  }
  // What was changed and never saved is not lost when another job takes its place.
  putAside() {
    const { name, text, beside } = this,
      place = document.getElementById("aside");
    if (!text.trim() || text === this.safe) return;
    const back = button("bring it back", () => {
      place.hidden = true;
      this.open(name, text, beside);
    });
    place.replaceChildren(`${name} was put aside as it stood, until this page is closed. `, back);
    place.hidden = false;
  }
  // `safe`: whether the text stands somewhere else, too.
  open(name, text, beside = {}, safe = true) {
    this.putAside();
    this.safe = safe ? text : null;
    this.opening = true;
    Object.assign(this, { name, beside });
    this.editor.open(text);
    this.opening = false;
    document.getElementById("job-name").textContent = name;
    document.title = `${name} – lobewright`;
    this.showDesk();
    this.changed();
  }
  showDesk() {
    this.questions.whole.hidden = true;
    this.tabs.whole.hidden = false;
    document.getElementById("state").hidden = false;
    this.form.show();
    if (this.tabs.shown !== "job") this.tabShown(this.tabs.shown);
  }
  showQuestions() {
    this.tabs.whole.hidden = true;
    this.questions.whole.hidden = false;
    document.getElementById("state").hidden = true;
    this.questions.at = 0;
    this.questions.show();
    this.questions.whole.querySelector("input").focus();
  }
  tellQuick(found, took) {
    this.lobe = found.lobe;
    this.pane.tell(found.complaints, this.name);
    this.lobes.show(found, this.text);
    this.bar.tell(found, took);
    this.tabs.note("job", found.complaints.filter((each) => each.severity === "error").length);
    if (this.tabs.shown === "side") this.side.show();
    if (this.tabs.shown === "take") this.take.show();
    if (!performance.getEntriesByName("first judged").length) performance.mark("first judged");
    document.dispatchEvent(new CustomEvent("judged", { detail: { milliseconds: took, version: found.version } }));
  }

  saveJob() {
    save(this.name, this.text);
    this.safe = this.text;
    this.unkept = false;
  }
  async printSheet() {
    this.tabs.show("sheet");
    while (this.judging.running.slow || this.sheet.waiting) await new Promise((done) => setTimeout(done, 50));
    this.sheet.print();
  }
  async takeFiles(files) {
    for (const file of files) {
      const text = await textOf(file),
        name = plainName(file.name),
        purpose = purposeOf(name, text);
      if (purpose === "job") this.open(name, text, { ...this.beside });
      else this.besideChanged(name, purpose, text);
    }
  }
  async takeOther(files) {
    for (const file of files) {
      const text = await textOf(file),
        name = plainName(file.name);
      this.side.add({ name, text, files: { ...this.job().files, [name]: text } });
    }
  }
  besideChanged(name, purpose, text = this.beside[name]?.text) {
    if (purpose) this.beside[name] = { purpose, text };
    else delete this.beside[name];
    this.changed();
    this.take.show();
    if (purpose && this.tabs.shown !== "take") this.bar.say(`${name} now lies beside the job: see “Take away”.`);
  }
  async openStarter(purpose) {
    const outcome = await run(["start", "my-engine.toml", "--for", purpose], {}, "quick");
    this.open("my-engine.toml", outcome.files["my-engine.toml"] ?? outcome.out);
  }
  async begin() {
    const last = kept();
    if (last) this.open(last.name, last.text, last.beside, false);
    else this.showQuestions();
    const listed = JSON.parse((await run(["posts", "--json"], {}, "quick")).out).posts;
    this.posts = listed.map((post) => [post.name, post.summary]);
    knowPosts(listed.map((post) => post.name));
    if (!last) document.getElementById("state").textContent = "Nothing leaves this page.";
    document.body.dataset.ready = "";
  }
}

const desk = new Desk();
addEventListener("beforeprint", () => {
  document.getElementById("paper")?.remove();
  document.body.append(element("pre", { id: "paper", textContent: desk.text }));
});
addEventListener("afterprint", () => document.getElementById("paper")?.remove());
addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.key !== "s") return;
  event.preventDefault();
  desk.saveJob();
});
// Where the browser keeps nothing, it asks before a job is lost.
addEventListener("beforeunload", (event) => {
  if (!desk.unkept || !desk.text.trim()) return;
  event.preventDefault();
  event.returnValue = ""; // what older browsers look at
});
desk.begin().catch(desk.fault);
