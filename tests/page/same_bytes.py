#!/usr/bin/env python3
"""The page gives the program's own bytes: same_bytes.py PAGE LOBEWRIGHT CHROMIUM EXAMPLES RANDOM_JOBS.

Each command runs as the built program in a folder, and as window.lobewright.run in a browser with the folder's texts:
exit code, both outputs and every file written must be the same.
"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from page_checks import PAGE, skip_without

page_file, program, chromium, examples, random_jobs = sys.argv[1:]
program = pathlib.Path(program).resolve()
skip_without(page_file, PAGE)

JOBS = 100
# Nobody has post-processors of his own in a page.
HOME = {name: value for name, value in os.environ.items() if name not in ("HOME", "XDG_CONFIG_HOME", "LOBEWRIGHT_POSTPROCESSORS")}


def texts_in(folder):
    return {str(path.relative_to(folder)): path.read_bytes().decode() for path in pathlib.Path(folder).rglob("*") if path.is_file()}


def by_program(words, texts):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in texts.items():
            path = pathlib.Path(folder, name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())
        run = subprocess.run([program, *words], cwd=folder, env=HOME, capture_output=True, stdin=subprocess.DEVNULL)
        left = {name: text for name, text in texts_in(folder).items() if texts.get(name) != text}
    return {"code": run.returncode, "out": run.stdout.decode(), "err": run.stderr.decode(), "files": left}


def by_page(page, words, texts):
    return page.run(f"lobewright.run({json.dumps(words)}, {json.dumps(texts)})")


def compare(page, words, texts):
    wanted, found = by_program(words, texts), by_page(page, words, texts)
    for part in ("code", "err", "out", "files"):
        assert found[part] == wanted[part], f"lobewright {' '.join(words)}: {part} is\n{found[part]}\nnot\n{wanted[part]}"
    return wanted


def names(job, table):
    """The names of a job's lobes, hand methods and so on, as far as a test of ours writes them."""
    pattern = r"^\[\[lobe\]\]\s*\nname = \"([^\"]+)\"" if table == "lobe" else rf"^\[{table}\.([\w-]+)\]"
    return re.findall(pattern, job, re.MULTILINE)


def commands_on(job):
    """What is asked of every job; its file is job.toml."""
    lobes, methods = names(job, "lobe"), names(job, "hand")
    yield ["check", "job.toml", "--json"]
    yield ["table", "job.toml", "--lobe", lobes[0], "--every", "2", "--format", "csv"]
    for method in methods:
        yield ["index", "job.toml", "--method", method, "--format", "csv"]
    for what in ("shaft", "lobe"):
        yield ["draw", "job.toml", "--what", what, "--lobe", lobes[-1]]
    yield ["cut", "job.toml", "-o", "job-{operation}.ngc" if "[[operation]]" in job else "job.ngc"]


def more_on(job):
    """What is asked of the examples besides."""
    lobes, methods = names(job, "lobe"), names(job, "hand")
    yield from (["check", "job.toml"], ["compare", "job.toml"], ["sheet", "job.toml", "-o", "job.html"])
    yield from (["cut", "job.toml", "--plan"], ["cut", "job.toml", "--plan", "--json"])
    for lobe in lobes:
        for form in ("csv", "json", "markdown"):
            yield ["table", "job.toml", "--lobe", lobe, "--format", form]
        yield ["inspect", "job.toml", "--lobe", lobe, "--every", "5"]
        for what in ("lobe", "motion"):
            yield ["draw", "job.toml", "--what", what, "--lobe", lobe, "--format", "dxf"]
    for method in methods:
        for form in ("json", "markdown"):
            yield ["index", "job.toml", "--method", method, "--format", form]


def without_a_job():
    yield from (["help"], ["help", "cut"], ["posts"], ["posts", "--json"], ["posts", "--show", "rs274ngc-xza"], ["no-such"])
    for purpose in ("offset-fixture", "dividing-head", "rotary-mill", "lathe-c"):
        yield ["start", "new.toml", "--for", purpose]
    yield from (["check", "nowhere.toml"], ["check", "nowhere.toml", "--json"], [])


def check_job(page, job, commands):
    texts = {"job.toml": job}
    for words in commands:
        made = compare(page, words, texts)
        if words[0] == "cut" and made["files"] and "[[operation]]" not in job:
            compare(page, ["prove", "job.toml", "job.ngc"], texts | made["files"])


with Browser(chromium) as browser, tempfile.TemporaryDirectory() as folder:
    page = browser.open(page_file)
    for words in without_a_job():
        compare(page, words, {})
    for path in sorted(pathlib.Path(examples).glob("*.toml")):
        job = path.read_text()
        check_job(page, job, [*commands_on(job), *more_on(job)])
    subprocess.run([random_jobs, folder, str(JOBS)], check=True)
    for path in sorted(pathlib.Path(folder).glob("*.toml")):
        job = path.read_text()
        try:
            check_job(page, job, commands_on(job) if path.stem.startswith("fair") else [["check", "job.toml", "--json"], ["check", "job.toml"]])
        except AssertionError:
            print(f"{path.stem}\n{job}", file=sys.stderr)
            raise
    assert not page.faults, page.faults
    print(f"{JOBS} random jobs, as many hostile ones and every example: the same bytes")
