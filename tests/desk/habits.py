#!/usr/bin/env python3
"""What a desk must bear: habits.py LOBEWRIGHT CHROMIUM PAGE EXAMPLES.

Fields and text that say the same, help and completion, work without storage and without a mouse, mistakes told in words.
"""
import json
import pathlib
import re
import subprocess
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from browser import Browser
from desk_work import begin, catch_downloads, check_sound, desk_with, field, four_of, handed, key, open_job, press_button, settled, tab_to, text_of, write
from page_checks import PAGE, check, skip_without, wait_until

program, chromium, desk, examples = sys.argv[1:]
skip_without(desk, PAGE)
four = four_of(examples)
FULLEST = """[profile.exhaust]
shape = "fullest"
base_radius = 6.0
lift = 2.2
follower = "tappet"
limits = { velocity = 0.075, acceleration = 0.0045, deceleration = 0.0022, jerk = 0.0008, smallest_radius = 1.5 }

"""
KEPT_OUT = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('not here', 'SecurityError'); } })"


def lines_changed(before, after):
    a, b = before.splitlines(), after.splitlines()
    check("as many lines", len(b), len(a))
    return [(old, new) for old, new in zip(a, b) if old != new]


def fields_and_text_say_the_same(browser):
    page = desk_with(browser, desk, four)
    settled(page)
    press_button(page, "as fields")
    field(page, "profile.inlet#0/base_radius", "6,25")
    field(page, "engine#0/inlet.clearance", "0.12")
    check("two figures, and nothing else", lines_changed(four, text_of(page)), [
        ("inlet = { opens_before_tdc = 14, closes_after_bdc = 46, clearance = 0.10 }", "inlet = { opens_before_tdc = 14, closes_after_bdc = 46, clearance = 0.12 }"),
        ("base_radius = 6.0", "base_radius = 6.25")])
    page.run("""(() => { const add = document.querySelector('[aria-label="key to add to [profile.inlet]"]'); add.value = "nose_radius"; add.dispatchEvent(new Event("change")); })()""")
    check("the new field has the keys", page.run("document.activeElement.dataset.field"), "profile.inlet#0/nose_radius")
    write(page, "2.5")
    assert "flank_radius = 16.0\nnose_radius = 2.5\n" in text_of(page)
    page.click('[aria-label="take out flank_radius"]')
    assert "flank_radius = 16.0" not in text_of(page)
    lobes = page.run("[...document.querySelectorAll('.card summary code')].filter((each) => each.textContent === '[[lobe]]').length")
    page.run("[...document.querySelectorAll('.card button')].filter((each) => each.textContent === 'another like it').pop().click()")
    again = re.search(r'\[\[lobe\]\]\nname = "4 exhaust again"\n(.*?)\n\n', text_of(page), re.S)
    check("as far behind it as that is behind the one before", again and again.group(1).splitlines()[-2:], ["z = 142", "width = 6.0"])
    check("one lobe more", page.run("[...document.querySelectorAll('.card summary code')].filter((each) => each.textContent === '[[lobe]]').length"), lobes + 1)
    open_job(page, "basalt-four.toml", four.replace("lift = 2.2 ", "lift = 2.3 "))
    wait_until(page, "document.querySelector('[data-field=\"profile.exhaust#0/lift\"]').value === '2.3'")
    check_sound(page)
    page.close()


