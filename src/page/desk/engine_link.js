// The program behind the page: a command's arguments and its files in, exit code, texts and files out.
const waited = 30000; // ms, for a page whose engine is still being unpacked

// What goes wrong within a run is told in words: the text of the job is safe in any case.
export class EngineFault extends Error {}
// A run that was given up, because what it was asked has changed.
export class Overtaken extends Error {}

async function engine() {
  for (const began = performance.now(); !window.lobewright?.run; await new Promise((done) => setTimeout(done, 20))) {
    if (performance.now() - began > waited)
      throw new EngineFault(
        "the part of this page that computes did not start. Load the page again; if it is a copy, it may be cut short: get a whole one",
      );
  }
  return window.lobewright;
}

// `lane` "quick" is for what answers while somebody types, "slow" for what takes longer; where the engine has one worker alone
// it takes them in turn. `signal` gives a run up.
export async function run(words, files, lane = "slow", signal = undefined) {
  const outcome = await (await engine()).run(words, files, { lane, signal }).catch((fault) => {
    if (signal?.aborted) throw new Overtaken();
    throw new EngineFault(String(fault?.message ?? fault).replace(/\.$/, ""));
  });
  if (outcome.code === 70) throw new EngineFault(outcome.err.trim());
  return outcome;
}

const LINE = /^(.*?):(\d+):(\d+): (?:(warning|note): )?(.*)$/;

// Complaints of a run, with their places: as JSON where the run failed with --json, else as lines of its messages.
export function complaintsOf(outcome) {
  if (outcome.code !== 0 && outcome.out.startsWith("{")) {
    try {
      const { complaints } = JSON.parse(outcome.out);
      if (complaints) return complaints.map((each) => ({ ...each, words: each.message + (each.remedy ? ": " + each.remedy : "") }));
    } catch {
      /* it is a report, then */
    }
  }
  const found = outcome.err
    .split("\n")
    .map((line) => line.match(LINE))
    .filter(Boolean)
    .map(([, file, line, column, severity, words]) => ({
      severity: severity ?? "error",
      file,
      line: Number(line),
      column: Number(column),
      words,
    }));
  if (!found.length && outcome.code !== 0 && outcome.err.trim())
    found.push({ severity: "error", file: "", line: 0, column: 0, words: outcome.err.trim() });
  return found;
}
