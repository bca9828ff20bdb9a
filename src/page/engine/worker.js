// In a worker: the first message brings the compiled program, each later one a run. (Put behind host.mjs.)
let program = null;

self.onmessage = async ({data}) => {
    if (data.module) {
        program = startProgram(data.module);
        return;
    }
    try {
        const run = await program;
        self.postMessage(run(data.args, data.files));
    } catch (trap) {
        self.postMessage({trap: String((trap && trap.message) || trap)});
    }
};
