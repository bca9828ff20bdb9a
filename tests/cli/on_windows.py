#!/usr/bin/env python3
"""The Windows program under wine: the same bytes as the native one, and files as Windows has them.
on_windows.py NATIVE WINDOWS EXAMPLES PREFIX"""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import zipfile

native, windows, examples, prefix = (pathlib.Path(word).resolve() for word in sys.argv[1:5])
passed, failures = 0, []
environment = dict(os.environ, WINEPREFIX=str(prefix), WINEDEBUG="-all", DISPLAY="", LC_ALL="C.UTF-8",
                   XDG_CONFIG_HOME="/no-such-folder")
environment.pop("LOBEWRIGHT_POSTPROCESSORS", None)


def check(right, what):
    global passed
    if right:
        passed += 1
    else:
        failures.append(what)
        print("FAILED:", what)


def run(program, arguments, folder, stdin=b""):
    command = [str(program)] if program == native else ["wine64", str(program)]
    return subprocess.run(command + arguments, cwd=folder, env=environment, input=stdin, capture_output=True,
                          timeout=600)


def both(arguments, folder, stdin=b""):
    return run(native, arguments, folder, stdin), run(windows, arguments, folder, stdin)


def same(arguments, folder, stdin=b""):
    """Runs both and holds their exit codes and both outputs to each other."""
    here, there = both(arguments, folder, stdin)
    what = " ".join(arguments)
    check(here.returncode == there.returncode, f"{what}: exit code {here.returncode}, on Windows {there.returncode}")
    check(here.stdout == there.stdout, f"{what}: standard output differs")
    check(here.stderr == there.stderr, f"{what}: standard error differs: {there.stderr.decode(errors='replace')}")
    return here, there


def first_lobe(job):
    for line in job.read_text().split("[[lobe]]", 1)[1].splitlines():
        if line.startswith("name"):
            return line.split('"')[1]
    raise ValueError(job)


def every_example(folder):
    for path in sorted(examples.iterdir()):
        if path.suffix in (".toml", ".csv"):
            shutil.copy(path, folder)
    for job in sorted(folder.glob("*.toml")):
        lobe = first_lobe(job)
        same(["check", job.name], folder)
        same(["check", job.name, "--json"], folder)
        same(["table", job.name, "--lobe", lobe, "--every", "0.5"], folder)
        same(["inspect", job.name, "--lobe", lobe, "--every", "5"], folder)
        same(["draw", job.name, "--what", "lobe", "--lobe", lobe], folder)
        same(["draw", job.name, "--what", "shaft", "--format", "dxf"], folder)
        same(["sheet", job.name], folder)
        same(["compare", job.name], folder)
        same(["index", job.name], folder)
        same(["cut", job.name, "--plan"], folder)
        for side, program in (("here", native), ("there", windows)):
            made = folder / side
            made.mkdir(exist_ok=True)
            run(program, ["cut", job.name, "-o", f"{side}/{job.stem}-{{operation}}.ngc"], folder)
            run(program, ["cut", job.name, "-o", f"{side}/{job.stem}.ngc"], folder)
        names = sorted(each.name for each in (folder / "here").iterdir())
        check(names == sorted(each.name for each in (folder / "there").iterdir()), f"{job.name}: other files")
        for name in names:
            texts = [(folder / side / name).read_bytes() for side in ("here", "there")]
            check(texts[0] == texts[1] and texts[0] != b"", f"{name}: another program on Windows")
            if "-" not in name.removeprefix(job.stem):
                same(["prove", job.name, f"here/{name}"], folder)
        shutil.rmtree(folder / "here")
        shutil.rmtree(folder / "there")


def files_of(folder):
    return sorted(each.name for each in folder.iterdir())


