// What the program's WebAssembly needs around it, and the packets that go in and out (see engine.cpp).

// The program reads no file, no clock and no stream. Libraries in it could, of which it calls no such part: what
// they would ask a system for is not there.
const notThere = 52;  // ENOSYS of WASI
const system = {
    fd_close: () => notThere,
    fd_read: () => notThere,
    fd_seek: () => notThere,
    fd_write: () => notThere,
    environ_get: () => 0,
    proc_exit: (code) => {
        throw new Error("exit " + code);
    },
};

class PacketWriter {
    constructor() {
        this.parts = [];
        this.size = 0;
    }
    bytes(bytes) {
        this.parts.push(bytes);
        this.size += bytes.length;
    }
    number(value) {
        this.bytes(Uint8Array.of(value, value >> 8, value >> 16, value >> 24));
    }
    text(text) {
        const bytes = new TextEncoder().encode(text);
        this.number(bytes.length);
        this.bytes(bytes);
    }
    copyTo(memory, at) {
        for (const part of this.parts) {
            memory.set(part, at);
            at += part.length;
        }
    }
}

class PacketReader {
    constructor(buffer, at) {
        this.view = new DataView(buffer);
        this.at = at;
    }
    number() {
        this.at += 4;
        return this.view.getUint32(this.at - 4, true);
    }
    text() {
        const size = this.number();
        const bytes = new Uint8Array(this.view.buffer, this.at, size);
        this.at += size;
        return new TextDecoder("utf-8", {ignoreBOM: true}).decode(bytes);
    }
}

// Starts a compiled module; gives the function from arguments and files (pairs of name and text) to what the
// run left, and how many bytes of memory there are and are in use. A trap is thrown; after one the instance
// can't be used any more.
export async function startProgram(module) {
    let memory = null;
    const wasi = {
        ...system,
        environ_sizes_get: (count, size) => {
            const view = new DataView(memory.buffer);
            view.setUint32(count, 0, true);
            view.setUint32(size, 0, true);
            return 0;
        },
    };
    const instance = await WebAssembly.instantiate(
        module, {wasi_snapshot_preview1: wasi, env: {emscripten_notify_memory_growth: () => {}, __syscall_stat64: () => -notThere}});
    const program = instance.exports;
    memory = program.memory;
    program._initialize();

    return (args, files) => {
        const packet = new PacketWriter();
        packet.number(args.length);
        args.forEach((each) => packet.text(each));
        packet.number(files.length);
        files.forEach(([name, text]) => {
            packet.text(name);
            packet.text(text);
        });
        const room = program.lobewright_room(packet.size);  // before the memory is looked at: it may grow
        packet.copyTo(new Uint8Array(memory.buffer), room);
        const answer = program.lobewright_run();
        const reader = new PacketReader(memory.buffer, answer);
        const left = {code: reader.number(), out: reader.text(), err: reader.text(), files: []};
        for (let count = reader.number(); count > 0; --count) left.files.push([reader.text(), reader.text()]);
        program.lobewright_forget();
        return {...left, memory: memory.buffer.byteLength, inUse: program.lobewright_in_use()};
    };
}