def help_and_completion(browser):
    page = desk_with(browser, desk, four + "\n[follower.other]\nkind = \"roller\"\n")
    wait_until(page, "document.querySelector('#state.bad')")
    page.click(".complaints button")
    key(page, "End", modifiers=2)
    write(page, "of")
    wait_until(page, "document.querySelector('.cm-tooltip-autocomplete')")
    check("a roller's keys, none of a flat one's", page.run("[...document.querySelectorAll('.cm-completionLabel')].map((each) => each.textContent)"), ["offset"])
    wait_until(page, "document.querySelector('.cm-completionInfo')")
    assert "sideways, of its line from the shaft's axis" in page.text(".cm-completionInfo")
    page.run("new Promise((done) => setTimeout(done, 150))")  # the list takes no key in its first moment
    key(page, "Enter")
    write(page, "0.5\nvalve_ratio = 1.2\n[[lobe]]\nfollower = ")
    write(page, '"')
    wait_until(page, "document.querySelector('.cm-tooltip-autocomplete')")
    check("the names that there are", page.run("[...document.querySelectorAll('.cm-completionLabel')].map((each) => each.textContent)"), ['"other"', '"tappet"'])
    key(page, "Escape")
    assert "offset = 0.5\n" in text_of(page)
    open_job(page, "basalt-four.toml", four)
    settled(page)
    x, y, _, _ = page.place_of(".cm-line", "turns = \"ccw\"               # way it runs, seen from the drive end; \"cw\" is the other one")
    page.send("Input.dispatchMouseEvent", type="mouseMoved", x=x + 25, y=y + 8)
    wait_until(page, "document.querySelector('.cm-tooltip-hover')")
    assert "running direction" in page.text(".cm-tooltip-hover"), page.text(".cm-tooltip-hover")
    page.click(".cm-line", "blank_diameter = 17.0       # of the bar before cutting: the highest lobe needs 2 x 8.4 mm", across=0.1, down=0.2)
    wait_until(page, "document.querySelector('.key-here').textContent.includes('stock over the lobes before cutting')")
    check_sound(page)
    page.close()


def judged_while_typing(browser):
    """Eight lobes: how long after a key the lobe and its complaints stand there; printed, as time is no test."""
    limited = four[:four.index("[profile.exhaust]")] + FULLEST + four[four.index("[follower.tappet]"):]
    for words, text in (("arcs and a law", four), ("arcs and limits", limited)):
        page = desk_with(browser, desk, text)
        settled(page)
        page.run("window.took = []; document.addEventListener('judged', (event) => window.took.push(event.detail.milliseconds))")
        press_button(page, "as fields")
        for figure in ("2.41", "2.42", "2.43", "2.44", "2.45", "2.40"):
            count = page.run("window.took.length")
            field(page, "profile.inlet#0/lift", figure)
            wait_until(page, f"window.took.length > {count}")
            settled(page)
        took = page.run("window.took")
        print(f"{words}: judged again within {sorted(took)[len(took) // 2]:.0f} ms of a key, at most {max(took):.0f}")
        page.reload()
        settled(page)
        first = page.run("performance.getEntriesByName('first judged')[0].startTime")
        print(f"a kept job stands there {first:.0f} ms after the page is called")
        check("each way has its verdict", page.run("[...document.querySelectorAll('section .verdict')].map((each) => each.textContent)"), ["yes", "yes"])
        check_sound(page)
        page.close()


def the_sheet_follows(browser):
    """The sheet's own scripts work in its frame; a change of the job changes it, and leaves it where it was left."""
    page = desk_with(browser, desk, four)
    page.click("#tab-sheet")
    inside = "document.querySelector('iframe.seen')?.contentDocument"
    wait_until(page, f"/at most/.test({inside}?.querySelector('.backplot .figures')?.textContent)", 40)
    page.run(f"((slider) => {{ slider.value = 30; slider.dispatchEvent(new Event('input')); }})({inside}.querySelector('.readout input'))")
    before = page.run(f"{inside}.querySelector('.readout .figures').textContent")
    page.run("(() => { const frame = document.querySelector('iframe.seen').contentWindow; frame.scrollTo(0, frame.document.getElementById('program').offsetTop + 40); window.old = document.querySelector('iframe.seen'); })()")
    press_button(page, "as fields")
    field(page, "profile.exhaust#0/lift", "2.25")
    wait_until(page, "document.querySelector('iframe.seen') && document.querySelector('iframe.seen') !== window.old", 40)
    check("where it was left", page.run("(() => { const frame = document.querySelector('iframe.seen').contentWindow; return Math.abs(frame.scrollY - frame.document.getElementById('program').offsetTop - 40) < 2; })()"), True)
    after = page.run(f"{inside}.querySelector('.readout .figures').textContent")
    assert before.startswith("cam angle 30.0°: lift ") and after.startswith("cam angle 30.0°: lift ") and before != after, (before, after)
    check_sound(page)
    page.close()