def writing(folder):
    shutil.copy(examples / "basalt-four.toml", folder / "job.toml")
    whole = run(native, ["cut", "job.toml"], folder).stdout
    cut = ["cut", "job.toml", "-o", "out.ngc"]
    check(run(windows, cut, folder).returncode == 0, "cut into a new file")
    check((folder / "out.ngc").read_bytes() == whole, "a new file holds the program")
    other = run(windows, cut + ["--post", "iso6983-xzc"], folder)
    check(other.returncode == 0 and (folder / "out.ngc").read_bytes() != whole, "cut over an existing program")
    check(run(windows, cut, folder).returncode == 0 and (folder / "out.ngc").read_bytes() == whole,
          "a second cut over an existing program")
    check(files_of(folder) == ["job.toml", "out.ngc"], "nothing lies beside it")
    check(b"\r" not in run(windows, ["cut", "job.toml"], folder).stdout, "standard output holds no CR")
    piped = run(windows, ["cut", "-"], folder, (folder / "job.toml").read_bytes())
    check(piped.stdout == run(native, ["cut", "-"], folder, (folder / "job.toml").read_bytes()).stdout,
          "the job from standard input")
    crlf = (folder / "job.toml").read_bytes().replace(b"\n", b"\r\n")
    check(run(windows, ["cut", "-"], folder, crlf).stdout == piped.stdout, "a job with CR LF")
    # Refusals, each with the old file as it was.
    (folder / "diary.txt").write_text("dear diary")
    refused = run(windows, ["cut", "job.toml", "-o", "diary.txt"], folder)
    check(refused.returncode == 2 and b"no program of ours" in refused.stderr, "another's file is not written over")
    check((folder / "diary.txt").read_text() == "dear diary", "another's file stays")
    os.chmod(folder / "out.ngc", 0o444)
    protected = run(windows, cut, folder)
    check(protected.returncode == 3 and b"(you may not)" in protected.stderr, "a write-protected file is refused")
    os.chmod(folder / "out.ngc", 0o644)
    for name, reason in ((".", b"it is a folder"), ("absent/out.ngc", b"there is no such file or folder"),
                         ("a?b.ngc", b"no file can have this name")):
        failed = run(windows, ["cut", "job.toml", "-o", name], folder)
        check(failed.returncode == 3 and reason in failed.stderr, f"-o {name}: {failed.stderr!r}")
    check(run(windows, ["check", "job.toml", "-o", "NUL"], folder).returncode == 0, "the device NUL is written to")
    same_name = run(windows, ["check", "job.toml", "-o", "JOB.TOML"], folder)
    # wine's folders know capitals apart, or don't, as it finds them.
    check((folder / "job.toml").read_bytes().startswith(b"#") or same_name.returncode != 0, "the job stays")
    absent = run(windows, ["check", "absent.toml"], folder)
    check(absent.returncode == 3 and absent.stderr == b"absent.toml: can't be read (there is no such file or folder): "
          b"check the name and the folder\n", "an absent job")
    check(run(windows, ["check", "."], folder).returncode == 3, "a folder is no job")
    left = folder / ".out.ngc.lobewright-77-0.part"
    left.write_text("half of it")
    run(windows, cut, folder)
    check(not left.exists(), "what a killed run left is swept")


