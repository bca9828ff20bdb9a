"""A real browser worked by its own debugging protocol, over a pipe: no port, no network, no library.

    with Browser("chromium") as browser:
        page = browser.open(path, width=360, dark=True)
        page.click("button")
        page.run("document.title")
"""
import base64
import json
import os
import pathlib
import shutil
import subprocess
import tempfile


class Page:
    """One page in a window of its own size. `faults`: every error that a script or the page told."""

    def __init__(self, browser, session):
        self.browser, self.session, self.faults = browser, session, []

    def send(self, method, **parameters):
        return self.browser.send(method, parameters, self.session)

    def run(self, script):
        """What the script gives, a promise's value too."""
        answer = self.send("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer["exceptionDetails"]
        return answer["result"].get("value")

    def settle(self):
        self.run("new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 50))")

    def place_of(self, selector, words=None):
        """The middle of the first element of that selector (with those words, where they are given), on the screen."""
        place = self.run(f"""(() => {{
            const words = {json.dumps(words)};
            const all = [...document.querySelectorAll({json.dumps(selector)})];
            const found = all.find((each) => (words === null || each.textContent === words) && each.getClientRects().length);
            if (!found) return null;
            found.scrollIntoView({{ block: "center" }});
            const box = found.getBoundingClientRect();
            return [box.x, box.y, box.width, box.height];
        }})()""")
        assert place, f"no {selector} {words or ''} to be seen"
        return place

    def click(self, selector, words=None, across=0.5, down=0.5):
        """A real click, so far across and down the element."""
        x, y, width, height = self.place_of(selector, words)
        at = {"x": x + across * width, "y": y + down * height}
        self.send("Input.dispatchMouseEvent", type="mouseMoved", **at)
        for kind in ("mousePressed", "mouseReleased"):
            self.send("Input.dispatchMouseEvent", type=kind, button="left", clickCount=1, **at)

    def tap(self, selector, words=None):
        x, y, width, height = self.place_of(selector, words)
        self.send("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x + width / 2, "y": y + height / 2}])
        self.send("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.settle()  # the browser makes a click of it in its own time

    def swipe(self, selector, along):
        """A finger drawn so far to the right over an element."""
        x, y, width, height = self.place_of(selector)
        at = lambda share: [{"x": x + width / 2 + (share - 0.5) * along, "y": y + min(height, 200) / 2}]
        self.send("Input.dispatchTouchEvent", type="touchStart", touchPoints=at(0))
        for step in (1, 2, 3, 4):
            self.send("Input.dispatchTouchEvent", type="touchMove", touchPoints=at(step / 4))
        self.settle()  # the finger comes to rest, or what it pushed would slide on and swallow the next tap
        self.send("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.settle()

    def press(self, key, code):
        for kind in ("keyDown", "keyUp"):
            self.send("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=code)

    def text(self, selector):
        return self.run(f"document.querySelector({json.dumps(selector)}).textContent")

    def answer_dialogs(self, yes):
        self.browser.dialog_answers[self.session] = yes

    def reload(self):
        self.send("Page.reload")
        self.browser.wait_for("Page.loadEventFired", self.session)

    def picture(self, path, selector):
        """One element as a PNG."""
        clip = self.run(f"""(() => {{ const box = document.querySelector({json.dumps(selector)}).getBoundingClientRect();
            return {{ x: box.x + scrollX, y: box.y + scrollY, width: box.width, height: box.height, scale: 1 }}; }})()""")
        shot = self.send("Page.captureScreenshot", format="png", captureBeyondViewport=True, clip=clip)
        pathlib.Path(path).write_bytes(base64.b64decode(shot["data"]))

    def pictures(self, path, height=2000):
        """The whole page as one PNG after the other, from the top down, each so high."""
        size = self.send("Page.getLayoutMetrics")["cssContentSize"]
        for number, top in enumerate(range(0, int(size["height"]), height)):
            clip = {"x": 0, "y": top, "width": size["width"], "height": min(height, size["height"] - top), "scale": 1}
            shot = self.send("Page.captureScreenshot", format="png", captureBeyondViewport=True, clip=clip)
            pathlib.Path(f"{path}-{number + 1}.png").write_bytes(base64.b64decode(shot["data"]))

    def close(self):
        self.send("Page.close")

    def print(self, path, width, height):
        """On paper of that size, inches, as a person prints who changes nothing."""
        made = self.send("Page.printToPDF", paperWidth=width, paperHeight=height, preferCSSPageSize=False, printBackground=False,
                         marginTop=0.4, marginBottom=0.4, marginLeft=0.4, marginRight=0.4)
        pathlib.Path(path).write_bytes(base64.b64decode(made["data"]))


class Browser:
    def __init__(self, program):
        self.program = program

    def __enter__(self):
        self.folder = tempfile.mkdtemp()
        to_browser, self.out = os.pipe()
        self.into, from_browser = os.pipe()

        def pipes():  # the protocol's own: 3 to read, 4 to write
            ends = [os.dup(to_browser), os.dup(from_browser)]
            os.dup2(ends[0], 3)
            os.dup2(ends[1], 4)

        self.process = subprocess.Popen(
            [self.program, "--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", "--hide-scrollbars",
             "--no-first-run", "--disable-background-networking", f"--user-data-dir={self.folder}/profile", "about:blank"],
            preexec_fn=pipes, pass_fds=(3, 4), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_browser)
        os.close(from_browser)
        self.number, self.rest, self.events, self.pages, self.dialog_answers = 0, b"", [], {}, {}
        return self

    def __exit__(self, *_):
        try:
            self.send("Browser.close", {})
            self.process.wait(10)
        except (OSError, EOFError, subprocess.TimeoutExpired):
            self.process.kill()
            self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)

    def processor_seconds(self):
        """Of all of its processes so far, where the system tells by /proc."""
        parents, spent = {}, {}
        for stat in pathlib.Path("/proc").glob("[0-9]*/stat"):
            try:
                fields = stat.read_text().rsplit(") ", 1)[1].split()
            except OSError:
                continue  # it has ended
            pid = int(stat.parent.name)
            parents[pid], spent[pid] = int(fields[1]), int(fields[11]) + int(fields[12])

        def ours(pid):
            return pid == self.process.pid or (pid in parents and ours(parents[pid]))

        return sum(spent[pid] for pid in spent if ours(pid)) / os.sysconf("SC_CLK_TCK")

    def message(self):
        while b"\0" not in self.rest:
            piece = os.read(self.into, 1 << 20)
            if not piece:
                raise EOFError("the browser has gone")
            self.rest += piece
        text, self.rest = self.rest.split(b"\0", 1)
        return json.loads(text)

    def write(self, method, parameters, session):
        self.number += 1
        call = {"id": self.number, "method": method, "params": parameters}
        if session:
            call["sessionId"] = session
        data = json.dumps(call).encode() + b"\0"
        while data:
            data = data[os.write(self.out, data):]
        return self.number

    def send(self, method, parameters, session=None):
        number = self.write(method, parameters, session)
        while True:
            told = self.message()
            if told.get("id") == number:
                assert "error" not in told, f"{method}: {told['error']}"
                return told["result"]
            if "method" in told:
                self.take(told)

    def wait_for(self, method, session):
        while not any(each == (method, session) for each in self.events):
            told = self.message()
            if "method" in told:
                self.take(told)
        self.events.remove((method, session))

    def take(self, told):
        """What the browser tells by itself."""
        session, method, about = told.get("sessionId"), told["method"], told["params"]
        if method == "Page.loadEventFired":
            self.events.append((method, session))
        page = self.pages.get(session)
        if page is None:
            return
        if method == "Page.javascriptDialogOpening":
            self.write("Page.handleJavaScriptDialog", {"accept": self.dialog_answers.get(session, False)}, session)
        elif method == "Runtime.exceptionThrown":
            page.faults.append(about["exceptionDetails"].get("exception", about["exceptionDetails"])["description"])
        elif method == "Log.entryAdded" and about["entry"]["level"] in ("error", "warning"):
            page.faults.append(about["entry"]["text"])
        elif method == "Network.requestWillBeSent" and not about["request"]["url"].startswith(("file:", "data:", "blob:")):
            page.faults.append("asks for " + about["request"]["url"])

    def open(self, path, width=1000, height=900, dark=False, touch=False):
        target = self.send("Target.createTarget", {"url": "about:blank"})["targetId"]
        session = self.send("Target.attachToTarget", {"targetId": target, "flatten": True})["sessionId"]
        page = self.pages[session] = Page(self, session)
        for domain in ("Page", "Runtime", "Log", "Network"):
            page.send(domain + ".enable")
        page.send("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=touch)
        page.send("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])
        page.send("Emulation.setTouchEmulationEnabled", enabled=touch)
        page.send("Page.navigate", url=pathlib.Path(path).resolve().as_uri())
        self.wait_for("Page.loadEventFired", session)
        page.settle()
        return page
