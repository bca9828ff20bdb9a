#!/usr/bin/env python3
"""Asks axe-core about sheets, on a phone and a wide screen, light and dark: accessible.py LOBEWRIGHT CHROMIUM EXAMPLES AXE.

AXE is its one script, which tests/run.sh fetches; without it the test is skipped.
"""
import pathlib
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from sheets import sheet_of

program, chromium, examples, axe = sys.argv[1:]
if not pathlib.Path(axe).exists():
    print("SKIPPED: axe-core isn't here; tests/run.sh fetches it by npm")
    sys.exit()
ASK = """axe.run().then((told) => told.violations.map((each) =>
    `${each.impact}: ${each.id}: ${each.help}: ${each.nodes.length} times, first ${each.nodes[0].html.slice(0, 200)}`))"""
OPEN = "for (const folded of document.querySelectorAll('details')) folded.open = true"
asked, serious = 0, []
with tempfile.TemporaryDirectory() as folder, Browser(chromium) as browser:
    for job in sorted(pathlib.Path(examples).glob("*.toml")):
        sheet = sheet_of(program, job, folder)
        for width in (360, 1440):
            for dark in (False, True):
                page = browser.open(sheet, width, dark=dark)
                page.run(OPEN)
                page.run(pathlib.Path(axe).read_text() + ";0")
                for told in page.run(ASK):
                    print(f"{job.stem}, {width} px, {'dark' if dark else 'light'}: {told}")
                    if told.startswith(("serious", "critical")):
                        serious.append(told)
                asked += 1
                page.close()
assert asked >= 12, asked
assert not serious, f"{len(serious)} serious"
print(f"{asked} passed, 0 failed")
