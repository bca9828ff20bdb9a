"""Compiles the changed copies of the source, once for all changes, and links the test programs with them.

Every command is the build's own (compile_commands.json, ninja -t commands), with less optimisation and the library's checks
of the standard containers; what is not changed comes from the build as it is.
"""
import json
import pathlib
import re
import shlex
import shutil
import subprocess

import places

HERE = pathlib.Path(__file__).resolve().parent


class Schemata:
    def __init__(self, source, build, out):
        self.source, self.build, self.out = source, build, out
        self.commands = {e["file"]: shlex.split(e["command"]) for e in json.loads((build / "compile_commands.json").read_text())}
        self.objects = out / "objects"
        self.objects.mkdir(parents=True, exist_ok=True)

    def run(self, command):
        return subprocess.run(command, cwd=self.build, capture_output=True, text=True)

    def must(self, command):
        done = self.run(command)
        if done.returncode != 0:
            raise SystemExit(f"{shlex.join(command)}\n{done.stdout}{done.stderr}")
        return done.stdout

    def flags_of(self, file):
        """The build's flags for a file, without input, output, warnings and what was compiled beforehand."""
        words, kept, skip = self.commands[str(file)], [], 0
        for i, word in enumerate(words):
            if skip:
                skip -= 1
            elif word in ("-o", "-c", "-include"):
                skip = 1
            elif not re.match(r"-W|-O\d|--?ccache", word):
                kept.append(word)
        return kept + ["-O1", "-w", "-Werror=vla", "-D_GLIBCXX_ASSERTIONS", f"-I{HERE}"]

    def headers(self):
        """What the library's sources expect to have been read before them, read once."""
        known = self.build / "CMakeFiles/lobewright.dir/cmake_pch.hxx"
        if not known.exists():
            return []
        ours = self.out / "headers.h"
        if not (self.out / "headers.h.gch").exists():
            shutil.copy(known, ours)
            some = next(f for f in self.commands if f.startswith(f"{self.source}/src/profile/"))
            self.must(self.flags_of(some) + ["-x", "c++-header", str(ours), "-o", f"{ours}.gch"])
        return ["-include", str(ours)]

    def object_of(self, file):
        return self.objects / (pathlib.Path(file).name + ".o")

    def compile(self, file, numbered):
        """Compiles a file with these places; returns the compiler's complaints."""
        text = (self.source / file).read_text()
        copy = self.out / "tree" / file
        changed = f'#include "switches.h"\n#line 1 "{copy}"\n' + places.with_switches(text, numbered)
        if self.object_of(file).exists() and copy.exists() and copy.read_text() == changed:
            return ""  # of a run before
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_text(changed)
        self.object_of(file).unlink(missing_ok=True)
        done = self.run(self.flags_of(self.source / file) + self.headers() + ["-c", str(copy), "-o", str(self.object_of(file))])
        return done.stderr if done.returncode != 0 else ""

    def compile_what_compiles(self, file, numbered):
        """Places that do not compile are left out; returns the others."""
        while True:
            complaints = self.compile(file, numbered)
            if not complaints:
                return numbered
            named = {int(line) for line in re.findall(re.escape(str(self.out / "tree" / file)) + r":(\d+):", complaints)}
            left = [(n, p) for n, p in numbered if not any(p.line <= line <= p.line + 1 for line in named)]
            if len(left) == len(numbered):  # the complaint is about another line: one at a time
                left = [(n, p) for n, p in numbered if not self.compile(file, [(n, p)])]
            numbered = left

    def with_flags(self, source, flags, name):
        made = self.objects / name
        self.must(flags + ["-c", str(source), "-o", str(made)])
        return made

    def archive(self, files):
        """The build's library with the changed files in the place of its own."""
        ours = self.out / "liblobewright.a"
        shutil.copy(self.build / "liblobewright.a", ours)
        some = next(f for f in self.commands if f.startswith(f"{self.source}/src/profile/"))
        switches = self.with_flags(HERE / "switches.cpp", self.flags_of(some), "switches.cpp.o")
        self.must(["ar", "r", str(ours), str(switches)] + [str(self.object_of(f)) for f in files])

    def support(self):
        """The tests' kit, which knows where the command is."""
        file = self.source / "tests/support/program.cpp"
        flags = [re.sub(r'(?<=LOBEWRIGHT_PROGRAM=").*(?=")', str(self.out / "lobewright"), word) for word in self.flags_of(file)]
        made = self.with_flags(file, flags, "program.cpp.o")
        ours = self.out / "libtest_support.a"
        shutil.copy(self.build / "tests/libtest_support.a", ours)
        self.must(["ar", "r", str(ours), str(made)])
        self.with_flags(HERE / "seen_listener.cpp", self.flags_of(self.source / "tests/support/headers.cpp"), "seen_listener.cpp.o")

    def newer_tests(self, command):
        """Tests that changed since the build are compiled here; so are those of random cases, as for a slow build, which
        tries fewer (tests/support/trials.h)."""
        by_object = {words[words.index("-o") + 1]: pathlib.Path(file) for file, words in self.commands.items() if "-o" in words}
        for i, word in enumerate(command):
            file = by_object.get(word)
            if not file or "/tests/" not in str(file):
                continue
            changed = file.stat().st_mtime > (self.build / word).stat().st_mtime
            if changed or '"trials.h"' in file.read_text():
                made = self.objects / (file.name + ".o")
                if not made.exists() or made.stat().st_mtime < file.stat().st_mtime:
                    self.with_flags(file, self.flags_of(file) + ["-UNDEBUG", "-include", str(self.source / "tests/support/catch.h")], made.name)
                command[i] = str(made)

    def link(self, target):
        last = self.must(["ninja", "-t", "commands", target]).strip().splitlines()[-1]
        command = [word for word in shlex.split(last) if word not in (":", "&&")]
        ours = {"liblobewright.a": self.out / "liblobewright.a", "tests/libtest_support.a": self.out / "libtest_support.a"}
        command = [str(ours.get(word, word)) for word in command]
        command[command.index("-o") + 1] = str(self.out / target)
        if target.startswith("test_"):
            self.newer_tests(command)
            command.insert(command.index("-o"), str(self.objects / "seen_listener.cpp.o"))
        self.must(command + [str(self.out / "liblobewright.a")])

    def test_programs(self):
        targets = self.must(["ninja", "-t", "targets", "all"])
        return sorted(set(re.findall(r"^(test_(?!support|headers)\w+): CXX_EXECUTABLE", targets, re.M)))
