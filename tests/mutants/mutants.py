#!/usr/bin/env python3
"""Changes places of the source and sees which changes no test notices: see "Tests that notice" in DEVELOPERS.md.

mutants.py compile   picks places by --seed, compiles the copies with all of them, links the test programs
mutants.py link      links the test programs anew, or those named: tests were added
mutants.py hunt      for each change (those that live yet, or those named by number) runs the tests, those of its own file first
mutants.py list      tells what was found
"""
import argparse
import collections
import concurrent.futures
import json
import pathlib
import signal
import sys

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))
import places
from hunt import Hunt
from schemata import Schemata

SOURCE = HERE.parent.parent


def equal_in_effect():
    lines = (HERE / "equal.txt").read_text().splitlines()
    return {tuple(line.split("\t")[:3]) for line in lines if not line.startswith("#")}


def all_places(seed):
    found, equal = [], equal_in_effect()
    for stage in places.STAGES:
        for path in sorted((SOURCE / "src" / stage).rglob("*.cpp")):
            of_file = places.places_of(str(path.relative_to(SOURCE)), path.read_text(), seed)
            found += [p for p in of_file if (p.file, p.what, p.stands) not in equal]
    return sorted(found, key=lambda p: p.rank)


def sample(seed, count):
    """As many of each kind as of another, of each a share more than is wanted: some will not compile."""
    every = all_places(seed)
    return [p for kind in places.KINDS for p in [p for p in every if p.kind == kind][: count // len(places.KINDS) * 5 // 4]]


def compiled(schemata, picked, jobs):
    """Compiles the places file by file, so many files at once; returns those that compile, by number."""
    by_file = collections.defaultdict(list)
    for number, p in enumerate(picked, 1):
        by_file[p.file].append((number, p))
    kept, files = {}, sorted(by_file)
    schemata.headers()
    with concurrent.futures.ThreadPoolExecutor(jobs) as workers:
        for file, good in zip(files, workers.map(lambda f: schemata.compile_what_compiles(f, by_file[f]), files)):
            print(f"{file}: {len(good)} of {len(by_file[file])}", flush=True)
            kept.update(good)
    schemata.archive(files)
    return kept


def first_of_each_kind(kept, count):
    each = count // len(places.KINDS)
    return {n: p for kind in places.KINDS for n, p in [(n, p) for n, p in sorted(kept.items()) if p.kind == kind][:each]}


def compile_all(options, schemata):
    kept = first_of_each_kind(compiled(schemata, sample(options.seed, options.count), options.jobs), options.count)
    fields = ("stage", "file", "line", "kind", "what", "stands")
    write(options, {str(n): {k: getattr(p, k) for k in fields} for n, p in kept.items()})
    link(schemata)


def link(schemata, programs=()):
    schemata.support()
    for program in programs or ["lobewright"] + schemata.test_programs():
        schemata.link(program)


def read(options):
    return json.loads((options.out / "found.json").read_text())


def write(options, found):
    beside = options.out / "found.json.new"  # for those who read it meanwhile
    beside.write_text(json.dumps(found, indent=1))
    beside.replace(options.out / "found.json")


def search(options, hunt):
    found = read(options)
    for number in options.numbers or [n for n, e in found.items() if not e.get("noticed")]:
        entry = found[number]
        by, seconds = hunt.noticed_by(int(number), entry, options.files)
        entry["noticed"] = by
        print(f"{number} {entry['file']}:{entry['line']} {entry['what']}: {by or 'LIVES'} ({seconds:.0f} s)", flush=True)
        write(options, found)


def table(found):
    for number, e in found.items():
        where = f"{e['file'].split('/', 1)[1]}:{e['line']}"
        print(f"{number:>4} {e['kind']:<11} {where}  {e['what']}  [{e['stands']}]  {e.get('noticed') or 'LIVES'}")
    for stage in places.STAGES:
        told = [bool(e.get("noticed")) for e in found.values() if e["stage"] == stage]
        print(f"{stage:<9} noticed {sum(told):>3} of {len(told):>3}")
    print(f"noticed {sum(bool(e.get('noticed')) for e in found.values())} of {len(found)}")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", choices=["compile", "link", "hunt", "list"])
    parser.add_argument("numbers", nargs="*", help="of changes to hunt, or programs to link")
    parser.add_argument("--build", type=pathlib.Path, default=SOURCE / "build")
    parser.add_argument("--files", type=int, help="only so many files of tests, the likeliest")
    parser.add_argument("--patience", type=float, default=60.0, help="seconds that a test case may take to be run at all")
    parser.add_argument("--seed", type=int, default=17)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--jobs", type=int, default=2, help="files that are compiled at once")
    options = parser.parse_args()
    build = options.build.resolve()
    options.out = build / "mutants"
    options.out.mkdir(exist_ok=True)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # which ends the test program that runs, too
    if options.what == "compile":
        compile_all(options, Schemata(SOURCE, build, options.out))
    elif options.what == "link":
        link(Schemata(SOURCE, build, options.out), options.numbers)
    elif options.what == "hunt":
        search(options, Hunt(options.out, build, SOURCE, options.patience))
    table(read(options))


if __name__ == "__main__":
    main()
