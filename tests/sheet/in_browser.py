#!/usr/bin/env python3
"""Opens sheets in a real browser and works them as a person would: in_browser.py LOBEWRIGHT CHROMIUM EXAMPLES.

Every click, tap and key goes through the browser itself. Whatever goes wrong on a page, and whatever a page asks the
network for, fails the test.
"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from page_checks import check, check_fits, wait_until
from sheets import long_program, sheet_of

program, chromium, examples = sys.argv[1:]
PROGRESS, READY = ".bench .progress", "/at most/.test(document.querySelector('.backplot .figures').textContent)"


def steps_at_the_bench(browser, sheet, route, width, touch):
    page = browser.open(sheet, width, touch=touch)
    act = page.tap if touch else page.click
    page.run("Object.defineProperty(navigator, 'wakeLock', { value: { request: async (what) => { window.awake = what; return new EventTarget(); } } })")
    count = int(re.match(r"step 1 of (\d+), 0 done$", page.text(PROGRESS)).group(1))
    act(".bench button", "✓ done")
    act(".bench button", "✓ done")
    check("kept awake", page.run("window.awake"), "screen")
    check("after two are done", page.text(PROGRESS), f"step 3 of {count}, 2 done")
    page.run("document.querySelector('.bench .step').focus()")
    page.press("ArrowLeft", 37)
    check("one back by key", page.text(PROGRESS), f"step 2 of {count}, 2 done")
    check("its tick", page.text(".bench .done"), "✓ done")
    page.press("ArrowRight", 39)
    page.press("Enter", 13)
    check("ticked by key", page.text(PROGRESS), f"step 4 of {count}, 3 done")
    page.answer_dialogs(False)
    act(".bench button", "start over")
    check("not started over without a yes", page.text(PROGRESS), f"step 4 of {count}, 3 done")
    page.reload()
    check("remembered", page.text(PROGRESS), f"step 4 of {count}, 3 done")
    every_setting(page, route)
    act(".bench button", "first not done")
    check("first that isn't done", page.text(PROGRESS), f"step 4 of {count}, 3 done")
    page.answer_dialogs(True)
    act(".bench button", "start over")
    check("started over", page.text(PROGRESS), f"step 1 of {count}, 0 done")
    if touch:
        page.swipe(".bench .part", -150)
        check("on by a finger", page.text(PROGRESS), f"step 2 of {count}, 0 done")
        page.swipe(".bench .part", 150)
        check("and back by it", page.text(PROGRESS), f"step 1 of {count}, 0 done")
    act(".bench button", "whole screen")
    box = page.run("(() => { const box = document.querySelector('.step').getBoundingClientRect(); return [box.width, box.height]; })()")
    check("as large as the screen", box, page.run("[innerWidth, innerHeight]"))
    page.press("Escape", 27)
    check("and back", page.run("document.querySelector('.step.large')"), None)
    check_fits(page)


def storage_stays_small(browser, sheet):
    """A sheet that is only opened leaves nothing in the browser, and of routes that were worked on the last twenty are kept."""
    page = browser.open(sheet, 1000)
    page.run("localStorage.clear()")
    page.reload()
    check("opened and left alone", page.run("localStorage.length"), 0)
    page.run("""for (let i = 0; i < 30; ++i) localStorage.setItem("lobewright " + i.toString(16), JSON.stringify({ at: 1, done: [0], when: i }));
        localStorage.setItem("lobewright job", "{}")""")
    page.click(".bench button", "✓ done")
    keys = page.run("Object.keys(localStorage)")
    routes = [each for each in keys if re.fullmatch("lobewright [0-9a-f]+", each)]
    check("as many routes as are kept", len(routes), 20)
    check("the newest of the others", sorted(int(each.split()[1], 16) for each in routes if len(each) < 14), list(range(11, 30)))
    check("what isn't a route stays", "lobewright job" in keys, True)
    page.reload()
    check("this one, too", page.text(PROGRESS).split(", ")[1], "1 done")
    page.run("localStorage.clear()")


def every_setting(page, route):
    """Leafs through the whole route: each setting stands in large type with its picture, in the paper's order."""
    shown = page.run("""(() => {
        const bench = document.querySelector(".bench"), all = [], next = [...bench.querySelectorAll("button")].find((b) => b.textContent.startsWith("next"));
        const parts = bench.querySelector("select");
        parts.value = 0;
        parts.dispatchEvent(new Event("change"));
        for (let last = ""; last !== bench.querySelector(".progress").textContent;) {
            last = bench.querySelector(".progress").textContent;
            const set = bench.querySelector(".set"), stop = bench.querySelector(".stop");
            if (set) all.push([set.lastChild.textContent, bench.querySelector("svg") !== null, parseFloat(getComputedStyle(set).fontSize)]);
            if (stop) all.push([stop.textContent, true, parseFloat(getComputedStyle(stop).fontSize)]);
            next.click();
        }
        return all;
    })()""")
    wanted = [row for row in route if row]
    check("marks and stops in the paper's order", [each[0] for each in shown], wanted)
    check("each with its picture", all(each[1] for each in shown), True)
    check("in large type", min(each[2] for each in shown) >= 25, True)


