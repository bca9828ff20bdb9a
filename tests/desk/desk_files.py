#!/usr/bin/env python3
"""Files at the desk: desk_files.py LOBEWRIGHT CHROMIUM PAGE EXAMPLES.

Another job beside this one, readings and programs beside the job, files that a job reads, files handed over, paper.
"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import catch_downloads, check_sound, desk_with, four_of, handed, open_job, press_button, settled, write
from page_checks import PAGE, check, skip_without, wait_until

program, chromium, desk, examples = sys.argv[1:]
skip_without(desk, PAGE)
four = four_of(examples)


def in_inches(text):
    """A job in millimetres as one in inches."""
    lengths = "blank_diameter|length|clearance|base_radius|lift|flank_radius|face_diameter|z|width|offset|infeed|feed|tool_width|wheel_diameter|swing_over_bed|swing_over_cross_slide"
    text = re.sub(r"\b(" + lengths + r") = ([\d.]+)", lambda found: f"{found.group(1)} = {float(found.group(2)) / 25.4:.9f}", text)
    return text.replace('units = "mm"', 'units = "inch"')


def beside_another_job(browser, folder):
    """The same lobe from a file in the other unit: no difference."""
    text = (pathlib.Path(examples) / "basalt-single-lathe.toml").read_text()
    other = folder / "other.toml"
    other.write_text(in_inches(text))
    page = desk_with(browser, desk, text, name="single.toml")
    page.click("#tab-side")
    page.send("Page.setInterceptFileChooserDialog", enabled=True)
    press_button(page, "open another job …")
    root = page.send("DOM.getDocument")["root"]["nodeId"]
    page.send("DOM.setFileInputFiles", files=[str(other)], nodeId=page.send("DOM.querySelector", nodeId=root, selector="input[type=file]")["nodeId"])
    wait_until(page, "document.querySelector('.legend .second')?.textContent === 'inlet, other.toml'")
    rows = page.run("[...document.querySelectorAll('.pair tbody tr')].map((row) => [...row.cells].map((cell) => cell.textContent))")
    check("its lift", rows[0], ["lift, mm", "2.4", "2.4", rows[0][3]])
    for name, first, second, difference in rows:
        assert abs(float(difference.replace("−", "-"))) <= 1e-6 * max(1.0, abs(float(first.replace("−", "-")))), (name, first, second, difference)
    check("this job is still this job", page.text("#job-name"), "single.toml")
    check_sound(page)
    page.close()


def native_of_four(words, files):
    with tempfile.TemporaryDirectory() as folder:
        for name, text in {"basalt-four.toml": four, **files}.items():
            (pathlib.Path(folder) / name).write_text(text)
        return subprocess.run([program, words[0], "basalt-four.toml", *words[1:]], cwd=folder, capture_output=True, text=True)


def a_second_program(page, readings):
    """What readings say of the lobes, and the refusal to correct a lobe that the job hasn't got, in the command's words."""
    catch_downloads(page)
    press_button(page, "what they say")
    wait_until(page, "document.querySelector('.told.bad')")
    refused = native_of_four(["inspect", "--readings", "measured.csv", "--format", "text"], {"measured.csv": readings})
    assert page.text(".told").split("No file was made. ")[1][:60] in refused.stderr, (page.text(".told"), refused.stderr)
    own = "lobe,cam_angle,reading\n" + "".join(f"1 inlet,{row['cam_angle']},{row['reading'] + 0.01}\n" for row in
        json.loads(native_of_four(["inspect", "--lobe", "1 inlet", "--every", "3", "--json"], {}).stdout)["rows"])
    open_job(page, "measured.csv", own)
    press_button(page, "what they say")
    check("what they say", handed(page, "basalt-four-measured.txt"), native_of_four(["inspect", "--readings", "measured.csv", "--format", "text"], {"measured.csv": own}).stdout)
    page.click(".take .chooser input")
    write(page, "0,02")
    press_button(page, "a second program")
    second = native_of_four(["cut", "--correct", "measured.csv", "--most", "0.02"], {"measured.csv": own})
    check("the command's verdict", second.returncode, 0)
    check("a second program", handed(page, "basalt-four-second.ngc"), second.stdout)


def the_rest_of_a_shaft(page):
    page.run("""(() => { const from = [...document.querySelectorAll('.take select')].find((each) => each.options[0].textContent === 'all lobes');
        from.value = "3 inlet"; from.dispatchEvent(new Event("change")); })()""")
    press_button(page, "the program")
    check("the rest", handed(page, "basalt-four-rest.ngc"), native_of_four(["cut", "--from", "3 inlet"], {}).stdout)


def files_beside(browser, folder):
    single = (pathlib.Path(examples) / "basalt-single-lathe.toml").read_text()
    readings = subprocess.run([program, "inspect", pathlib.Path(examples) / "basalt-single-lathe.toml", "--lobe", "inlet", "--every", "2"], check=True, capture_output=True, text=True).stdout
    columns = [line.split(",") for line in readings.splitlines()]
    named = "lobe," + readings.splitlines()[0] + "\n" + "".join("inlet," + ",".join(row) + "\n" for row in columns[1:])
    page = desk_with(browser, desk, single, name="single.toml")
    page.click("#tab-sheet")
    wait_until(page, "document.querySelector('iframe.seen')")
    inside = "document.querySelector('iframe.seen').contentDocument"
    check("nothing was read yet", page.run(f"{inside}.getElementById('readings')"), None)
    open_job(page, "measured.csv", named)
    wait_until(page, f"{inside} && {inside}.getElementById('readings')")
    cut = subprocess.run([program, "cut", pathlib.Path(examples) / "basalt-four.toml"], check=True, capture_output=True, text=True).stdout
    edited = re.sub(r"X31\.(\d)", r"X30.\1", cut, count=1)
    assert edited != cut
    open_job(page, "basalt-four.toml", four)
    open_job(page, "edited.ngc", edited)
    page.click("#tab-take")
    wait_until(page, "document.querySelectorAll('.beside').length === 2")
    a_second_program(page, named)
    the_rest_of_a_shaft(page)
    page.click('[aria-label="put away measured.csv"]')
    wait_until(page, "document.querySelectorAll('.beside').length === 1")
    page.click("#tab-sheet")
    wait_until(page, f"/edited\\.ngc: .* NOT within/.test({inside}.getElementById('program')?.textContent)")
    check_sound(page)
    page.close()


def a_job_that_reads_a_file(browser):
    """Measured lift beside the job: without the file it is asked for, with it the lobes are there."""
    rows = json.loads(native_of_four(["table", "--lobe", "1 exhaust", "--every", "2", "--json"], {}).stdout)["rows"]
    lift = "cam_angle,lift\n" + "".join(f"{row['cam_angle']},{row['lift']}\n" for row in rows)
    begin_at, end_at = four.index("[profile.exhaust]"), four.index("[follower.tappet]")
    text = four[:begin_at] + '[profile.exhaust]\nshape = "table"\nbase_radius = 6.0\nfile = "traced.csv"\n\n' + four[end_at:]
    page = desk_with(browser, desk, text)
    wait_until(page, "document.querySelector('#state.bad')")
    assert "traced.csv" in page.text(".complaints"), page.text(".complaints")
    open_job(page, "traced.csv", lift)
    wait_until(page, "document.querySelector('#state.good')")
    settled(page)
    check_sound(page)
    page.close()


def each_operation_apart(browser):
    text = (pathlib.Path(examples) / "basalt-single-grinder.toml").read_text()
    page = desk_with(browser, desk, text, name="single.toml")
    settled(page)
    catch_downloads(page)
    page.click("#tab-take")
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "single.toml").write_text(text)
        for operation in ("rough", "grind"):
            press_button(page, f"the program of {operation}")
            cut = subprocess.run([program, "cut", "single.toml", "--operation", operation], cwd=folder, check=True, capture_output=True, text=True).stdout
            check(operation, handed(page, f"single-{operation}.ngc"), cut)
    check_sound(page)
    page.close()


def on_paper(browser, folder):
    page = desk_with(browser, desk, four)
    settled(page)
    page.print(folder / "desk.pdf", 8.27, 11.69)
    reader = shutil.which("pdftotext")
    if not reader:
        return print("pdftotext can't be had here: the print is not read")
    text = subprocess.run([reader, "-layout", folder / "desk.pdf", "-"], check=True, capture_output=True, text=True).stdout
    for wanted in ("How it can be cut", "disc50, parallel to", "[profile.exhaust]", "cusp = 0.005"):
        assert wanted in text, (wanted, text[:2000])
    check("taken off again", page.run("document.getElementById('paper')"), None)
    page.click("#tab-take")
    page.run("document.addEventListener('seen', (event) => { event.target.contentWindow.print = () => { window.printed = event.target.contentDocument.querySelector('h1').textContent; }; }, true)")
    press_button(page, "print the sheet")
    wait_until(page, "window.printed")
    check("the sheet that is printed", page.run("window.printed"), "Basalt four")
    check("it stands in the browser", page.run("JSON.parse(localStorage.getItem('lobewright job')).name"), "basalt-four.toml")
    press_button(page, "don't keep it here")
    check("and no longer", page.run("localStorage.getItem('lobewright job')"), None)
    page.close()


with tempfile.TemporaryDirectory() as made, Browser(chromium) as browser:
    folder = pathlib.Path(made)
    beside_another_job(browser, folder)
    files_beside(browser, folder)
    a_job_that_reads_a_file(browser)
    each_operation_apart(browser)
    on_paper(browser, folder)
print("5 passed, 0 failed")
