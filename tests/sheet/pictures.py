#!/usr/bin/env python3
"""Makes pictures of the examples' sheets, to be looked at: pictures.py LOBEWRIGHT CHROMIUM EXAMPLES FOLDER.

Screenshots at 360, 768 and 1440 px, light and dark, in pieces of one screen after the other; the steps at the bench and the
program's plot at work; and the sheet as it prints on A4 and Letter. With a last word "speed" it measures instead how many
frames a second a program of 50,000 blocks is played at.
"""
import pathlib
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from sheets import long_program, sheet_of

program, chromium, examples, folder = sys.argv[1:5]
folder = pathlib.Path(folder)
folder.mkdir(parents=True, exist_ok=True)
SLIDE = """(() => { const slider = document.querySelector(".backplot input[type=range]"); if (!slider) return false;
    slider.value = 0.4 * slider.max; slider.dispatchEvent(new Event("input")); return true; })()"""
SETTING = """(() => { const bench = document.querySelector(".bench"); if (!bench) return false;
    const next = [...bench.querySelectorAll("button")].find((each) => each.textContent.startsWith("next"));
    for (let i = 0; i < 200 && !bench.querySelector(".set"); ++i) next.click(); next.click(); next.click(); return true; })()"""
FRAMES = """new Promise((done) => { const seen = []; const look = (now) => { seen.push(now);
    now - seen[0] < 5000 ? requestAnimationFrame(look) : done((1000 * (seen.length - 1)) / (now - seen[0])); };
    requestAnimationFrame(look); })"""


def pictures(browser, sheet):
    name = sheet.stem
    for width in (360, 768, 1440):
        for dark in (False, True):
            page = browser.open(sheet, width, dark=dark, touch=width == 360)
            kind = f"{name}-{width}-{'dark' if dark else 'light'}"
            page.run("new Promise((done) => setTimeout(done, 500))")
            plot, bench = page.run(SLIDE), page.run(SETTING)
            page.pictures(folder / kind)
            if bench:
                page.picture(folder / f"{kind}-bench.png", ".bench")
            if plot:
                page.picture(folder / f"{kind}-plot.png", ".backplot")
            page.close()
    page = browser.open(sheet)
    page.print(folder / f"{name}-a4.pdf", 8.27, 11.69)
    page.print(folder / f"{name}-letter.pdf", 8.5, 11.0)
    page.close()


def speed(browser):
    with tempfile.TemporaryDirectory() as made:
        job, path = f"{examples}/basalt-four.toml", pathlib.Path(made) / "long.ngc"
        path.write_text(long_program(program, job, 50000))
        page = browser.open(sheet_of(program, job, made, "--program", path), 1440)
        page.run("new Promise((done) => { const look = () => /at most/.test(document.querySelector('.backplot .figures').textContent)"
                 " ? done() : setTimeout(look, 50); look(); })")
        print(page.text(".backplot .figures"))
        print(f"standing still {page.run(FRAMES):.1f} frames a second")
        page.click(".backplot button", "▶ play")
        before, frames, after = browser.processor_seconds(), page.run(FRAMES), browser.processor_seconds()
        print(f"played {frames:.1f} frames a second, {1000 * (after - before) / (5 * frames):.1f} ms of processor time each, "
              "over all of the browser's processes")


with Browser(chromium) as browser:
    if sys.argv[-1] == "speed":
        speed(browser)
    else:
        with tempfile.TemporaryDirectory() as made:
            for job in sorted(pathlib.Path(examples).glob("*.toml")):
                pictures(browser, sheet_of(program, job, made))
        print(f"{len(list(folder.iterdir()))} pictures in {folder}")
