#!/usr/bin/env python3
"""A person who never compiles makes a job of a small engine, mends a wrong figure and takes the program away: person.py LOBEWRIGHT CHROMIUM PAGE.

Once at a desk and once on a phone. What the page hands over is held to the bytes of the program on the command line.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import begin, catch_downloads, check_sound, fill, handed, own_engine, press_button, settled, text_of, write
from page_checks import PAGE, check, skip_without, wait_until

program, chromium, desk = sys.argv[1:]
skip_without(desk, PAGE)


def a_question_is_not_passed(page, act):
    """A card that lacks an answer says which, and has the cursor there."""
    fill(page, "exCloses", "", act)
    act("button[type=submit]")
    check("what is asked", page.text(".questions .fault"), "when does it close?")
    check("where", page.run("document.activeElement.name"), "exCloses")
    write(page, "14")


def native(folder, *words):
    return subprocess.run([program, *words], cwd=folder, capture_output=True, text=True)


def wrong_figure_and_cure(page, act, narrow):
    """A lift of ten times too much, told at its line; the figure put right there."""
    if narrow:
        act("#tab-job")
    press_button(page, "as fields", act)
    field = '[data-field="profile.inlet#0/lift"]'
    act(field)
    page.run(f"document.querySelector('{field}').select()")
    write(page, "1.8")
    wait_until(page, "document.querySelector('#state.bad')")
    told = page.text(".complaints li")
    assert re.search(r"blank is 1\.\d+ in across", told), told
    assert "lower base_radius or lift" in told, told
    line = int(re.search(r"line (\d+)", told).group(1))
    act(".complaints button")
    check("in the text, at its line", page.run("document.querySelector('.cm-lineNumbers .cm-activeLineGutter').textContent"), str(line))
    check("the line marked", page.run("document.querySelectorAll('.cm-lintRange-error').length > 0"), True)
    press_button(page, "as fields", act)
    act(field)
    page.run(f"document.querySelector('{field}').select()")
    write(page, "0.18")
    wait_until(page, "document.querySelector('#state.good')")
    press_button(page, "as text", act)


def same_as_the_command(page, act, text):
    """The program that the page hands over is the command's, byte for byte."""
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "basalt-fifty.toml").write_text(text)
        cut, table = native(folder, "cut", "basalt-fifty.toml"), native(folder, "table", "basalt-fifty.toml", "--lobe", "exhaust")
        check("the command's verdict", cut.returncode, 0)
        catch_downloads(page)
        act("#tab-take")
        assert "This work can hurt you" in page.text(".take .caution"), "the cautions stand where the program is offered"
        press_button(page, "the program", act)
        check("the program", handed(page, "basalt-fifty.ngc"), cut.stdout)
        press_button(page, "its lift table", act)
        check("the table", handed(page, "basalt-fifty-exhaust-table.csv"), table.stdout)
        press_button(page, "the job's text", act)
        check("the job", handed(page, "basalt-fifty.toml"), text)
        press_button(page, "the sheet, one page", act)
        check("the sheet", handed(page, "basalt-fifty.html"), native(folder, "sheet", "basalt-fifty.toml").stdout)


def path(browser, width, touch):
    page = begin(browser, desk, width, touch=touch)
    act = page.tap if touch else page.click
    for card in own_engine(page, act):
        check_sound(page)
        if card == 2:
            a_question_is_not_passed(page, act)
    text = text_of(page)
    assert 'title = "Basalt fifty"' in text and 'units = "inch"' in text and "valve_ratio" not in text, text
    if touch:
        act("#tab-lobes")
    check("the way that was asked for", page.text("section .verdict"), "yes")
    wrong_figure_and_cure(page, act, touch)
    settled(page)
    check("as it was", text_of(page), text)
    same_as_the_command(page, act, text)
    act("#tab-sheet")
    wait_until(page, "document.querySelector('iframe.seen')")
    check("the sheet's title", page.run("document.querySelector('iframe.seen').contentDocument.querySelector('h1').textContent"), "Basalt fifty")
    check_sound(page)
    page.reload()
    wait_until(page, "document.getElementById('job-name').textContent === 'basalt-fifty.toml'")
    check("kept", text_of(page), text)
    page.close()


with Browser(chromium) as browser:
    for width, touch in ((1440, False), (360, True)):
        path(browser, width, touch)
print("2 passed, 0 failed")
