#!/usr/bin/env python3
"""window.lobewright in a real browser: engine_in_browser.py PAGE CHROMIUM EXAMPLES.

How soon the first result is there and how long a cut takes is measured in processor time, of all of the browser's
processes, so that other work on this machine doesn't judge; and where this machine is slow to open an empty page, by that.
"""
import json
import pathlib
import sys
import time

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from page_checks import PAGE, check, skip_without

page_file, chromium, examples = sys.argv[1:]
skip_without(page_file, PAGE)

FOUR = pathlib.Path(examples, "basalt-four.toml").read_text()
JOB = json.dumps({"job.toml": FOUR})


def spent(browser, work):
    """What the work gives, and the seconds that it took of processors and of the wall's clock."""
    processor, clock = browser.processor_seconds(), time.monotonic()
    result = work()
    return result, browser.processor_seconds() - processor, time.monotonic() - clock


def first_result_soon(browser):
    browser.open(__file__).close()  # what a browser does once, when it starts, is not the page's
    _, empty, _ = spent(browser, lambda: browser.open(__file__).close())

    def work():
        page = browser.open(page_file)
        after = page.run(f"lobewright.run(['table', 'job.toml', '--lobe', '1 inlet'], {JOB}).then((left) => left.code || performance.now())")
        assert after > 1, "the first run failed"
        return page, after
    (page, after), processor, _ = spent(browser, work)
    print(f"first result after {processor:.2f} s of processor, {after / 1000:.2f} s by the page's clock; another page {empty:.2f} s")
    assert processor < max(2, 12 * empty), "the first result takes longer than 2 s"
    return page, empty


def cut_is_quick(browser, page, empty):
    cut = lambda: page.run(f"lobewright.run(['cut', 'job.toml'], {JOB}).then((left) => left.out.length)")
    assert cut() > 1000
    _, processor, clock = spent(browser, cut)
    print(f"cut of eight lobes: {processor:.2f} s of processor, {clock:.2f} s by the clock")
    assert processor < max(1, 4 * empty), "a cut takes longer than 1 s"


def page_stays_awake(page):
    """The page's own clock runs on while the program computes: no pause is as long as the cut."""
    longest = page.run(f"""(async () => {{
        let last = performance.now(), longest = 0, done = false;
        const tick = () => {{ const now = performance.now(); longest = Math.max(longest, now - last); last = now; if (!done) setTimeout(tick); }};
        tick();
        const began = performance.now();
        await lobewright.run(["cut", "job.toml"], {JOB});
        done = true;
        return longest / (performance.now() - began);
    }})()""")
    assert longest < 0.5, f"the page stood still for {longest:.0%} of a cut"


def lanes_and_aborts(page):
    check("what is quick doesn't wait for what is slow", page.run(f"""(async () => {{
        const order = [];
        const slow = lobewright.run(["cut", "job.toml"], {JOB}, {{ lane: "slow" }}).then(() => order.push("slow"));
        const quick = lobewright.run(["--version"], {{}}, {{ lane: "quick" }}).then(() => order.push("quick"));
        await Promise.all([slow, quick]);
        return order.join();
    }})()"""), "quick,slow")
    check("runs of a lane come in their order", page.run(f"""(async () => {{
        const order = [];
        await Promise.all([["cut", "job.toml"], ["--version"], ["posts"]].map((words) =>
            lobewright.run(words, {JOB}).then(() => order.push(words[0]))));
        return order.join();
    }})()"""), "cut,--version,posts")
    check("aborted while it runs, while it waits, and before it began", page.run(f"""(async () => {{
        const told = [], tell = (each) => each.then(() => told.push("done"), (why) => told.push(why.name));
        const early = new AbortController(), running = new AbortController(), waiting = new AbortController();
        early.abort();
        await tell(lobewright.run(["--version"], {{}}, {{ signal: early.signal }}));
        const both = [tell(lobewright.run(["cut", "job.toml"], {JOB}, {{ signal: running.signal }})),
                      tell(lobewright.run(["cut", "job.toml"], {JOB}, {{ signal: waiting.signal }}))];
        waiting.abort();
        await both[1];
        setTimeout(() => running.abort(), 20);
        await both[0];
        await tell(lobewright.run(["--version"]));
        return told.join();
    }})()"""), "AbortError,AbortError,AbortError,done")


def wrong_calls(page):
    for call in ("'check'", "[1]", "['check'], { a: 5 }"):
        check(call, page.run(f"lobewright.run({call}).then(() => 'done', (why) => why.name)"), "TypeError")
    check("a Map of files", page.run("lobewright.run(['check', 'a'], new Map([['a', 'x']])).then((left) => left.code)"), 2)
    check("standard input", page.run(f"lobewright.run(['check', '-', '--json'], {{ '-': {json.dumps(FOUR)} }}).then((left) => left.code)"), 0)


def heap_stays(page):
    """Of the page's own script: what 200 runs leave behind."""
    runs = lambda count: page.run(f"""(async () => {{
        for (let i = 0; i < {count}; ++i) await lobewright.run(["table", "job.toml", "--lobe", "1 inlet"], {JOB});
    }})()""")
    def used():
        page.send("HeapProfiler.collectGarbage")
        return page.send("Runtime.getHeapUsage")["usedSize"]
    runs(20)
    before = used()
    runs(200)
    grown = used() - before
    print(f"200 runs leave {grown / 1024:.0f} KB in the page")
    assert grown < 200_000, f"the page has grown by {grown} bytes"


def nothing_may_leave(page):
    """The page's own rules forbid it to ask for anything, in its workers too, which inherit them."""
    check("faults", page.faults, [])
    check("forbidden", page.run("""new Promise((done) => {
        document.addEventListener("securitypolicyviolation", (event) => done(event.violatedDirective));
        fetch("https://basalt.invalid/").catch(() => {});
    })"""), "connect-src")
    check("forbidden in a worker", page.run("""new Promise((done) => {
        const script = `self.addEventListener("securitypolicyviolation", (event) => postMessage(event.violatedDirective)); fetch("https://basalt.invalid/").catch(() => {});`;
        const worker = new Worker(URL.createObjectURL(new Blob([script], { type: "text/javascript" })));
        worker.onmessage = ({ data }) => done(data);
    })"""), "connect-src")


with Browser(chromium) as browser:
    page, empty = first_result_soon(browser)
    cut_is_quick(browser, page, empty)
    page_stays_awake(page)
    lanes_and_aborts(page)
    wrong_calls(page)
    heap_stays(page)
    nothing_may_leave(page)