def without_storage(browser):
    page = browser.open(desk, 360)
    page.send("Page.addScriptToEvaluateOnNewDocument", source=KEPT_OUT)
    page.reload()
    wait_until(page, "'ready' in document.body.dataset")
    open_job(page, "basalt-four.toml", four)
    settled(page)
    wait_until(page, "document.getElementById('kept').textContent.includes('keeps nothing')")
    page.click("#tab-sheet")
    wait_until(page, "document.querySelector('iframe.seen')")
    press_button(page, "whole screen")
    page.settle()
    page.answer_dialogs(True)  # the browser asks before such a job is left
    check("as large as the screen", page.run("(() => { const box = document.querySelector('.sheet').getBoundingClientRect(); return [box.width, box.height]; })()"), page.run("[innerWidth, innerHeight]"))
    press_button(page, "back to the desk")
    check_sound(page)
    page.close()


def mistakes_in_words(browser):
    page = desk_with(browser, desk, four)
    settled(page)
    catch_downloads(page)
    page.run("setTimeout(() => { throw new Error('a wheel came off'); }); new Promise((done) => setTimeout(done, 50))")
    assert "a wheel came off" in page.text("#fault") and "Your job is untouched" in page.text("#fault"), page.text("#fault")
    press_button(page, "save the job")
    check("the job, saved", handed(page, "basalt-four.toml"), four)
    press_button(page, "go on")
    check("out of the way", page.run("document.getElementById('fault').hidden"), True)
    page.run("window.whole = window.lobewright; window.lobewright = { run: async () => ({ code: 70, out: '', err: 'lobewright: stopped by a bug of ours (test)', files: {} }) }")
    open_job(page, "basalt-four.toml", four + "\n", judged=False)
    wait_until(page, "!document.getElementById('fault').hidden")
    assert "stopped by a bug of ours (test)" in page.text("#fault"), page.text("#fault")
    page.run("window.lobewright = window.whole")
    check("only the one that was thrown here", [each for each in page.faults if "a wheel came off" not in each], [])
    page.close()


def wrong_with_a_lobe(browser):
    """A lobe that can be made and doesn't suit its follower: told at the lobe, and above all."""
    page = desk_with(browser, desk, four.replace("face_diameter = 12.0", "face_diameter = 9.5"))
    settled(page)
    wait_until(page, "document.querySelector('#state.bad')")
    report = json.loads(subprocess.run([program, "check", "-", "--json"], input=four.replace("face_diameter = 12.0", "face_diameter = 9.5"), capture_output=True, text=True).stdout)
    wrong = [each for each in report["findings"] if each["severity"] == "error" and not each["way"]]
    assert wrong and wrong[0]["message"] in page.text(".complaints li"), (wrong, page.text(".complaints"))
    page.click(".complaints button")
    check("at the lobe", page.text(".cm-activeLine"), 'name = "1 inlet"')
    check_sound(page)
    page.close()


def side_by_side(browser):
    page = desk_with(browser, desk, four)
    settled(page)
    page.click("#tab-side")
    wait_until(page, "document.querySelector('.pair')")
    row = lambda: page.run("[...[...document.querySelectorAll('.pair tr')].find((each) => each.textContent.startsWith('lift')).cells].map((each) => each.textContent)")
    check("exhaust and inlet", row(), ["lift, mm", "2.2", "2.4", "0.2"])
    press_button(page, "keep this job as it stands")
    wait_until(page, "document.querySelector('.legend .second').textContent.includes('as it was at')")
    press_button(page, "as fields")
    field(page, "profile.exhaust#0/lift", "2.25")
    wait_until(page, "document.querySelector('.pair tbody td').textContent === '2.25'")
    check("what the change does", row(), ["lift, mm", "2.25", "2.2", "−0.05"])
    page.run("""(() => { const pick = [...document.querySelectorAll('.side select')].pop(); pick.value = 'inlet'; pick.dispatchEvent(new Event('change')); })()""")
    wait_until(page, "document.querySelector('[aria-label=\"laws of motion\"]')")
    told = subprocess.run([program, "compare", pathlib.Path(examples) / "basalt-four.toml", "--laws", "inlet", "--format", "csv"], check=True, capture_output=True, text=True).stdout
    check("every law", page.run("[...document.querySelectorAll('[aria-label=\"laws of motion\"] tbody th')].map((each) => each.textContent)"), [line.split(",")[1] for line in told.splitlines()[1:]])
    check_sound(page)
    page.close()


