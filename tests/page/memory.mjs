// The engine keeps nothing of a run: memory.mjs ENGINE.wasm PROJECT. After 200 jobs, one after the other, it has exactly the
// bytes in use that it had before, and no more memory.
import {existsSync, readFileSync} from "node:fs";
import {pathToFileURL} from "node:url";

const [engine, project] = process.argv.slice(2);
if (!existsSync(engine)) {
    console.log("SKIPPED: the page isn't made here");
    process.exit();
}
const {startProgram} = await import(pathToFileURL(`${project}/src/page/engine/host.mjs`));
const run = await startProgram(await WebAssembly.compile(readFileSync(engine)));

const files = (name) => [["job.toml", readFileSync(`${project}/examples/${name}.toml`, "utf8")]];
const jobs = [
    [["check", "job.toml", "--json"], files("basalt-single-lathe")],
    [["table", "job.toml", "--lobe", "1 inlet", "--every", "5"], files("basalt-four")],
    [["cut", "job.toml", "-o", "job.ngc"], files("basalt-single-lathe")],
    [["check", "job.toml"], [["job.toml", "layout = 1\n[job]\nunits = 5\n"]]],
    [["draw", "job.toml", "--what", "shaft"], files("basalt-four")],
    [["check", "nowhere.toml"], []],
    [["posts", "--json"], []],
    [["start", "job.toml", "--for", "dividing-head"], []],
];
const round = () => jobs.map(([args, texts]) => run(args, texts)).at(-1);

round();  // what is made once, stays
const before = round();
for (let done = 0; done < 200; done += jobs.length) round();
const after = round();
if (after.inUse !== before.inUse || after.memory !== before.memory) {
    console.error(`bytes in use ${before.inUse}, then ${after.inUse}; memory ${before.memory}, then ${after.memory}`);
    process.exit(1);
}
console.log(`200 jobs, ${after.inUse} bytes in use before and after, ${after.memory} bytes of memory`);
