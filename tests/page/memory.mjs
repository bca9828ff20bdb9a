// The engine keeps nothing of a run but shapes of lobes, within their bound: memory.mjs ENGINE.wasm PROJECT. After 200 jobs, one
// after the other, it has exactly the bytes in use that it had before, and no more memory; while one job is changed on and on,
// what it knows of the jobs before comes to an end.
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

// As somebody who types one figure after the other, of a lobe with many parts.
const fullest = (base) => `layout = 1
[job]
units = "mm"
[shaft]
turns = "ccw"
[profile.a]
shape = "fullest"
base_radius = ${base}
lift = 2.4
opening_angle = 70.0
closing_angle = 70.0
limits = { deceleration = 0.0022, jerk = 0.0008 }
[follower.a]
kind = "flat"
[[lobe]]
name = "a"
profile = "a"
follower = "a"
at = 0.0
z = 10.0
width = 6.0
`;
const typed = (from, to) => {
    let last;
    for (let i = from; i < to; ++i) last = run(["table", "job.toml", "--every", "90"], [["job.toml", fullest((12 + i / 1000).toFixed(3))]]);
    if (last.code !== 0) throw new Error(last.err);
    return last;
};
const some = typed(0, 20), many = typed(20, 420), more = typed(420, 440);
const each = (some.inUse - after.inUse) / 20;
console.log(`a shape takes ${(each / 1024).toFixed(0)} KB; after 420 of them ${((many.inUse - after.inUse) / 2 ** 20).toFixed(1)} MB are in use`);
if (each < 1024) throw new Error("nothing is known of the lobes before");
if (many.inUse - after.inUse > 64 * 2 ** 20 || more.inUse - many.inUse > 5 * each) throw new Error("what is known of the lobes before grows without end");
