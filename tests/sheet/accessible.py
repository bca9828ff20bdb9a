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
import page_checks
from sheets import sheet_of

program, chromium, examples, script = sys.argv[1:]
page_checks.skip_without(script, page_checks.AXE)
OPEN = "for (const folded of document.querySelectorAll('details')) folded.open = true"
axe = page_checks.Axe(script)
with tempfile.TemporaryDirectory() as folder, Browser(chromium) as browser:
    for job in sorted(pathlib.Path(examples).glob("*.toml")):
        sheet = sheet_of(program, job, folder)
        for width, dark, look in page_checks.looks(360, 1440):
            page = browser.open(sheet, width, dark=dark)
            page.run(OPEN)
            axe.ask(page, f"{job.stem}, {look}")
            page.close()
axe.end(12)
