// Puts the page together: node assemble.mjs PAGE ENGINE.wasm FOLDER OUTPUT. The line <!--engine--> of PAGE gives way to
// the program: the WebAssembly, packed, and the scripts of FOLDER.
import {readFileSync, writeFileSync} from "node:fs";
import {gzipSync} from "node:zlib";

const [page, engine, folder, output] = process.argv.slice(2);
const text = (name) => readFileSync(`${folder}/${name}`, "utf8");
const quoted = (value) => JSON.stringify(value).replaceAll("<", "\\u003c");

const packed = gzipSync(readFileSync(engine), {level: 9}).toString("base64");
const worker = text("host.mjs").replace("export async function", "async function") + text("worker.js");
const script = `<script>
(() => {
"use strict";
const packedProgram = "${packed}";
const workerText = ${quoted(worker)};
${text("front.js")}})();
</script>`;

const lines = readFileSync(page, "utf8").split("\n");
const place = lines.findIndex((line) => line.trim() === "<!--engine-->");
if (place < 0) throw new Error(`${page} has no line <!--engine-->`);
if (text("front.js").includes("</script")) throw new Error("a script would end too early");
lines[place] = script;
writeFileSync(output, lines.join("\n"));