def route_on_paper(text):
    """The marks and stops of the sheet for the bench, line by line."""
    route, mark = [], ""
    for line in text.splitlines():
        if line.startswith("# SET THE STOP"):
            route.append(line[2:])
        elif line.startswith("| [ ]"):
            mark = line.split("|")[3].strip() or mark
            route.append(mark)
    return route


def read_out(page):
    page.run("document.querySelector('.readout canvas').focus()")
    figures = page.text(".readout .figures")
    assert "lift 2.400 mm" in figures, figures  # the lift that the example asks for
    page.press("ArrowRight", 39)
    check("one degree on by key", page.run("document.querySelector('.readout input').value"), "1")


def on_paper(page, folder, job):
    """All settings stand on paper, folded away as they are on the screen."""
    page.print(folder / "sheet.pdf", 8.27, 11.69)
    check("folded again", page.run("document.querySelector('#by-hand details').open"), False)
    reader = shutil.which("pdftotext")
    if not reader:
        return print("pdftotext can't be had here: the print is not read")
    text = subprocess.run([reader, "-layout", folder / "sheet.pdf", "-"], check=True, capture_output=True, text=True).stdout
    cuts = [int(each) for each in re.findall(r"^ *(\d+) +mark \d+ ", text, re.M)]
    rows = subprocess.run([program, "index", job, "--format", "csv"], check=True, capture_output=True, text=True).stdout.splitlines()
    check("every cut once, in order", cuts, list(range(1, len(rows))))
    printed = lines_on_paper(folder)
    for wanted in (50.0, 50.8):  # the shaft's drawing, as large as it says
        assert any(abs(each - wanted) < 0.1 for each in printed), (wanted, printed)


def lines_on_paper(folder):
    """The level lines of the second page, in mm."""
    subprocess.run(["pdftocairo", "-svg", "-f", "2", "-l", "2", folder / "sheet.pdf", folder / "sheet.svg"], check=True)
    lengths = []
    for path in re.findall("<path[^>]*>", (folder / "sheet.svg").read_text()):
        places = [float(each) for each in re.findall(r"-?[\d.]+", re.search(' d="([^"]*)"', path).group(1))]
        scale = re.search(r"matrix\(([\d.]+)", path)
        if len(places) == 4 and abs(places[1] - places[3]) < 1e-6:
            lengths.append(abs(places[2] - places[0]) * (float(scale.group(1)) if scale else 1.0) / 72.0 * 25.4)
    return lengths


def whole_plot(browser, sheet, job):
    lines = subprocess.run([program, "cut", job], check=True, capture_output=True, text=True).stdout.splitlines()
    text = pathlib.Path(sheet).with_suffix(".ngc")
    text.write_text("\n".join(lines) + "\n")
    proof = json.loads(subprocess.run([program, "prove", job, text, "--json"], check=True, capture_output=True, text=True).stdout)
    page = browser.open(sheet, 1000)
    wait_until(page, READY)
    figures = page.text(".backplot .figures")
    found = re.search(r"at most ([\d.]+) in line (\d+)$", figures)
    # The page samples other rays than the proof: what both say of the deepest block agrees within a hundredth.
    assert abs(float(found.group(1)) - proof["largest_depth"]) < 0.01, (figures, proof["largest_depth"])
    page.run("""(() => { const slider = document.querySelector(".backplot input[type=range]"); slider.value = slider.max;
        slider.dispatchEvent(new Event("input")); })()""")
    assert re.match(r"move (\d+) of \1, (.*) of \2, ", page.text(".backplot .figures")), page.text(".backplot .figures")
    page.run("document.querySelector('#wanted-line').value = 100")
    page.click(".backplot button", "to line")
    number, words = page.text(".backplot .line").split(maxsplit=1)
    check("the line jumped to", words, lines[int(number) - 1].strip())
    assert 100 <= int(number) < 110, number
    deviations(page, proof, lines)
    page.click(".backplot button", "▶ play")
    wait_until(page, f"!document.querySelector('.backplot .line').textContent.startsWith('{number} ')")
    page.click(".backplot button", "■ stop")
    pixels = """[...document.querySelectorAll(".backplot canvas")].map((canvas) => canvas.getContext("2d")
        .getImageData(0, 0, canvas.width, canvas.height).data.some((value, i) => i % 4 === 3 && value > 0))"""
    check("all four views are drawn", page.run(pixels), [True] * 4)
    check("sections", page.run("[...document.querySelectorAll('section')].map((s) => s.id)")[:6],
          ["shaft", "timing", "ways", "lobes", "by-hand", "program"])
    page.click(".backplot summary")
    wait_until(page, "document.querySelector('.backplot pre')")
    check("the program's text", page.text(".backplot pre").splitlines(), lines)
    check_fits(page)