def killed(folder):
    """Killed at many moments, the old program or the new one, and nothing beside it."""
    shutil.copy(examples / "basalt-four.toml", folder / "job.toml")
    whole = run(native, ["cut", "job.toml"], folder).stdout
    old = run(native, ["cut", "job.toml", "--post", "iso6983-xzc"], folder).stdout
    for i in range(12):
        (folder / "out.ngc").write_bytes(old)
        process = subprocess.Popen(["wine64", str(windows), "cut", "job.toml", "-qo", "out.ngc"], cwd=folder,
                                   env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            process.wait(0.1 * (i + 1))
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
        check((folder / "out.ngc").read_bytes() in (old, whole), f"killed after {0.1 * (i + 1):.1f} s: a torn file")
    run(windows, ["cut", "job.toml", "-qo", "out.ngc"], folder)
    check(files_of(folder) == ["job.toml", "out.ngc"], "killed runs leave nothing for good")


def names(folder):
    far = folder / "Nöckenwelle 轴" / "Кулачок"
    far.mkdir(parents=True)
    shutil.copy(examples / "basalt-four.toml", far / "jöb – 凸轮.toml")
    job, out = "Nöckenwelle 轴/Кулачок/jöb – 凸轮.toml", "Nöckenwelle 轴/прог 程序.ngc"
    here, there = both(["cut", job], folder)
    check(here.stdout == there.stdout and here.stdout != b"", "a job whose name is in many alphabets")
    check(run(windows, ["cut", job, "-o", out], folder).returncode == 0, "an output of such a name")
    check((folder / out).read_bytes() == here.stdout, "what it holds")
    # Names in messages, and files that other files or options name: as they are told here.
    same(["check", job + "x"], folder)
    (folder / "Tagebuch – дневник.txt").write_text("dear diary")
    same(["cut", job, "-o", "Tagebuch – дневник.txt"], folder)
    same(["cut", job, "-o", "nirgends ж/out.ngc"], folder)
    same(["start", "Tagebuch – дневник.txt"], folder)
    (folder / "станок 轴.toml").write_bytes(run(native, ["posts", "--show", "plain-xa"], folder).stdout)
    same(["cut", job, "--post", "./станок 轴.toml"], folder)
    same(["cut", job, "--post", "./нет 轴.toml"], folder)
    shutil.copy(examples / "basalt-four-1-inlet.csv", folder / "Messung ж.csv")
    same(["inspect", job, "--lobe", "1 inlet", "--readings", "Messung ж.csv"], folder)
    same(["inspect", job, "--lobe", "1 inlet", "--readings", "fehlt ж.csv"], folder)
    lobe = run(windows, ["table", job, "--lobe", "Größe 轴"], folder)
    check("Größe 轴".encode() in lobe.stderr, "an argument of such letters in a message")
    deep = folder
    while len(str(deep)) < 400:
        deep = deep / ("a rather long name of a folder " + str(len(str(deep))))
    deep.mkdir(parents=True)
    shutil.copy(examples / "basalt-four.toml", deep / "job.toml")
    path = os.path.relpath(deep, folder)
    check(run(windows, ["cut", f"{path}/job.toml", "-o", f"{path}/out.ngc"], folder).returncode == 0, "a long path")
    check((deep / "out.ngc").read_bytes() == run(native, ["cut", "job.toml"], deep).stdout, "a long path's program")
    check(run(windows, ["cut", f"{path}/job.toml", "-o", f"{path}/out.ngc"], folder).returncode == 0,
          "over an existing file at a long path")
    check(files_of(deep) == ["job.toml", "out.ngc"], "nothing lies beside it at a long path")
    (deep / "out.ngc").write_text("dear diary")
    check(run(windows, ["cut", f"{path}/job.toml", "-o", f"{path}/out.ngc"], folder).returncode == 2,
          "another's file at a long path is not written over")


def posts(folder):
    """The user's own post-processors lie in %APPDATA%."""
    own = subprocess.run(["wine64", "cmd", "/c", "echo %APPDATA%"], cwd=folder, env=environment, capture_output=True)
    place = subprocess.run(["wine64", "winepath", "-u", own.stdout.decode().strip()], env=environment,
                           capture_output=True).stdout.decode().strip()
    posts = pathlib.Path(place) / "lobewright" / "postprocessors"
    posts.mkdir(parents=True, exist_ok=True)
    text = run(native, ["posts", "--show", "plain-xa"], folder).stdout
    (posts / "my-own.toml").write_bytes(text)
    (posts / "мой станок 轴.toml").write_bytes(text)
    for name in ("my-own", "мой станок 轴"):
        check(run(windows, ["posts", "--show", name], folder).stdout == text, f"a post of the user's own: {name}")
        check(name.encode() in run(windows, ["posts"], folder).stdout, f"{name} is listed")
    shutil.rmtree(posts.parent)


def packed():
    archives = list(windows.parent.glob("lobewright-*.zip"))
    check(len(archives) == 1, f"one zip: {archives}")
    for archive in archives:
        with zipfile.ZipFile(archive) as contents:
            programs = [name for name in contents.namelist() if name.endswith("/bin/lobewright.exe")]
            check(len(programs) == 1, "the program in the zip")
            with tempfile.TemporaryDirectory() as folder:
                contents.extractall(folder)
                version = run(pathlib.Path(folder) / programs[0], ["--version"], folder)
                check(version.returncode == 0 and b"lobewright" in version.stdout, "the program of the zip runs")


# Its server first, and to stay: else wine's own words as it starts would be taken for the program's.
subprocess.run(["wineserver", "-p"], env=environment)
subprocess.run(["wine64", "cmd", "/c", "exit"], env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
for part in (every_example, writing, names, posts, killed):
    with tempfile.TemporaryDirectory() as name:
        part(pathlib.Path(name))
packed()
subprocess.run(["wineserver", "-k"], env=environment)
print(f"{passed} passed, {len(failures)} failed")
sys.exit(1 if failures else 0)
