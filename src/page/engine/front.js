// window.lobewright: the whole program, for the page's own script and for those who script the page. The packed
// program (`packedProgram`) and the worker's text (`workerText`) stand before this when the page is put together.
const tooOld =
    "This browser can't run the program. Chrome and Edge from 97, Firefox from 113 and Safari from 16.4 can.";
// A worker that has taken so much is let go after its run: WebAssembly never gives memory back.
const mostMemory = 512 << 20;

async function compile() {
    if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function") throw new Error(tooOld);
    const text = atob(packedProgram), packed = new Uint8Array(text.length);
    for (let i = 0; i < text.length; ++i) packed[i] = text.charCodeAt(i);
    const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const bytes = await new Response(unpacked).arrayBuffer();
    try {
        return await WebAssembly.compile(bytes);
    } catch (why) {
        throw new Error(tooOld + " (" + why.message + ")");
    }
}

const compiled = compile();
compiled.catch(() => {});  // each run tells of it
const workerAddress = URL.createObjectURL(new Blob([workerText], {type: "text/javascript"}));

// What the command line says when it stops by a bug.
function trapped(why) {
    const err = "lobewright: stopped by a bug of ours (" + why + "): please report it together with the job file\n";
    return {code: 70, out: "", err, files: {}};
}

// Runs come one after the other, all in one worker.
class Lane {
    constructor() {
        this.worker = null;
        this.last = Promise.resolve();
    }

    run(args, files, signal) {
        const mine = this.last.then(() => this.start(args, files, signal));
        this.last = mine.catch(() => {});
        if (!signal) return mine;
        const aborted = new Promise((_, reject) => {
            signal.addEventListener("abort", () => reject(signal.reason), {once: true});
        });
        return Promise.race([mine, aborted]);
    }

    async start(args, files, signal) {
        if (signal) signal.throwIfAborted();
        if (!this.worker) {
            const module = await compiled;
            this.worker = new Worker(workerAddress);
            this.worker.postMessage({module});
        }
        const worker = this.worker;
        return new Promise((resolve, reject) => {
            const stop = () => {
                this.letGo();
                reject(signal.reason);
            };
            const end = (left) => {
                if (signal) signal.removeEventListener("abort", stop);
                resolve(left);
            };
            if (signal) signal.addEventListener("abort", stop, {once: true});
            worker.onmessage = ({data}) => {
                if (data.trap !== undefined || data.memory > mostMemory) this.letGo();
                if (data.trap !== undefined) return end(trapped(data.trap));
                end({code: data.code, out: data.out, err: data.err, files: Object.fromEntries(data.files)});
            };
            worker.onerror = (event) => {
                this.letGo();
                end(trapped(event.message || "the worker could not start"));
            };
            worker.postMessage({args, files});
        });
    }

    letGo() {
        if (this.worker) this.worker.terminate();
        this.worker = null;
    }
}

const lanes = new Map();
function laneCalled(name) {
    if (!lanes.has(name)) lanes.set(name, new Lane());
    return lanes.get(name);
}

// `args`: the words behind `lobewright`; `files`: a Map or an object from name to text, "-" is standard input.
// Gives { code, out, err, files }, the files that the run wrote. Runs of one `lane` wait for each other, those
// of two don't. Aborting `signal` ends a run, or keeps it from beginning: its promise is rejected.
async function run(args, files = {}, {lane = "quick", signal} = {}) {
    const words = [...args], texts = files instanceof Map ? [...files] : Object.entries(files);
    if (typeof args === "string" || !words.every((word) => typeof word === "string"))
        throw new TypeError("the arguments are a list of words");
    if (!texts.flat().every((text) => typeof text === "string"))
        throw new TypeError("the files are a map from name to text");
    return laneCalled(lane).run(words, texts, signal);
}

// Fulfilled when the program has started; rejected where this browser can't run it.
const ready = run(["--version"]).then(() => {});
ready.catch(() => {});
window.lobewright = Object.freeze({run, ready});