def deviations(page, proof, lines):
    """Leafs round the first lobe by key: the worst places are the proof's, and a place's line is jumped to."""
    around = page.run("""(() => {
        const canvas = document.querySelector(".deviation canvas"), words = canvas.parentElement.querySelectorAll(".figures")[1], all = [];
        const press = () => canvas.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft" }));
        const first = words.textContent;
        do { all.push(words.textContent); press(); } while (words.textContent !== first && all.length < 800);
        return all;
    })()""")
    figures = [re.search(r": ([−+][\d.]+) to ([−+][\d.]+) mm, cut by line (\d+)$", each).groups() for each in around]
    value = lambda text: float(text.replace("−", "-"))
    lobe = proof["lobes"][0]
    assert abs(min(value(each[0]) for each in figures) - lobe["deepest"]) < 1e-5, lobe
    assert abs(max(value(each[1]) for each in figures) - lobe["proudest"]) < 1e-5, lobe
    page.click(".deviation canvas", across=0.9, down=0.5)
    number = re.search(r"cut by line (\d+)$", page.run("document.querySelectorAll('.deviation .figures')[1].textContent")).group(1)
    check("from a place on the lobe to its line", page.text(".backplot .line").split(maxsplit=1), [number, lines[int(number) - 1].strip()])


def hostile_names(browser, folder):
    job = pathlib.Path(f"{examples}/basalt-single-lathe.toml").read_text()
    name = '"<img src=x onerror=document.title=1>&amp;'
    job = job.replace('name = "inlet"', f"name = '{name}'")
    job = re.sub('^title = .*$', "title = '</script><script>document.title=2</script> \u05d0\u05d1 " + 200 * "x" + "'", job, count=1, flags=re.M)
    path = folder / "hostile.toml"
    path.write_text(job)
    page = browser.open(sheet_of(program, path, folder), 360)
    for _ in range(12):
        page.click(".bench button", "next ▶")
    check("the title is text", page.run("document.title").startswith("</script><script>"), True)
    check("no picture of theirs", page.run("document.querySelectorAll('img').length"), 0)
    assert name in page.run("document.body.textContent")
    check_fits(page)


def a_long_program(browser, folder):
    """Of 50,000 blocks: it opens, it plays, and any place of it is there at once."""
    path = folder / "long.ngc"
    path.write_text(long_program(program, f"{examples}/basalt-four.toml", 50000))
    page = browser.open(sheet_of(program, f"{examples}/basalt-four.toml", folder, "--program", path), 1000)
    wait_until(page, READY)
    assert int(re.match(r"move 0 of (\d+)", page.text(".backplot .figures")).group(1)) >= 50000
    page.click(".backplot button", "▶ play")
    wait_until(page, "Number(document.querySelector('.backplot input[type=range]').value) > 200")
    page.click(".backplot button", "■ stop")
    check_fits(page)


with tempfile.TemporaryDirectory() as made:
    folder = pathlib.Path(made)
    single, four = f"{examples}/basalt-single-lathe.toml", f"{examples}/basalt-four.toml"
    paper = subprocess.run([program, "index", single], check=True, capture_output=True, text=True).stdout
    with Browser(chromium) as browser:
        lathe = sheet_of(program, single, folder)
        for width, touch in ((1440, False), (360, True)):
            steps_at_the_bench(browser, lathe, route_on_paper(paper), width, touch)
        storage_stays_small(browser, lathe)
        page = browser.open(lathe, 1000)
        read_out(page)
        on_paper(page, folder, single)
        whole_plot(browser, sheet_of(program, four, folder), four)
        hostile_names(browser, folder)
        a_long_program(browser, folder)
print("8 passed, 0 failed")
