// The last job stays in this browser, where it can, and nowhere else: what is kept, and what is opened and saved as files.
const slot = "lobewright job";

// { name, text, beside } of the last time; null where there is none, or where the browser keeps nothing.
export function kept() {
  try {
    const job = JSON.parse(localStorage.getItem(slot));
    return job && typeof job.text === "string" ? { name: "job.toml", beside: {}, ...job } : null;
  } catch {
    return null;
  }
}
export function keep(job) {
  try {
    localStorage.setItem(slot, JSON.stringify(job));
    return true;
  } catch {
    return false;
  }
}

export function forget() {
  try {
    localStorage.removeItem(slot);
  } catch {
    /* then nothing is kept */
  }
}

// Hands a text over as a file, into the folder for downloads.
export function save(name, text, kind = "text/plain") {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: kind }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

const largest = 64 << 20; // bytes: no file of a job comes near
export async function textOf(file) {
  if (file.size > largest) throw new Error(`${file.name} is too large to be a file of a job`);
  return (await file.text()).replace(/^\ufeff/, "");
}

// A file's name as it can stand on a command line: no option, no folder.
export const plainName = (name) => name.replace(/^.*[/\\]/, "").replace(/^[-\s]+/, "") || "job.toml";

// What a file is for, by its name and what stands in it: a job, readings of lobes, a program, or what a job reads.
export function purposeOf(name, text) {
  if (/\.toml$/i.test(name)) return /^\s*\[job\]/m.test(text) || /^\s*layout\s*=/m.test(text) ? "job" : "read";
  if (/^\s*(?:#.*\n)*.*\breading\b/i.test(text.slice(0, 2000)) && /\.(csv|tsv|txt)$/i.test(name)) return "readings";
  if (/\.(ngc|nc|tap|cnc|iso|eia|gcode|mpf)$/i.test(name)) return "program";
  return "read";
}
