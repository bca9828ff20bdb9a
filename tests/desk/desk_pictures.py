#!/usr/bin/env python3
"""Pictures of the desk for people to look at: desk_pictures.py CHROMIUM PAGE EXAMPLES FOLDER."""
import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import begin, open_job, own_engine, settled, wait_until

chromium, desk, examples, folder = sys.argv[1:]
pathlib.Path(folder).mkdir(parents=True, exist_ok=True)


def take(page, name):
    page.settle()
    page.pictures(f"{folder}/{name}", 1600)


def parts(browser, width, dark):
    page = begin(browser, desk, width, dark=dark)
    where = f"{width}{'-dark' if dark else ''}"
    four = (pathlib.Path(examples) / "basalt-four.toml").read_text()
    open_job(page, "basalt-four.toml", four)
    settled(page)
    for tab, there in (("lobes", "svg.lobe"), ("sheet", "iframe.seen"), ("side", ".pair"), ("take", ".take .caution")):
        page.click(f"#tab-{tab}")
        wait_until(page, f"document.querySelector('{there}')")
        take(page, f"{where}-{tab}")
    if width < 1000:
        page.click("#tab-job")
    take(page, f"{where}-job")
    open_job(page, "basalt-four.toml", four.replace("flank_radius = 16.0", "flank_radius = 1.0"))
    page.run("new Promise((done) => setTimeout(done, 500))")
    take(page, f"{where}-to-mend")
    page.click("button", "as fields")
    take(page, f"{where}-fields")
    page.close()


with Browser(chromium) as browser:
    for width in (360, 768, 1440):
        for dark in (False, True):
            parts(browser, width, dark)
        page = begin(browser, desk, width)
        for card in own_engine(page, page.click):
            take(page, f"{width}-question-{card + 1}")
        take(page, f"{width}-written")
        page.close()
print(f"pictures in {folder}")
