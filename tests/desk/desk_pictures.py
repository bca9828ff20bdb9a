#!/usr/bin/env python3
"""Pictures of the desk for people to look at: desk_pictures.py CHROMIUM PAGE EXAMPLES FOLDER."""
import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import parts_of, questions_of
from page_checks import looks

chromium, desk, examples, folder = sys.argv[1:]
folder = pathlib.Path(folder)
folder.mkdir(parents=True, exist_ok=True)
for old in folder.glob("*.png"):
    old.unlink()


def take(page, name):
    page.settle()
    page.pictures(folder / name, 1600)


with Browser(chromium) as browser:
    for width, dark, look in looks(360, 768, 1440):
        for page, shown in parts_of(browser, desk, examples, width, dark):
            take(page, f"{look}-{shown}")
        if not dark:
            for page, shown in questions_of(browser, desk, width, dark):
                take(page, f"{look}-{shown}")
print(f"{len(list(folder.glob('*.png')))} pictures in {folder}")
