// The route step by step, in letters that can be read from the machine; what is done stays done when the page is opened
// again.
const fingerprint = (text) => {
  let hash = 2166136261;
  for (let i = 0; i < text.length; ++i) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  return (hash >>> 0).toString(16);
};
// What is done of a route stays in the browser once somebody has worked on it, of so many routes, the last ones: whoever has
// sheet after sheet made while he types a job leaves nothing of them.
const mostRoutes = 20;
const isRoute = (key) => /^lobewright [0-9a-f]{1,8}$/.test(key);
const memory = {
  read: (key) => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } },
  write: (key, value) => {
    try {
      localStorage.setItem(key, JSON.stringify({ ...value, when: Date.now() }));
      memory.forgetOld();
      return true;
    } catch { return false; }
  },
  forgetOld: () => {
    const newest = Object.keys(localStorage).filter(isRoute).map((key) => [memory.read(key).when || 0, key]).sort(([a], [b]) => b - a);
    for (const [, key] of newest.slice(mostRoutes)) localStorage.removeItem(key);
  },
  works: () => {
    try {
      localStorage.setItem("lobewright tries", "");
      localStorage.removeItem("lobewright tries");
      return true;
    } catch { return false; }
  },
};

// The screen stays awake while somebody works here, and again when he comes back to it, where the browser can.
const awake = { lock: null, asked: false };
const stayAwake = async () => {
  awake.asked = true;
  if (awake.lock || !navigator.wakeLock) return;
  try {
    awake.lock = await navigator.wakeLock.request("screen");
    awake.lock.addEventListener("release", () => { awake.lock = null; });
  } catch { /* it may be low on battery */ }
};
document.addEventListener("visibilitychange", () => { if (awake.asked && document.visibilityState === "visible") stayAwake(); });

const tableOf = ({ caption, heads, rows }) => {
  const cells = (kind, texts) => element("tr", {}, ...texts.map((text) => element(text ? kind : "td", { textContent: text, className: /^[-+]?\d/.test(text) ? "figure" : "" })));
  const table = element("table", {}, element("thead", {}, cells("th", heads)), element("tbody", {}, ...rows.map((row) => cells("td", row))));
  const scrolled = element("div", { className: "table", tabIndex: 0 }, table);
  scrolled.setAttribute("role", "region");
  scrolled.setAttribute("aria-label", caption || heads.filter(Boolean).join(", "));
  return element("div", {}, ...(caption ? [element("p", { textContent: caption })] : []), scrolled);
};

// What a step shows, from the top down.
const cardOf = (method, step, done) => {
  const parts = [element("p", { className: "part", textContent: step.part })];
  if (step.set) parts.push(element("p", { className: "set" }, element("span", { className: "set-name", textContent: step.set[0] }), " ", step.set[1]));
  if (step.text) parts.push(element("p", { className: step.stop === undefined ? "to" : "to stop", textContent: step.text }));
  if (step.figures.length) {
    parts.push(element("dl", {}, ...step.figures.map(([name, value]) =>
      element("div", {}, element("dt", { textContent: name }), element("dd", { textContent: value })))));
  }
  const picture = pictureOf(method, step);
  if (picture) parts.push(element("figure", {}, picture.svg, element("figcaption", { textContent: picture.words })));
  if (step.notes.length) parts.push(element("ul", {}, ...step.notes.map((note) => element("li", { textContent: note }))));
  parts.push(...step.tables.map(tableOf));
  if (done) parts.push(element("p", { className: "done", textContent: "✓ done" }));
  return parts;
};

