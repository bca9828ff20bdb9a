"""What a person does at the desk, and what its tests share. Every click, tap and key goes through the browser itself."""
import json
import pathlib

from page_checks import check, check_fits, wait_until


def check_sound(page):
    check_fits(page)
    check("no mistake told", page.run("document.getElementById('fault').hidden"), True)


def begin(browser, path, width, **options):
    """A page that has kept nothing."""
    page = browser.open(path, width, **options)
    if page.run("localStorage.length"):
        page.run("localStorage.clear(); Storage.prototype.setItem = () => {}")
        page.reload()
    wait_until(page, "'ready' in document.body.dataset")
    return page


def write(page, text):
    page.send("Input.insertText", text=text)


def fill(page, name, text, act=None):
    """The field of that name, emptied and written anew."""
    (act or page.click)(f'[name="{name}"]')
    page.run(f"document.querySelector('[name=\"{name}\"]').select()")
    write(page, text)


def choose(page, name, value, act=None):
    (act or page.click)(f'.option:has([name="{name}"][value="{value}"])')


def press_button(page, words, act=None):
    (act or page.click)("button", words)


def text_of(page):
    """The job, as it is kept."""
    return page.run("""new Promise((done) => setTimeout(() => {
        let kept = null; try { kept = JSON.parse(localStorage.getItem("lobewright job")).text; } catch { }
        done(kept); }, 500))""")


def open_job(page, name, text, judged=True):
    """A file dropped on the page; the job is judged when this comes back."""
    page.run(f"""(() => {{ window.judged = false; document.addEventListener("judged", () => {{ window.judged = true; }}, {{ once: true }});
        const files = new DataTransfer();
        files.items.add(new File([{json.dumps(text)}], {json.dumps(name)}));
        document.body.dispatchEvent(new DragEvent("drop", {{ dataTransfer: files, bubbles: true, cancelable: true }})); }})()""")
    if judged:
        wait_until(page, "window.judged")


def settled(page):
    """All that follows from the job has been told."""
    wait_until(page, "document.querySelector('.lobe-view') && !document.querySelector('.lobe-view.stale') && document.querySelector('section[data-told=whole]')")


def catch_downloads(page):
    """What the page hands over as files stands in window.handed, by name."""
    page.run("""(() => { window.handed = {}; const made = URL.createObjectURL, blobs = new Map();
        URL.createObjectURL = (blob) => { const url = made.call(URL, blob); blobs.set(url, blob); return url; };
        HTMLAnchorElement.prototype.click = function () { blobs.get(this.href).text().then((text) => { window.handed[this.download] = text; }); }; })()""")


def handed(page, name):
    wait_until(page, f"{json.dumps(name)} in window.handed")
    return page.run(f"window.handed[{json.dumps(name)}]")


