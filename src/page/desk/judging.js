// The job is judged again while somebody types: first, within a glance, what is wrong and how the chosen lobe moves; then,
// when the hands rest, how it can be cut; the sheet only where it is looked at. Of what has been overtaken nothing is told.
import { complaintsOf, Overtaken, run } from "./engine_link.js";
import { lobeNames, meaningOf, readTables } from "./toml_places.js";

const patience = { quick: 700, slow: 500 }; // ms that a run may take before a newer text gives it up
const rest = 150; // ms without a key before the slower part begins

const parsed = (outcome) => {
  try {
    return JSON.parse(outcome.out);
  } catch {
    return null;
  }
};

export class Judging {
  // `read` gives { name, text, files, lobe, sheet: whether it is looked at, sheetWords: its further arguments }.
  constructor({ read, tellQuick, tellFigures, tellWays, tellSheet, tellBusy, fault }) {
    Object.assign(this, { read, tellQuick, tellFigures, tellWays, tellSheet, tellBusy, fault });
    this.version = 0;
    this.waysOf = this.sheetOf = null;
    this.running = { quick: false, slow: false };
    this.asked = { quick: false, slow: false };
    this.runs = { quick: null, slow: null };
  }
  changed() {
    this.version += 1;
    this.began = performance.now();
    this.overtake("quick");
    this.overtake("slow");
    this.quick();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.slow(), rest);
  }
  // The tab with the sheet was opened, or what it shows has changed.
  wanted() {
    this.slow();
  }

  // A run that ends soon leaves the lobes that it has solved to the next one; one that is given up takes them with it.
  begin(lane) {
    const run = (this.runs[lane] = { began: performance.now(), controller: new AbortController() });
    return run.controller.signal;
  }
  overtake(lane) {
    const run = this.runs[lane];
    if (!run) return;
    clearTimeout(run.end);
    run.end = setTimeout(() => run.controller.abort(), run.began + patience[lane] - performance.now());
  }
  ended(lane) {
    clearTimeout(this.runs[lane]?.end);
    this.runs[lane] = null;
  }

  async alone(lane, act) {
    this.asked[lane] = true;
    if (this.running[lane]) return;
    this.running[lane] = true;
    try {
      for (let version = null; version !== this.version || this.asked[lane];) {
        version = this.version;
        this.asked[lane] = false;
        await act(version)
          .catch((fault) => {
            if (!(fault instanceof Overtaken)) throw fault;
          })
          .finally(() => this.ended(lane));
      }
    } catch (fault) {
      this.fault(fault);
    } finally {
      this.running[lane] = false;
    }
  }
  quick() {
    return this.alone("quick", async (version) => {
      const job = this.read(),
        began = this.began,
        names = lobeNames(readTables(job.text));
      const lobe = names.includes(job.lobe) ? job.lobe : names[0];
      const signal = this.begin("quick");
      const table = await run(["table", job.name, ...(lobe === undefined ? [] : ["--lobe", lobe]), "--json"], job.files, "quick", signal);
      const found = { version, lobe, names, complaints: complaintsOf(table), table: table.code === 0 ? parsed(table) : null };
      if (version !== this.version) return;
      this.tellQuick(found, performance.now() - began);
      if (!found.table) return;
      const rows = parsed(await run(["compare", job.name, "--json"], job.files, "quick", signal))?.rows ?? [];
      if (version === this.version) this.tellFigures(rows);
    });
  }
  slow() {
    return this.alone("slow", async (version) => {
      await new Promise((done) => setTimeout(done, rest - (performance.now() - (this.began ?? 0))));
      if (version !== this.version) return;
      const signal = this.begin("slow");
      const job = this.read(),
        key = meaningOf(job.text) + JSON.stringify(Object.entries(job.files).filter(([name]) => name !== job.name));
      if (this.waysOf !== key) {
        this.tellBusy(true);
        const check = await run(["check", job.name, "--json"], job.files, "slow", signal);
        if (version !== this.version) return;
        const report = check.out.includes('"ways"') ? parsed(check) : null;
        this.waysOf = report ? key : null;
        this.tellWays(report, complaintsOf(check));
      }
      this.tellBusy(false);
      const sheetKey = job.text + key + job.sheetWords.join("\n");
      if (!job.sheet || this.sheetOf === sheetKey) return;
      this.tellBusy(true);
      const sheet = await run(["sheet", job.name, ...job.sheetWords], job.files, "slow", signal);
      this.tellBusy(false);
      if (version !== this.version) return;
      this.sheetOf = sheetKey;
      this.tellSheet(sheet.code === 0 ? sheet.out : null, complaintsOf(sheet));
    });
  }
}
