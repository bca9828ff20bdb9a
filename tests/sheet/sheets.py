"""Sheets of jobs, and a program as long as anybody's, for the tests of this folder."""
import pathlib
import re
import subprocess


def sheet_of(program, job, folder, *options):
    """The path of the job's sheet."""
    sheet = pathlib.Path(folder) / (pathlib.Path(job).stem + ("-given" if options else "") + ".html")
    made = subprocess.run([program, "sheet", job, *options, "-o", sheet], capture_output=True, text=True)
    assert sheet.exists(), made.stderr
    return sheet


def long_program(program, job, blocks):
    """The job's own program with every feed along a lobe in so many parts that it has as many blocks: the same way in the
    same time. Its dialect's feeds are inverse times, so that a part's is as many times the whole's."""
    lines = subprocess.run([program, "cut", job], check=True, capture_output=True, text=True).stdout.splitlines()
    word = lambda line, letter: (lambda found: float(found.group(1)) if found else None)(re.search(letter + r"(-?[\d.]+)", line))
    feeds = {i for i, line in enumerate(lines) if re.match(r"(G1 )?(X\S+ )?(A\S+ )?F", line)}
    parts = blocks // len(feeds) + 1
    place, made = {"X": None, "A": None}, []
    for i, line in enumerate(lines):
        to = {letter: word(line, letter) if not line.startswith(("(", ";")) else None for letter in place}
        to = {letter: place[letter] if value is None else value for letter, value in to.items()}
        if i in feeds and None not in place.values():
            feed, prefix = word(line, "F"), "G1 " if "G1" in line else ""
            for part in range(1, parts + 1):
                at = {letter: place[letter] + (to[letter] - place[letter]) * part / parts for letter in place}
                made.append(f"{prefix}X{at['X']:.4f} A{at['A']:.4f} F{feed * parts:.4f}")
        else:
            made.append(line)
        place = to
    return "\n".join(made) + "\n"