KEYS = {"Tab": 9, "Enter": 13, "Escape": 27, " ": 32, "End": 35, "Home": 36, "ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40, "Delete": 46}


def key(page, name, modifiers=0):
    """A key pressed and let go, with what it writes."""
    text = {"Enter": "\r", " ": " "}.get(name)
    page.send("Input.dispatchKeyEvent", type="keyDown" if text else "rawKeyDown", key=name, code="Space" if name == " " else name, windowsVirtualKeyCode=KEYS[name], modifiers=modifiers,
              **({"text": text} if text else {}))
    page.send("Input.dispatchKeyEvent", type="keyUp", key=name, code="Space" if name == " " else name, windowsVirtualKeyCode=KEYS[name], modifiers=modifiers)


def tab_to(page, selector, most=80):
    """On with the Tab key until that element has the keys."""
    for _ in range(most):
        if page.run(f"document.activeElement.matches({json.dumps(selector)})"):
            return
        key(page, "Tab")
    raise AssertionError(f"the Tab key never comes to {selector}; it is at {page.run('document.activeElement.outerHTML')[:200]}")


def own_engine(page, act):
    """The invented Basalt fifty: 50 cubic centimetres, one cylinder, roller followers, in inches, on a mill with a rotary axis."""
    pages = [lambda: (fill(page, "title", "Basalt fifty", act), choose(page, "units", "inch", act)), lambda: None,
             lambda: [fill(page, name, text, act) for name, text in (("opens", "18"), ("closes", "46"), ("exOpens", "50"), ("exCloses", "14"), ("clearance", "0.004"))],
             lambda: (choose(page, "follower", "roller", act), fill(page, "size", "0.2", act)), lambda: (fill(page, "lift", "0.18", act), fill(page, "base", "0.4", act)),
             lambda: choose(page, "way", "mill", act), lambda: None]
    for number, answer in enumerate(pages):
        check("which question", page.text(".questions .progress"), f"question {number + 1} of {len(pages)}")
        answer()
        yield number
        act("button[type=submit]")
    wait_until(page, "document.getElementById('job-name').textContent === 'basalt-fifty.toml'")
    settled(page)


def desk_with(browser, path, text, width=1440, name="basalt-four.toml", **options):
    """The desk with a job of its own."""
    page = begin(browser, path, width, **options)
    open_job(page, name, text)
    wait_until(page, f"document.getElementById('job-name').textContent === {json.dumps(name)}")
    return page


def field(page, address, typed):
    page.click(f'[data-field="{address}"]')
    page.run("document.activeElement.select()")
    write(page, typed)


def four_of(examples):
    return (pathlib.Path(examples) / "basalt-four.toml").read_text()


def parts_of(browser, path, examples, width, dark):
    """All parts of the desk, one after the other: its page, and what is to be seen there."""
    four = four_of(examples)
    page = desk_with(browser, path, four, width, dark=dark)
    settled(page)
    for tab, there in (("lobes", "svg.lobe"), ("sheet", "iframe.seen"), ("side", ".pair"), ("take", ".take .caution")):
        page.click(f"#tab-{tab}")
        wait_until(page, f"document.querySelector('{there}')")
        yield page, tab
    page.click("button", "its lift table")
    wait_until(page, "document.querySelector('.told').textContent.startsWith('Saved')")
    open_job(page, "measured.csv", "lobe,cam_angle,reading\n1 inlet,0,2.4\n")
    yield page, "taken"
    page.click("#tab-side")
    page.run("""(() => { const pick = [...document.querySelectorAll('.side select')].pop(); pick.value = 'inlet'; pick.dispatchEvent(new Event('change')); })()""")
    wait_until(page, "document.querySelector('[aria-label=\"laws of motion\"]')")
    page.run("scrollTo(0, 0)")
    yield page, "laws"
    if width < 1000:
        page.click("#tab-job")
    yield page, "job"
    page.click(".menu summary")
    yield page, "examples"
    page.click(".menu button", "dividing head")
    wait_until(page, "!document.getElementById('aside').hidden || document.getElementById('job-name').textContent === 'my-engine.toml'")
    mended = four.replace("flank_radius = 16.0", "flank_radius = 1.0").replace("surface_feed = 110.0", "surface_feed = 11000.0")
    open_job(page, "basalt-four.toml", mended)
    wait_until(page, "document.querySelector('.complaints li')")
    yield page, "to-mend"
    page.click("#made-with summary")
    yield page, "made-with"
    page.click("#made-with summary")
    page.run("setTimeout(() => { throw new Error('a wheel came off'); }); new Promise((done) => setTimeout(done, 50))")
    yield page, "mistake"
    page.click("button", "go on")
    page.click("button", "as fields")
    yield page, "fields"
    page.close()


def questions_of(browser, path, width, dark):
    """The questions, each with its answers, and the job that comes of them."""
    page = begin(browser, path, width, dark=dark)
    for card in own_engine(page, page.click):
        yield page, f"question-{card + 1}"
    yield page, "written"
    page.close()