def by_keys_alone(browser):
    """From the first question to the program, without a mouse."""
    page = begin(browser, desk, 1000)
    check("the first question has the keys", page.run("document.activeElement.name"), "title")
    write(page, "Basalt keys")
    tab_to(page, '[name="units"]')
    key(page, "ArrowDown")
    check("inches", page.run("document.querySelector('[name=units]:checked').value"), "inch")
    for card, answers in enumerate(({}, {}, {"opens": "18", "closes": "46", "exOpens": "50", "exCloses": "14"}, {"size": "0.6"}, {"lift": "0.18", "base": "0.4"}, {"divisions": "72"}, {})):
        for name, text in answers.items():
            tab_to(page, f'[name="{name}"]')
            page.run("document.activeElement.select()")
            write(page, text)
        tab_to(page, "button[type=submit]")
        key(page, "Enter" if card % 2 else " ")
    wait_until(page, "document.getElementById('job-name').textContent === 'basalt-keys.toml'")
    settled(page)
    tab_to(page, "#tab-lobes, #tab-job")
    key(page, "End")
    check("the last tab", page.run("document.activeElement.id"), "tab-take")
    catch_downloads(page)
    tab_to(page, "#panel-take button")
    for _ in range(40):
        if page.run("document.activeElement.textContent") == "its settings as a table":
            break
        key(page, "Tab")
    key(page, "Enter")
    assert handed(page, "basalt-keys-lathe.csv").startswith("order,index,turns,hole,circle,shaft_angle,lobe,work,start,finish")
    tab_to(page, ".cm-content, #tab-take")
    check_sound(page)
    page.close()


def nothing_is_lost(browser):
    """A job that was changed and never saved comes back after another took its place; one that was saved isn't spoken of."""
    page = desk_with(browser, desk, four)
    settled(page)
    page.click(".menu summary")
    press_button(page, "mill, rotary axis")
    wait_until(page, "document.getElementById('job-name').textContent === 'my-engine.toml'")
    check("it was as it had been opened", page.run("document.getElementById('aside').hidden"), True)
    press_button(page, "as fields")
    field(page, "job#0/title", "Basalt own")
    own = text_of(page)
    assert 'title = "Basalt own"' in own, own[:300]
    page.click(".menu summary")
    key(page, "Escape")
    check("the menu is closed by a key", page.run("[document.querySelector('.menu').open, document.activeElement.textContent]"), [False, "example ▾"])
    open_job(page, "basalt-four.toml", four)
    assert page.text("#aside").startswith("my-engine.toml was put aside"), page.text("#aside")
    press_button(page, "bring it back")
    check("as it stood", text_of(page), own)
    check("and no more said of it", page.run("document.getElementById('aside').hidden"), True)
    check_sound(page)
    page.close()


def made_with(browser):
    """The notices of what is in the page stand at its foot, folded away."""
    page = begin(browser, desk, 360)
    check("folded", page.run("document.querySelector('#made-with').open"), False)
    page.click("#made-with summary")
    notices = page.text("#made-with pre")
    for title in ("@codemirror/view", "w3c-keyname", "Boost", "toml++", "CLI11", "JSON for Modern C++", "Emscripten, with its C and C++ libraries"):
        assert title in notices, title
    assert notices.count("WITHOUT WARRANTY") > 4, "licences in full"
    check_sound(page)
    page.close()


def hostile_names(browser):
    text = four.replace('"Basalt four"', "'</script><img src=x onerror=document.title=1>'").replace('name = "1 exhaust"', "name = '<img src=x onerror=document.title=2>'")
    page = desk_with(browser, desk, text)
    settled(page)
    for tab in ("side", "take", "sheet"):
        page.click(f"#tab-{tab}")
        page.settle()
    wait_until(page, "document.querySelector('iframe.seen')")
    check("no picture of theirs", page.run("document.querySelectorAll('img[src=x]').length + document.querySelector('iframe.seen').contentDocument.querySelectorAll('img').length"), 0)
    check("the name is text", page.run("document.body.textContent.includes('<img src=x onerror=document.title=2>')"), True)
    check_sound(page)
    page.close()


with Browser(chromium) as browser:
    fields_and_text_say_the_same(browser)
    help_and_completion(browser)
    judged_while_typing(browser)
    the_sheet_follows(browser)
    without_storage(browser)
    mistakes_in_words(browser)
    wrong_with_a_lobe(browser)
    side_by_side(browser)
    by_keys_alone(browser)
    nothing_is_lost(browser)
    made_with(browser)
    hostile_names(browser)
print("12 passed, 0 failed")