class Bench {
  constructor(method) {
    this.method = method;
    this.steps = method.route.map((step) => ({ figures: [], notes: [], tables: [], ...step }));
    this.steps.forEach((step, i) => { step.part ??= this.steps[i - 1].part; });
    this.key = "lobewright " + fingerprint(JSON.stringify([model.title, model.units, method]));
    this.begin(memory.read(this.key));
    this.keeps = memory.works();
    this.build();
    this.show();
  }
  begin({ at = 0, done = [] }) {
    this.at = Math.min(Math.max(0, Math.trunc(at) || 0), this.steps.length - 1);
    this.done = new Set(done.filter((each) => each >= 0 && each < this.steps.length));
  }
  build() {
    const { steps } = this;
    this.progress = element("p", { className: "progress" });
    this.card = element("div", { className: "card" });
    this.card.setAttribute("aria-live", "polite");
    this.parts = element("select", { onchange: () => this.goTo(Number(this.parts.value)) });
    this.parts.setAttribute("aria-label", "go to a part of the route");
    steps.forEach((step, i) => {
      if (i === 0 || step.part !== steps[i - 1].part) this.parts.append(element("option", { value: i, textContent: step.part }));
    });
    const act = (move) => () => { stayAwake(); move(); };
    const buttons = element("div", { className: "buttons" }, button("◀ back", act(() => this.goTo(this.at - 1))),
      Object.assign(button("✓ done", act(() => this.finish())), { className: "main" }), button("next ▶", act(() => this.goTo(this.at + 1))));
    this.large = button("whole screen", act(() => this.enlarge(!this.whole.classList.contains("large"))));
    const more = element("div", { className: "buttons" }, button("first not done", act(() => this.toFirstOpen())), this.parts, this.large,
      button("start over", () => this.startOver()));
    this.whole = element("div", { className: "step", tabIndex: 0 }, this.progress, this.card, buttons, more);
    this.whole.setAttribute("role", "group");
    this.whole.setAttribute("aria-label", "steps of " + this.method.name);
    this.whole.addEventListener("keydown", (event) => this.key_(event));
    this.swipes();
  }
  key_(event) {
    if (event.target === this.parts) return;
    const acts = { ArrowRight: () => this.goTo(this.at + 1), ArrowLeft: () => this.goTo(this.at - 1), Escape: () => this.enlarge(false) };
    if (event.target === this.whole) acts.Enter = acts[" "] = () => this.finish();
    if (!acts[event.key] || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    stayAwake();
    acts[event.key]();
  }
  // A finger drawn across the card, further along than up or down.
  swipes() {
    let from = null;
    this.card.addEventListener("touchstart", (event) => { from = event.touches.length === 1 ? event.touches[0] : null; }, { passive: true });
    this.card.addEventListener("touchend", (event) => {
      if (!from || event.target.closest(".table")) return;
      const to = event.changedTouches[0], along = to.clientX - from.clientX, down = to.clientY - from.clientY;
      from = null;
      if (Math.abs(along) < 60 || Math.abs(along) < 2 * Math.abs(down)) return;
      stayAwake();
      this.goTo(this.at + (along < 0 ? 1 : -1));
    });
  }
  enlarge(on) {
    this.whole.classList.toggle("large", on);
    document.body.classList.toggle("behind", on);
    this.large.textContent = on ? "back to the page" : "whole screen";
    this.whole.focus();
  }
  goTo(at) {
    this.at = Math.min(this.steps.length - 1, Math.max(0, at));
    this.keep();
    this.show();
  }
  keep() { this.keeps = memory.write(this.key, { at: this.at, done: [...this.done] }); }
  finish() { this.done.add(this.at); this.goTo(this.at + 1); }
  toFirstOpen() {
    const open = this.steps.findIndex((_, i) => !this.done.has(i));
    this.goTo(open < 0 ? this.steps.length - 1 : open);
  }
  startOver() {
    if (!window.confirm("Forget which steps are done, and begin at the first?")) return;
    this.begin({});
    this.keep();
    this.show();
  }
  show() {
    const step = this.steps[this.at];
    this.progress.textContent = `step ${this.at + 1} of ${this.steps.length}, ${this.done.size} done`;
    this.card.replaceChildren(...cardOf(this.method, step, this.done.has(this.at)));
    let part = this.at;
    while (part > 0 && this.steps[part - 1].part === step.part) --part;
    this.parts.value = part;
    if (!this.keeps) this.progress.textContent += " (this browser keeps no ticks)";
  }
}

for (const { place, index } of places("bench")) {
  if (model.methods[index].route.length) place.append(new Bench(model.methods[index]).whole);
}
