#!/usr/bin/env python3
"""Asks axe-core about the desk, every part and every question of it, on a phone and a wide screen, light and dark: desk_accessible.py CHROMIUM PAGE EXAMPLES AXE.

AXE is its one script, which tests/run.sh fetches; without it, or without the page, the test is skipped.
"""
import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import parts_of, questions_of
import page_checks

chromium, desk, examples, script = sys.argv[1:]
page_checks.skip_without(desk, page_checks.PAGE)
page_checks.skip_without(script, page_checks.AXE)
axe = page_checks.Axe(script)
with Browser(chromium) as browser:
    for width, dark, look in page_checks.looks(360, 1440):
        for page, shown in questions_of(browser, desk, width, dark):
            axe.ask(page, f"{look}-{shown}")
        for page, shown in parts_of(browser, desk, examples, width, dark):
            axe.ask(page, f"{look}-{shown}")
axe.end(4 * (8 + 12))
