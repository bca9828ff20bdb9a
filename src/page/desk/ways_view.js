// How the job can be cut: each cutter on the machine and each method by hand, with its verdict and what it would leave.
import { element } from "./elements.js";

export class WaysView {
  constructor() {
    this.rows = element("div", {}, element("p", { className: "hint", textContent: "This is told when the job can be read." }));
    this.state = element("p", { className: "hint", role: "status" });
    this.findings = element("ul", { className: "findings" });
    this.whole = element("section", {}, element("h2", { textContent: "How it can be cut" }), this.state, this.rows, this.findings);
  }
  busy(on) {
    clearTimeout(this.waiting);
    const say = (words) => {
      this.state.textContent = words;
      this.state.hidden = !words;
    };
    if (on) this.waiting = setTimeout(() => say("working it out …"), 300);
    else say("");
  }
  show(report) {
    this.whole.classList.toggle("stale", !report);
    this.whole.dataset.told = report ? "whole" : "nothing";
    if (!report) {
      this.busy(false);
      return;
    }
    const way = ({ verdict, method, message }) =>
      element(
        "tr",
        {},
        element("td", {}, element("strong", { className: `verdict ${verdict}`, textContent: verdict })),
        element("th", { scope: "row", textContent: method }),
        element("td", { textContent: message }),
      );
    const none = element("p", {
      className: "hint",
      textContent: "The job names no way to cut it yet: a [cut] with a [machine] and a [cutter], or a method of [hand].",
    });
    this.rows.replaceChildren(
      report.ways.length
        ? element(
            "div",
            { className: "table", tabIndex: 0, role: "region", "aria-label": "ways to cut" },
            element("table", {}, element("tbody", {}, ...report.ways.map(way))),
          )
        : none,
    );
    this.findings.replaceChildren(
      ...report.findings.map((each) =>
        element(
          "li",
          {},
          element("strong", { className: `severity ${each.severity}`, textContent: each.severity }),
          ` ${[each.way, each.lobe].filter(Boolean).join(", ")}${each.way || each.lobe ? ": " : ""}${each.message}`,
        ),
      ),
    );
  }
}
