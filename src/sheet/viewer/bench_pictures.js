// Pictures of what the index is set by: a wheel or a table turned to its pointer, a plate with its pin and sector arms.
const drawnPicture = (label) => {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("viewBox", "-112 -122 224 234");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", label);
  const add = (name, properties, words) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(properties)) made.setAttribute(key, value);
    if (words !== undefined) made.textContent = words;
    svg.append(made);
  };
  // At an angle clockwise from the top.
  const at = (angle, radius) => [radius * Math.sin(angle), -radius * Math.cos(angle)];
  const ray = (angle, from, to, width) => {
    const [x1, y1] = at(angle, from), [x2, y2] = at(angle, to);
    add("line", { x1, y1, x2, y2, stroke: "currentColor", "stroke-width": width });
  };
  const words = (text, x, y, size, bold) => add("text", { x, y, "font-size": size, "text-anchor": "middle", fill: "currentColor",
    "font-weight": bold ? 700 : 400, class: "picture-words" }, text);
  return { svg, add, at, ray, words };
};

// A wheel of so many marks whose numbers grow clockwise (-1) or counter-clockwise (1) seen from the drive end, the mark
// wanted under the pointer at the top; numbers stand for `each` a mark (a table: degrees).
const wheelPicture = (marks, counts, wanted, each, label) => {
  const { svg, add, at, ray, words } = drawnPicture(label);
  add("circle", { r: 100, fill: "none", stroke: "currentColor", "stroke-width": 2 });
  const angleOf = (mark) => (-counts * (mark - wanted) * fullTurn) / marks;
  const numbered = each > 1 ? 30 / each : marks <= 24 ? 1 : marks <= 60 ? 5 : marks <= 150 ? 10 : 20;
  for (let mark = 0; mark < marks; ++mark) {
    const near = Math.abs(wanted - mark) < 1e-6;
    const numberIt = mark % numbered === 0, five = marks > 150 ? mark % 10 === 0 : mark % 5 === 0;
    if (marks > 150 && mark % 2 && !near) continue;
    ray(angleOf(mark), near ? 78 : numberIt ? 86 : five ? 90 : 94, 100, near ? 5 : numberIt ? 2.2 : 1.1);
    if (!numberIt || marks - mark < 0.6 * numbered || Math.abs(mark - wanted) * 360 / marks < 22 || marks - Math.abs(mark - wanted) < (marks * 22) / 360) continue;
    const [x, y] = at(angleOf(mark), 75);
    words(String(mark * each), x, y + 4.5, 13, false);
  }
  add("path", { d: "M0 -100 L-9 -119 L9 -119 Z", fill: "currentColor" });
  words(String(Number((wanted * each).toFixed(3))), 0, -54, 26, true);
  return svg;
};

// A circle of holes on its plate. The pin goes from the hole at the top over so many spaces, which the arms hold; null: it
// stays there.
const platePicture = (circle, spaces, label) => {
  const { svg, add, at, ray, words } = drawnPicture(label);
  add("circle", { r: 106, fill: "none", stroke: "currentColor", "stroke-width": 2 });
  const angleOf = (hole) => (hole * fullTurn) / circle, size = Math.max(1.3, Math.min(4, 180 / circle));
  for (let hole = 0; hole < circle; ++hole) {
    const [cx, cy] = at(angleOf(hole), 92), between = spaces !== null && hole <= spaces;
    add("circle", { cx, cy, r: between ? size * 1.25 : size, fill: between ? "currentColor" : "none", stroke: "currentColor", "stroke-width": 1 });
  }
  if (spaces > 0) {
    const beside = Math.min(0.5, 4 / circle) * (fullTurn / 8);
    ray(-beside, 16, 100, 3);
    ray(angleOf(spaces) + beside, 16, 100, 3);
  }
  add("circle", { r: 14, fill: "none", stroke: "currentColor", "stroke-width": 2 });
  const [cx, cy] = at(angleOf(spaces), 92);
  add("circle", { cx, cy, r: 9, fill: "none", stroke: "currentColor", "stroke-width": 4 });
  if (spaces === null) {
    words(String(circle), 0, 48, 26, true);
    words("holes", 0, 64, 13, false);
    return svg;
  }
  const middle = angleOf(spaces) / 2 + Math.PI, [x, y] = at(middle, 50);
  words(`${spaces}`, x, y + 4, 26, true);
  words(`of ${circle}`, x, y + 20, 13, false);
  return svg;
};

const spacesOf = (setting) => setting.turns * setting.circle + setting.hole;

// The picture of a step, and what to know of it; null where it has none.
const pictureOf = (method, step) => {
  const setting = step.count ? method.settings[step.first] : null;
  if (step.circle) return { svg: platePicture(step.circle, null, `the plate's circle of ${step.circle} holes`), words: `The circle of ${step.circle} holes, the pin in one of them.` };
  if (step.arms) {
    const circle = method.settings.find((each) => each.circle).circle;
    return { svg: platePicture(circle, step.arms, `sector arms with ${step.arms} spaces of ${circle} between them`),
      words: "Spaces are counted the way you turn the crank, here drawn clockwise; the ring is where the pin goes." };
  }
  if (!setting) return null;
  if (setting.mark !== undefined) {
    return { svg: wheelPicture(method.divisions, method.counts, setting.mark, 1, `mark ${setting.mark} of the index wheel`),
      words: "Seen from the drive end, the wheel on the shaft." };
  }
  if (setting.circle) {
    const before = step.first > 0 ? spacesOf(method.settings[step.first - 1]) : 0;
    const on = (((spacesOf(setting) - before) % setting.circle) + setting.circle) % setting.circle;
    return { svg: platePicture(setting.circle, on, `${on} spaces of ${setting.circle} past whole turns`),
      words: "From the hole at the top, past whole turns, to the ring; spaces counted the way you turn the crank, here clockwise." };
  }
  return { svg: wheelPicture(72, method.counts, setting.turned / 5, 5, `${setting.turned} degrees on the table`),
    words: "Seen from the drive end; degrees of the work from zero." };
};
