"""What the tests of pages in a browser share: facts, waiting, looks, and what is skipped where something can't be had."""
import pathlib
import sys

AXE = "axe-core isn't here; tests/run.sh fetches it by npm"
PAGE = "the page isn't made here; sh tests/page.sh makes it"


def skip_without(path, words):
    if not pathlib.Path(path).exists():
        print("SKIPPED: " + words)
        sys.exit()


def check(name, found, wanted):
    assert found == wanted, f"{name}: {found!r}, not {wanted!r}"


def check_fits(page):
    check("faults", page.faults, [])
    check("nothing wider than the screen", page.run("document.documentElement.scrollWidth <= innerWidth"), True)


def wait_until(page, condition, seconds=20):
    told = page.run(f"""new Promise((done) => {{ const end = performance.now() + {seconds * 1000};
        const look = () => {condition} ? done(true) : performance.now() > end ? done(false) : setTimeout(look, 10); look(); }})""")
    assert told, f"never came true: {condition}; the page says: {page.run('document.body.innerText')[:1500]}"


def looks(*widths):
    """Each width, light and dark, with words for it."""
    for width in widths:
        for dark in (False, True):
            yield width, dark, f"{width}-{'dark' if dark else 'light'}"


class Axe:
    """Asks axe-core, whose one script `path` is, what makes a page hard to use."""

    def __init__(self, path):
        self.script, self.asked, self.serious = pathlib.Path(path).read_text() + ";0", 0, []

    def ask(self, page, where):
        """About all of the page but frames, whose pages have tests of their own."""
        if not page.run("'axe' in window"):
            page.run(self.script)
        for told in page.run("""axe.run({ exclude: [["iframe"]] }, { iframes: false }).then((told) => told.violations.map((each) =>
                `${each.impact}: ${each.id}: ${each.help}: ${each.nodes.length} times, first ${each.nodes[0].html.slice(0, 200)}: ${each.nodes[0].failureSummary.slice(0, 300)}`))"""):
            print(f"{where}: {told}")
            if told.startswith(("serious", "critical")):
                self.serious.append(told)
        self.asked += 1

    def end(self, least):
        assert self.asked >= least, self.asked
        assert not self.serious, f"{len(self.serious)} serious"
        print(f"{self.asked} passed, 0 failed")
