"""Runs, for each change, the tests that may notice it, in order of likelihood, until one does.

A test case that does not run through the changed place can't notice the change: every run tells through which places each of
its cases ran, so that what has been run once is run again only where it may notice. A case that fails is run with no
change, too: only what passes then has noticed something.
"""
import json
import os
import pathlib
import re
import resource
import signal
import subprocess
import tempfile
import time

from likely import likely_files

MOST_PLACES = 4096
LEFT_OUT = "~[controller]"  # in real time, in a whole controller
OWN = {  # a stage's own tests, then those of what is made of it
    "profile": ["test_profile", "test_soundness", "test_fullest", "test_table", "test_compare", "test_inspect", "test_drawing"],
    "toolpath": ["test_toolpath", "test_post", "test_ways", "test_proof"],
    "post": ["test_post", "test_proof", "test_ways", "test_cli"],
    "proof": ["test_proof", "test_ways", "test_cli"],
    "hand": ["test_hand", "test_cli", "test_sheet"],
}
MEMORY = 6 << 30


def test_files(source, build):
    """(program, file) of every file of tests."""
    found = set()
    for entry in json.loads((build / "compile_commands.json").read_text()):
        made = re.search(r"-o tests/\S+/CMakeFiles/(test_\w+)\.dir/(\w+)\.cpp\.o", entry["command"])
        if made and "TEST_CASE" in pathlib.Path(entry["file"]).read_text():
            found.add((made.group(1), pathlib.Path(entry["file"])))
    return sorted(found)


def is_endless(code):
    return code in (None, -signal.SIGPROF, -signal.SIGKILL)


class Hunt:
    """patience: seconds of CPU that a test case may take to be run at all."""

    def __init__(self, out, build, source, patience):
        self.out, self.build, self.patience = out, build, patience
        self.seen = out / "seen"
        self.seen.write_bytes(bytes(MOST_PLACES))
        self.files = test_files(source, build)
        self.store, self.listed = out / "known.json", set()
        # by program and file: by test case: seconds and places, None where not known; and whether it passes with no change
        self.known = json.loads(self.store.read_text()) if self.store.exists() else {}

    def cases_of(self, program, file):
        key = f"{program}/{file.stem}"
        if key not in self.listed:  # anew in each hunt: tests may have been added
            listed = subprocess.run([str(self.out / program), "-#", "--list-test-names-only", f"[#{file.stem}]{LEFT_OUT}"], capture_output=True, text=True)
            before, fresh = self.known.get(key, {}), {"seconds": None, "places": None, "sound": False}
            self.known[key] = {name: before.get(name, dict(fresh)) for name in listed.stdout.splitlines()}
            self.listed.add(key)
        return self.known[key]

    def run(self, program, arguments, number, seconds):
        """Runs a test program with one change: its exit code, None if it did not come to an end, and what its cases did."""
        log = self.out / "log"
        log.write_text("")
        env = dict(os.environ, LOBEWRIGHT_MUTANT=str(number), LOBEWRIGHT_MUTANTS_SEEN=str(self.seen), LOBEWRIGHT_MUTANTS_CASES=str(log))

        def limits():
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            signal.setitimer(signal.ITIMER_PROF, seconds)  # of CPU; it goes on in the program that is started

        with tempfile.TemporaryFile() as output:
            process = subprocess.Popen([str(self.out / program)] + arguments, cwd=self.build, env=env, stdout=output, stderr=output,
                                       stdin=subprocess.DEVNULL, preexec_fn=limits, start_new_session=True)
            try:
                code = process.wait(timeout=60 + 100 * seconds)
            except subprocess.TimeoutExpired:
                code = None
            finally:
                try:
                    os.killpg(process.pid, signal.SIGKILL)
                except ProcessLookupError:
                    pass
                process.wait()
        return code, [line.split("\t") for line in log.read_text(errors="replace").splitlines()]

    def of_names(self, names):
        return [",".join(re.sub(r'([\\,\["])', r"\\\1", name) for name in names)]

    def order(self, place):
        """The files of tests, the likeliest first."""
        own, likely = OWN[place["stage"]], likely_files(place["file"])
        programs = own + sorted({program for program, _ in self.files} - set(own))

        def likelihood(entry):
            program, file = entry
            name = file.stem.removesuffix("_test")
            seconds = [c["seconds"] or 0.5 for c in self.known.get(f"{program}/{file.stem}", {}).values()]
            return likely.index(name) if name in likely else len(likely) + programs.index(program), sum(seconds), file.stem

        return sorted(self.files, key=likelihood)

    def noticed_by(self, number, place, most):
        """The test that notices a change, and how; None if none does of the likeliest files. And the seconds spent."""
        begun = time.monotonic()
        for program, file in self.order(place)[:most]:
            found = self.noticed_in(program, self.cases_of(program, file), number)
            self.store.write_text(json.dumps(self.known))
            if found:
                return found, time.monotonic() - begun
        return None, time.monotonic() - begun

    def noticed_in(self, program, cases, number):
        left = [name for name, c in cases.items() if (c["places"] is None or number in c["places"]) and (c["seconds"] or 0.0) < self.patience]
        while left:
            code, lines = self.run(program, ["--abort"] + self.of_names(left), number, 2.0 * self.patience + self.longest(cases, left))
            self.remember(cases, number, lines)
            begun = [line[0] for line in lines if line[1] == "begins"]
            if code == 0 and set(begun) == set(left):
                return None
            if not begun or code == 0:
                raise SystemExit(f"{program} did not run: {left}")
            how = self.fails_by_itself(program, cases, begun[-1], number, code)
            if how:
                return f"{program}: {begun[-1]} ({how})"
            left = [name for name in left if name not in begun]
        return None

    def longest(self, cases, names):
        return 6.0 * sum(cases[name]["seconds"] or 0.0 for name in names)

    def fails_by_itself(self, program, cases, name, number, code):
        """How a test case fails that was the last to run; None where it doesn't, or fails with no change."""
        if not self.passes_unchanged(program, cases, name):
            return None
        if is_endless(code):  # it may have been the others that took the time
            code, lines = self.run(program, self.of_names([name]), number, self.patience + self.longest(cases, [name]))
            self.remember(cases, number, lines)
        return None if code == 0 else "no end" if is_endless(code) else f"signal {-code}" if code < 0 else "fails"

    def remember(self, cases, number, lines):
        for name, what, seconds, places in lines:
            if what != "ok" or name not in cases:
                continue
            through = [int(p) for p in places.split()]
            case = cases[name]
            if number not in through:
                case.update(seconds=float(seconds), places=through, sound=True)
            elif case["seconds"] is None:
                case["seconds"] = float(seconds)

    def passes_unchanged(self, program, cases, name):
        """Whether a test case that failed, or did not end, passes with no change, and in time."""
        case = cases.get(name)
        if case is None or case["sound"]:
            return case is not None
        code, lines = self.run(program, self.of_names([name]), 0, self.patience)
        self.remember(cases, 0, lines)
        if code != 0:
            case["seconds"] = self.patience  # so that it is not run again
            print(f"not used, for it fails with no change, or takes long: {program}: {name}", flush=True)
        return code == 0
