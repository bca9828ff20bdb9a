#!/usr/bin/env python3
"""Asks axe-core about the desk, every part and every question of it, on a phone and a wide screen, light and dark: desk_accessible.py CHROMIUM PAGE EXAMPLES AXE.

AXE is its one script, which tests/run.sh fetches; without it, or without the page, the test is skipped.
"""
import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import begin, open_job, own_engine, settled, wait_until

chromium, desk, examples, axe = sys.argv[1:]
for wanted, words in ((desk, "the page isn't built; sh tests/page.sh builds it"), (axe, "axe-core isn't here; tests/run.sh fetches it by npm")):
    if not pathlib.Path(wanted).exists():
        print("SKIPPED: " + words)
        sys.exit()
# The sheet in its frame is asked about by a test of its own.
ASK = """axe.run({ exclude: [["iframe"]] }, { iframes: false }).then((told) => told.violations.map((each) =>
    `${each.impact}: ${each.id}: ${each.help}: ${each.nodes.length} times, first ${each.nodes[0].html.slice(0, 200)}: ${each.nodes[0].failureSummary.slice(0, 300)}`))"""
asked, serious = 0, []


def ask(page, where):
    global asked
    if not page.run("'axe' in window"):
        page.run(pathlib.Path(axe).read_text() + ";0")
    for told in page.run(ASK):
        print(f"{where}: {told}")
        if told.startswith(("serious", "critical")):
            serious.append(told)
    asked += 1


def questions(browser, width, dark):
    page = begin(browser, desk, width, dark=dark)
    for card in own_engine(page, page.click):
        ask(page, f"question {card + 1}, {width} px, {'dark' if dark else 'light'}")
    page.close()


def parts(browser, width, dark):
    page = begin(browser, desk, width, dark=dark)
    where = f"{width} px, {'dark' if dark else 'light'}"
    four = (pathlib.Path(examples) / "basalt-four.toml").read_text()
    open_job(page, "basalt-four.toml", four)
    settled(page)
    for tab, there in (("lobes", "svg.lobe"), ("sheet", "iframe.seen"), ("side", ".pair"), ("take", ".take .caution")):
        page.click(f"#tab-{tab}")
        wait_until(page, f"document.querySelector('{there}')")
        ask(page, f"{tab}, {where}")
    open_job(page, "basalt-four.toml", four.replace("flank_radius = 16.0", "flank_radius = 1.0").replace("surface_feed = 110.0", "surface_feed = 11000.0"))
    if width < 1000:
        page.click("#tab-job")
    ask(page, f"things to mend, {where}")
    page.click("button", "as fields")
    ask(page, f"fields, {where}")
    page.run("setTimeout(() => { throw new Error('a wheel came off'); }); new Promise((done) => setTimeout(done, 50))")
    ask(page, f"a mistake, {where}")
    page.close()


with Browser(chromium) as browser:
    for width in (360, 1440):
        for dark in (False, True):
            questions(browser, width, dark)
            parts(browser, width, dark)
assert asked >= 56, asked
assert not serious, f"{len(serious)} serious"
print(f"{asked} passed, 0 failed")
