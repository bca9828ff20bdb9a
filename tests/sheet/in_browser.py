#!/usr/bin/env python3
"""Opens sheets in a real browser and works them as a person would: in_browser.py LOBEWRIGHT CHROMIUM EXAMPLES.

Each page gets a script of this test's own at its end, which clicks, slides and presses keys, and leaves what it saw in
the document's title. Whatever goes wrong on a page is told there, too.
"""
import html
import json
import pathlib
import re
import subprocess
import sys
import tempfile

program, chromium, examples = sys.argv[1:]
WATCH = "<script>window.faults=[];addEventListener('error',e=>faults.push(String(e.message)));" \
        "addEventListener('securitypolicyviolation',e=>faults.push('asks for '+e.blockedURI));</script>"
FIRST = """
const bench = document.querySelector('.bench');
const words = () => bench.querySelector('.step').firstChild.textContent;
const button = (name) => [...bench.querySelectorAll('button')].find((b) => b.textContent === name);
seen.begins = words();
button('done').click(); button('done').click();
seen.afterTwo = words();
bench.firstChild.dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowLeft', bubbles: true}));
seen.afterLeft = words();
seen.ticked = bench.querySelector('.done').textContent;
window.confirm = () => false; button('start over').click(); seen.kept = words();
const readout = document.querySelector('.readout'), slider = readout.querySelector('input');
slider.value = 0; slider.dispatchEvent(new Event('input')); seen.peak = readout.querySelector('.figures').textContent;
readout.querySelector('canvas').dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowRight', bubbles: true}));
seen.moved = slider.value;
seen.wide = document.documentElement.scrollWidth <= innerWidth;
"""
AGAIN = """
seen.remembered = document.querySelector('.bench .step').firstChild.textContent;
const bench = document.querySelector('.bench');
window.confirm = () => true;
[...bench.querySelectorAll('button')].find((b) => b.textContent === 'start over').click();
seen.over = bench.querySelector('.step').firstChild.textContent;
"""
PLOT = """
const plot = document.querySelector('.backplot'), slider = plot.querySelector('input[type=range]');
slider.value = slider.max; slider.dispatchEvent(new Event('input'));
seen.last = plot.querySelector('.figures').textContent;
const wanted = plot.querySelector('input[type=number]');
wanted.value = 100; [...plot.querySelectorAll('button')].find((b) => b.textContent === 'to line').click();
seen.line = plot.querySelector('.line').textContent;
const canvas = plot.querySelector('canvas'), pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
seen.drawn = pixels.some((value, i) => i % 4 === 3 && value > 0);
seen.sections = [...document.querySelectorAll('section')].map((s) => s.id);
"""


def opened(page, script, folder, width=1000):
    text = page.read_text().replace("<body>", "<body>" + WATCH, 1)
    script = "<script>addEventListener('load',()=>setTimeout(()=>{const seen={};try{" + script + \
        "}catch(e){faults.push(String(e))}seen.faults=faults;document.title='seen'+JSON.stringify(seen);},200));</script>"
    copy = folder / ("with-test-" + page.name)
    copy.write_text(text.replace("</body>", script + "</body>"))
    dumped = subprocess.run(
        [chromium, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder}/profile",
         f"--window-size={width},900", "--virtual-time-budget=5000", "--dump-dom", copy.as_uri()],
        capture_output=True, text=True, timeout=120).stdout
    title = html.unescape(re.search(r"<title>(.*?)</title>", dumped, re.S).group(1))
    assert title.startswith("seen"), title
    seen = json.loads(title[4:])
    assert seen["faults"] == [], seen["faults"]
    return seen


def check(name, found, wanted):
    assert found == wanted, f"{name}: {found!r}, not {wanted!r}"


with tempfile.TemporaryDirectory() as made:
    folder = pathlib.Path(made)
    for name in ("basalt-single-lathe", "basalt-four"):
        subprocess.run([program, "sheet", f"{examples}/{name}.toml", "-o", f"{folder}/{name}.html"], check=True)
    lathe = folder / "basalt-single-lathe.html"
    for width in (1440, 360):
        seen = opened(lathe, FIRST, folder, width)
        count = int(re.match(r"step 1 of (\d+), 0 done", seen["begins"]).group(1))
        check("after two are done", seen["afterTwo"], f"step 3 of {count}, 2 done")
        check("one back", seen["afterLeft"], f"step 2 of {count}, 2 done")
        check("its tick", seen["ticked"], "✓ done")
        check("not started over without a yes", seen["kept"], f"step 2 of {count}, 2 done")
        assert "lift 2.400 mm" in seen["peak"], seen["peak"]  # the lift that the example asks for
        check("one degree on by key", seen["moved"], "1")
        check("nothing wider than the screen", seen["wide"], True)
        seen = opened(lathe, AGAIN, folder, width)
        check("remembered", seen["remembered"], f"step 2 of {count}, 2 done")
        check("started over", seen["over"], f"step 1 of {count}, 0 done")
    seen = opened(folder / "basalt-four.html", PLOT, folder)
    text = subprocess.run([program, "cut", f"{examples}/basalt-four.toml"], check=True, capture_output=True, text=True).stdout
    check("the line jumped to", seen["line"].split(maxsplit=1)[1], text.splitlines()[int(seen["line"].split()[0]) - 1].strip())
    assert int(seen["line"].split()[0]) >= 100, seen["line"]
    assert re.match(r"move (\d+) of \1,", seen["last"]), seen["last"]
    check("something is drawn", seen["drawn"], True)
    check("sections", seen["sections"][:6], ["shaft", "timing", "ways", "lobes", "by-hand", "program"])
print("5 passed, 0 failed")
