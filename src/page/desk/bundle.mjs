// Makes the desk one page: node bundle.mjs OUTPUT_FOLDER NOTICES writes OUTPUT_FOLDER/desk.html, its style and script inside, and a
// line <!--engine--> where the engine's own script goes. The editor and the bundler come by npm, into OUTPUT_FOLDER/node_modules,
// in these versions. NOTICES is a text: what the libraries of the engine say of themselves.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { keyFacts } from "./key_facts.mjs";

const packages = {
  esbuild: "0.28.2",
  "@codemirror/autocomplete": "6.20.4",
  "@codemirror/commands": "6.11.1",
  "@codemirror/language": "6.13.1",
  "@codemirror/lint": "6.9.8",
  "@codemirror/search": "6.7.2",
  "@codemirror/state": "6.7.6",
  "@codemirror/view": "6.43.15",
  "@lezer/common": "1.5.5",
  "@lezer/highlight": "1.2.5",
  "@lezer/lr": "1.4.12",
  "@marijn/find-cluster-break": "1.0.4",
  crelt: "1.0.7",
  "style-mod": "4.1.5",
  "w3c-keyname": "2.2.8",
};
const here = dirname(fileURLToPath(import.meta.url)),
  project = resolve(here, "../../.."),
  output = resolve(process.argv[2]),
  engineNotices = readFileSync(process.argv[3], "utf8");

function fetchPackages() {
  const wanted = JSON.stringify({ private: true, dependencies: packages }, null, 2),
    fetched = join(output, "fetched.json");
  if (existsSync(fetched) && readFileSync(fetched, "utf8") === wanted) return;
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, "package.json"), wanted);
  execFileSync("npm", ["install", "--silent", "--no-audit", "--no-fund", "--no-package-lock"], {
    cwd: output,
    stdio: "inherit",
    shell: process.platform === "win32",
  });
  writeFileSync(fetched, wanted); // only now: a fetch that was cut short is made again
}

// What the desk takes from elsewhere in the project: the keys' meaning, and the picture of the senses of angles.
const taken = {
  "desk:key-facts": () => ({
    contents: JSON.stringify(keyFacts(readFileSync(join(project, "examples/job-file.md"), "utf8"))),
    loader: "json",
  }),
  "desk:senses": () => ({ contents: readFileSync(join(project, "examples/senses.svg"), "utf8"), loader: "text" }),
};
const facts = {
  name: "taken",
  setup(build) {
    build.onResolve({ filter: /^desk:/ }, ({ path }) => ({ path, namespace: "desk" }));
    build.onLoad({ filter: /.*/, namespace: "desk" }, ({ path }) => taken[path]());
  },
};

async function script() {
  const { build } = createRequire(join(output, "package.json"))("esbuild");
  const made = await build({
    entryPoints: [join(here, "desk.js")],
    bundle: true,
    write: false,
    minify: true,
    format: "iife",
    target: ["chrome100", "firefox100", "safari15"],
    charset: "utf8",
    legalComments: "none",
    nodePaths: [join(output, "node_modules")],
    plugins: [facts],
    logLevel: "warning",
  });
  return made.outputFiles[0].text.replace(/<\/script/gi, "<\\/script").replace(/<!--/g, "<\\!--");
}

// What others wrote comes with their licences, in the page's own words at its foot.
function licences() {
  const texts = new Map();
  for (const name of Object.keys(packages).filter((each) => each !== "esbuild")) {
    const text = readFileSync(join(output, "node_modules", name, "LICENSE"), "utf8").trim();
    texts.set(text, [...(texts.get(text) ?? []), `${name} ${packages[name]}`]);
  }
  const parts = [...texts].map(([text, names]) => `${names.join(", ")}\n\n${text}`);
  const all = `${parts.join("\n\n\n")}\n\n\n${engineNotices.trim()}\n`;
  return all.replace(/[&<>]/g, (letter) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;" })[letter]);
}

// The desk takes its colours from the sheet's own style: all that stands before the rules of elements there.
function style() {
  const sheet = readFileSync(join(project, "src/sheet/viewer/page.css"), "utf8").replace(/\r\n/g, "\n");
  return sheet.slice(0, sheet.indexOf("\n* {")) + "\n" + readFileSync(join(here, "desk.css"), "utf8");
}

fetchPackages();
const page = readFileSync(join(here, "desk.html"), "utf8").replace(/\r\n/g, "\n"),
  parts = { "/*style*/": style(), "<!--licences-->": licences(), "/*script*/": await script() };
writeFileSync(
  join(output, "desk.html"),
  Object.entries(parts).reduce((text, [mark, part]) => text.replace(mark, () => part), page),
);
