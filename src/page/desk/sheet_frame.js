// The job's sheet, whole, as it is saved and printed: in a frame of its own. A new one is read behind the one that is seen, and
// takes its place where that was left.
import { button, element } from "./elements.js";

const measured = (frame) => {
  const inside = frame.contentDocument,
    top = frame.contentWindow.scrollY;
  const sections = [...inside.querySelectorAll("section[id]")].filter((section) => section.offsetTop <= top + 40);
  const last = sections.pop();
  return {
    id: last?.id,
    beyond: last ? top - last.offsetTop : top,
    sliders: [...inside.querySelectorAll("input[type=range]")].map((slider) => slider.value),
  };
};

export class SheetFrame {
  constructor() {
    this.words = element("p", { className: "hint", textContent: "The sheet appears here as soon as the job can be read." });
    this.place = element("div", { className: "frames" });
    this.large = button("whole screen", () => this.enlarge(!this.whole.classList.contains("large")));
    this.buttons = element(
      "div",
      { className: "buttons" },
      this.large,
      button("print it", () => this.print()),
    );
    this.whole = element("div", { className: "sheet" }, this.buttons, this.words, this.place);
    this.whole.addEventListener("keydown", (event) => {
      if (event.key === "Escape") this.enlarge(false);
    });
    this.html = null;
  }
  get frame() {
    return this.place.querySelector("iframe.seen");
  }

  show(html, complaints) {
    this.words.hidden = Boolean(html);
    this.place.classList.toggle("stale", !html);
    if (!html) {
      this.words.textContent = this.html
        ? "The job as it stands has no sheet: see “To mind”. This is the last one that there was."
        : "The job as it stands has no sheet: see “To mind”." + (complaints[0] ? ` ${complaints[0].words}` : "");
      return;
    }
    this.html = html;
    const next = element("iframe", { title: "the sheet of this job", srcdoc: html });
    for (const waiting of this.place.querySelectorAll("iframe:not(.seen)")) waiting.remove();
    next.addEventListener("load", () => this.change(next), { once: true });
    this.place.append(next);
  }
  change(next) {
    const before = this.frame;
    try {
      const left = before && measured(before);
      if (left) this.restore(next, left);
    } catch {
      /* a browser that keeps frames apart: the sheet begins at its top */
    }
    next.classList.add("seen");
    before?.remove();
    next.dispatchEvent(new Event("seen", { bubbles: true }));
  }
  // The same section, and sliders where they stood: of lobes and of the program, where there are as many.
  restore(next, { id, beyond, sliders }) {
    const section = id && next.contentDocument.getElementById(id),
      now = [...next.contentDocument.querySelectorAll("input[type=range]")];
    if (now.length === sliders.length) {
      for (const [i, slider] of now.entries()) {
        if (slider.value === sliders[i]) continue;
        slider.value = sliders[i];
        slider.dispatchEvent(new next.contentWindow.Event("input"));
      }
    }
    next.contentWindow.scrollTo(0, (section ? section.offsetTop : 0) + beyond);
  }
  // As large as the screen, for the steps at the bench.
  enlarge(on) {
    this.whole.classList.toggle("large", on);
    document.body.classList.toggle("behind", on);
    this.large.textContent = on ? "back to the desk" : "whole screen";
  }
  // The sheet as it is seen; whether there is one.
  print() {
    if (!this.frame) return false;
    this.frame.contentWindow.focus();
    this.frame.contentWindow.print();
    return true;
  }
  // Whether a new one is on its way.
  get waiting() {
    return Boolean(this.place.querySelector("iframe:not(.seen)"));
  }
}
