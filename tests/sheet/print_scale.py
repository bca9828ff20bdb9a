#!/usr/bin/env python3
"""Drawings keep their scale on paper: print_scale.py LOBEWRIGHT CHROMIUM PDFTOCAIRO EXAMPLES

Sheets and drawings are printed by a browser as a person prints who changes nothing, on A4 and Letter (on A3 what is too large for
these, which a browser would shrink), and the check lines of 50 mm and 2 in are measured in the PDF.
"""
import math
import pathlib
import re
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from sheets import sheet_of

program, chromium, to_svg, examples = sys.argv[1:5]
MM = 25.4 / 72  # of a PDF's point
PAPERS = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0), "A3": (11.69, 16.54)}
WORDS = "if the printer keeps to scale"
CLOSE = 0.1  # mm: a ruler shows no more
# cairo's SVG, up to 1.16 with a style, later with attributes.
STROKE = re.compile(r'<path (?:style="fill:none;|fill="none" )[^>]* d="M (\S+) (\S+) L (\S+) (\S+) ?"(?: transform="matrix\(([^)]*)\)")?')
failures = []


def lengths(pdf):
    """mm, of every straight line of the PDF's pages."""
    pages = int(re.search(r"Pages:\s+(\d+)", subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout)[1])
    for page in map(str, range(1, pages + 1)):
        drawn = subprocess.run([to_svg, "-svg", "-f", page, "-l", page, pdf, "-"], check=True, capture_output=True, text=True).stdout
        for x1, y1, x2, y2, matrix in STROKE.findall(drawn):
            a, b, c, d = [float(word) for word in re.split("[ ,]+", matrix)[:4]] if matrix else (1.0, 0.0, 0.0, 1.0)
            x, y = float(x2) - float(x1), float(y2) - float(y1)
            yield MM * math.hypot(a * x + c * y, b * x + d * y)


def drawing(folder, name, *options):
    path = pathlib.Path(folder) / f"{name}.svg"
    subprocess.run([program, "draw", f"{examples}/{name}.toml", *options, "-o", path], check=True, capture_output=True)
    return path


def printed(browser, page, folder, *papers):
    """Its lines as long as they say they are, on those papers."""
    wanted = page.read_text().count(WORDS)
    assert wanted > 0, page
    for paper in papers:
        opened = browser.open(page)
        opened.print(f"{folder}/printed.pdf", *PAPERS[paper])
        opened.close()
        found = list(lengths(f"{folder}/printed.pdf"))
        for length in (50.0, 50.8):
            count = sum(abs(each - length) < CLOSE for each in found)
            if count < wanted:
                near = sorted((each for each in found if each > 20.0), key=lambda each: abs(each - length))[:3]
                failures.append(f"{page.name} on {paper}: {count} of {wanted} lines are {length} mm long; the nearest: {near}")


with tempfile.TemporaryDirectory() as folder, Browser(chromium) as browser:
    for name in ("basalt-four", "basalt-single-lathe"):
        printed(browser, sheet_of(program, f"{examples}/{name}.toml", folder), folder, "A4", "Letter")
    lobe = ("--what", "lobe", "--lobe", "1 inlet")
    printed(browser, drawing(folder, "basalt-four", *lobe), folder, "A4", "Letter")
    printed(browser, drawing(folder, "basalt-four", *lobe, "--scale", "10"), folder, "A3")
    printed(browser, drawing(folder, "basalt-single-lathe", "--what", "wheel"), folder, "A4", "Letter")

print("\n".join(failures) or "every check line is as long as it says")
sys.exit(1 if failures else 0)
