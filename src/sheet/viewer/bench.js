// The settings one by one, in letters that can be read from the lathe; what is done stays done when the page is opened again.
const fingerprint = (text) => {
  let hash = 2166136261;
  for (let i = 0; i < text.length; ++i) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  return (hash >>> 0).toString(16);
};
const memory = {
  read: (key) => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } },
  write: (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); return true; } catch { return false; } },
};

const setWords = (setting) => {
  if (setting.mark !== null) return `mark ${setting.mark}`;
  if (setting.circle !== null) return `${setting.turns} turns, ${setting.hole} of ${setting.circle}`;
  return `${setting.turned}°`;
};
const toWords = (setting) => {
  const from = setting.start === null ? "" : `from ${setting.start.toFixed(decimals)} `;
  const to = setting.finish === null ? "" : `to ${setting.finish.toFixed(decimals)} ${unit}`;
  return `${setting.lobe}, ${setting.part}: ${from}${to}` + (setting.passes > 1 ? `, ${setting.passes} passes` : "");
};

// Wheel, plate or table with the place to set: a wheel's numbers grow the way that the method counts, seen from the drive
// end; holes and degrees are counted clockwise.
const settingPicture = (method, setting) => {
  const size = 100;
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("viewBox", `${-size} ${-size} ${2 * size} ${2 * size}`);
  svg.setAttribute("width", "160");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", setWords(setting));
  const add = (name, properties) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(properties)) made.setAttribute(key, value);
    svg.append(made);
  };
  const count = setting.mark !== null ? method.divisions : setting.circle || 36;
  const chosen = setting.mark !== null ? setting.mark : setting.circle ? setting.hole : setting.turned / 10;
  for (let i = 0; i < count; ++i) {
    const angle = (2 * Math.PI * i) / count;
    add("line", { x1: 88 * Math.sin(angle), y1: -88 * Math.cos(angle), x2: 96 * Math.sin(angle), y2: -96 * Math.cos(angle), stroke: "currentColor" });
  }
  const way = setting.mark !== null ? -method.counts : 1;
  const angle = (way * 2 * Math.PI * chosen) / count;
  add("circle", { r: 96, fill: "none", stroke: "currentColor", "stroke-width": 2 });
  add("line", { x1: 0, y1: 0, x2: 84 * Math.sin(angle), y2: -84 * Math.cos(angle), stroke: "currentColor", "stroke-width": 5 });
  return svg;
};

for (const { place, index } of places("bench")) {
  const method = model.methods[index], settings = method.settings;
  const key = "lobewright " + fingerprint(JSON.stringify([model.title, method]));
  let state = { at: 0, done: [], ...memory.read(key) };
  const step = element("div", { className: "step" });
  step.setAttribute("aria-live", "polite");
  const keep = () => memory.write(key, state);
  const show = () => {
    const setting = settings[state.at];
    step.replaceChildren(
      element("div", { textContent: `step ${state.at + 1} of ${settings.length}, ${state.done.length} done` }),
      element("div", { className: "set", textContent: setWords(setting) }),
      element("div", { className: "to", textContent: toWords(setting) }),
      settingPicture(method, setting),
      element("div", { className: "done", textContent: state.done.includes(state.at) ? "✓ done" : "" }));
    keep();
  };
  const goTo = (at) => { state.at = Math.min(settings.length - 1, Math.max(0, at)); show(); };
  const finish = () => {
    if (!state.done.includes(state.at)) state.done.push(state.at);
    goTo(state.at + 1);
  };
  const startOver = () => {
    if (window.confirm("Forget which steps are done, and begin at the first?")) { state = { at: 0, done: [] }; show(); }
  };
  const awake = async () => { try { await navigator.wakeLock.request("screen"); } catch { /* not every browser can */ } };
  const button = (words, act) => element("button", { type: "button", textContent: words, onclick: () => { awake(); act(); } });
  const buttons = element("div", { className: "buttons" }, button("back", () => goTo(state.at - 1)), button("done", finish),
    button("next", () => goTo(state.at + 1)), button("start over", startOver));
  const whole = element("div", { tabIndex: 0 }, step, buttons);
  whole.setAttribute("role", "group");
  whole.setAttribute("aria-label", "steps of " + method.name);
  whole.addEventListener("keydown", (event) => {
    const move = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (move) { event.preventDefault(); goTo(state.at + move); }
  });
  if (settings.length === 0) continue;
  state.at = Math.min(state.at, settings.length - 1);
  place.append(whole);
  show();
}
