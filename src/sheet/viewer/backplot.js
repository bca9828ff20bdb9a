// The program at work: played, slid through, or looked up by its lines and by places on the lobes.
const spell = (seconds) => {
  const whole = Math.round(seconds), minutes = Math.floor(whole / 60);
  return (minutes >= 60 ? `${Math.floor(minutes / 60)} h ` : "") + `${minutes % 60} min ${whole % 60} s`;
};
const speeds = [["as the machine", 1], ["10 times as fast", 10], ["60 times as fast", 60], ["all of it in half a minute", 0]];

class Backplot {
  constructor(place) {
    this.plot = new Plot(model.program);
    const { plot } = this, { count } = plot.moves;
    this.slider = element("input", { type: "range", min: 0, max: count, step: 1, value: 0, oninput: () => this.show(Number(this.slider.value)) });
    this.slider.setAttribute("aria-label", "move of the program");
    this.words = element("p", { className: "figures" });
    this.line = element("p", { className: "line" });
    this.section = sectionView(plot);
    this.side = sideView(plot);
    this.taken = takenView(plot);
    this.deviation = new DeviationPlot(plot, (line) => this.toLine(line));
    this.views = [this.section, this.side, this.taken];
    this.taken.canvas.addEventListener("click", (event) => this.show(Math.ceil((event.offsetX / this.taken.canvas.clientWidth) * count)));
    this.section.canvas.addEventListener("click", (event) => this.toPlace(event));
    for (const { canvas } of this.views) canvas.addEventListener("keydown", (event) => this.press(event));
    plot.watchers.push(() => { this.taken.redraw(); this.tell(); });
    place.append(this.section.canvas, this.slider, this.controls(), this.words, this.line, this.side.canvas, this.taken.canvas, this.deviation.whole, this.text());
    this.show(0);
  }
  controls() {
    this.play = button("▶ play", () => this.playing ? this.stop() : this.start());
    this.speed = element("select", {}, ...speeds.map(([words, times]) => element("option", { value: times, textContent: words })));
    this.speed.value = "0";
    this.speed.setAttribute("aria-label", "speed");
    const wanted = element("input", { type: "number", min: 1, value: 1, id: "wanted-line" });
    const jump = button("to line", () => this.toLine(Number(wanted.value)));
    const label = element("label", { htmlFor: "wanted-line", textContent: "line " }, wanted);
    return element("div", { className: "buttons" }, this.play, this.speed, button("◀ a move", () => this.show(this.plot.shown.next - 1)),
      button("a move ▶", () => this.show(this.plot.shown.next + 1)), label, jump);
  }
  // The program's text is long: it is put on the page when somebody asks for it.
  text() {
    const folded = element("details", {}, element("summary", { textContent: "The program's text" }));
    folded.addEventListener("toggle", () => {
      if (folded.open && folded.children.length === 1) folded.append(element("pre", { tabIndex: 0, textContent: model.program.text }));
    });
    return folded;
  }
  // Where the cutter stands, `share` of the way through the move that comes next.
  seenAt(share) {
    const { plot } = this, run = plot.shown, { place, next } = run;
    if (!place || !share || next >= plot.moves.count) return place;
    const between = (a, b) => (Number.isFinite(b) ? a + share * (b - a) : a), { moves } = plot;
    return { radial: between(place.radial, moves.radial[next]), axial: between(place.axial, moves.axial[next]), rotary: between(place.rotary, moves.rotary[next]) };
  }
  show(move, share = 0) {
    const { plot } = this;
    plot.goTo(Math.min(plot.moves.count, Math.max(0, move)));
    plot.seen = this.seenAt(share);
    this.slider.value = plot.shown.next;
    this.tell();
    for (const view of this.views) view.redraw();
  }
  tell() {
    const { plot } = this, run = plot.shown, { moves } = plot, line = plot.lineOf(run.next), { count } = moves;
    const time = run.next ? moves.time[run.next - 1] : 0;
    this.words.textContent = `move ${run.next} of ${count}, ${spell(time)} of ${spell(moves.time[count - 1])}, ${model.lobes[run.planes[run.plane].lobe].name}` +
      (plot.seen ? `: radial ${plot.seen.radial.toFixed(decimals)}, axial ${plot.seen.axial.toFixed(decimals)}, rotary ${plot.seen.rotary.toFixed(3)}°` : "") +
      `; this block takes ${run.taken.toFixed(decimals)} ${unit}` +
      (plot.ready === count && count ? `, at most ${plot.mostTaken.toFixed(decimals)} in line ${moves.line[plot.atMost]}` : "");
    this.line.textContent = line ? `${line}  ${plot.lines[line - 1] || ""}` : "";
  }
  start() {
    const { plot } = this, { moves } = plot;
    if (plot.shown.next >= moves.count) this.show(0);
    this.playing = true;
    this.play.textContent = "■ stop";
    let clock = plot.shown.next ? moves.clock[plot.shown.next - 1] : 0, last = null;
    const tick = (now) => {
      if (!this.playing) return;
      const times = Number(this.speed.value) || moves.clock[moves.count - 1] / 30;
      clock += last === null ? 0 : Math.min(0.1, (now - last) / 1000) * times;
      last = now;
      const next = firstFrom(moves.clock, clock), began = next ? moves.clock[next - 1] : 0;
      this.show(next, next < moves.count ? (clock - began) / (moves.clock[next] - began || 1) : 0);
      if (next < moves.count) requestAnimationFrame(tick);
      else this.stop();
    };
    requestAnimationFrame(tick);
  }
  stop() { this.playing = false; this.play.textContent = "▶ play"; }
  toLine(line) { this.stop(); this.show(this.plot.moveOfLine(line)); }
  press(event) {
    const step = { ArrowRight: 1, ArrowLeft: -1, PageUp: 100, PageDown: -100 }[event.key];
    if (!step) return;
    event.preventDefault();
    this.stop();
    this.show(this.plot.shown.next + step);
  }
  // A click on the section: to the line that cut that place of the lobe.
  toPlace(event) {
    const { plot, section: { canvas } } = this, run = plot.shown, half = canvas.clientWidth / 2;
    const turn = plot.seen ? run.facing(plot.seen.rotary) : 0;
    const place = placeAt(deviationsOf(model.program.lobes[run.planes[run.plane].lobe]), Math.atan2(half - event.offsetY, event.offsetX - half) + turn);
    if (place && place.line) this.toLine(place.line);
  }
}

// What is left around a lobe, so much enlarged that it is seen, with the tolerance on both sides; a place of it is chosen
// with a finger or the arrow keys.
class DeviationPlot {
  constructor(plot, toLine) {
    this.tolerance = plot.program.tolerance;
    this.lobes = plot.program.lobes.map((verdict, i) => ({ verdict, lobe: model.lobes[i], found: deviationsOf(verdict) }));
    this.reach = Math.max(...model.lobes.map((each) => each.largest_radius)) * 1.3;
    this.chosen = element("select", { onchange: () => this.choose(Number(this.chosen.value)) }, ...this.lobes.map(({ verdict, lobe }, i) =>
      element("option", { value: i, textContent: lobe.name + (verdict.within ? "" : " (NOT within)") })));
    this.chosen.setAttribute("aria-label", "lobe");
    this.view = stage(this.reach, "what is left around the lobe, enlarged, with the tolerance", (context, scale) => this.draw(context, scale));
    this.words = element("p", { className: "figures" });
    this.words.setAttribute("aria-live", "polite");
    this.scale = element("p", { className: "figures" });
    const show = button("show its line", () => toLine(this.place.line));
    this.view.canvas.addEventListener("pointermove", (event) => { if (event.buttons || event.pointerType === "mouse") this.point(event); });
    this.view.canvas.addEventListener("click", (event) => { this.point(event); if (this.place.line) toLine(this.place.line); });
    this.view.canvas.addEventListener("keydown", (event) => this.press(event, toLine));
    this.whole = element("div", { className: "deviation" }, element("h3", { textContent: "What it leaves" }), this.chosen, this.view.canvas, this.scale,
      this.words, element("div", { className: "buttons" }, show));
    this.choose(0);
  }
  choose(index) {
    const { lobe, found } = this.lobes[index];
    this.shown = this.lobes[index];
    this.surface = surfaceOf(lobe.outline);
    const worst = Math.max(this.tolerance, ...[...found.values()].map((each) => Math.max(-each.deepest, each.proudest)));
    // A band a tenth of the base circle wide, and nothing outside the board.
    this.times = roundScale(Math.min((0.12 * lobe.base_radius) / this.tolerance, (0.25 * this.reach) / worst));
    this.scale.textContent = `What is left, from deepest to proudest, drawn ${this.times} times as large along the normal; dashed: the tolerance, ` +
      `${this.tolerance} ${unit} either way.`;
    this.setPlace(placeAt(found, radians(lobe.at)));
  }
  setPlace(place) {
    this.place = place;
    const off = ((((place.index + 0.5) / 2 - this.shown.lobe.at) % 360) + 540) % 360 - 180, figure = (value) => (value < 0 ? "−" : "+") + Math.abs(value).toFixed(decimals + 2);
    this.words.textContent = `at ${((place.index + 0.5) / 2).toFixed(2)}° of the shaft, ${Math.abs(off).toFixed(1)}° ${off < 0 ? "clockwise" : "counter-clockwise"} of the nose: ` +
      `${figure(place.deepest)} to ${figure(place.proudest)} ${unit}` + (place.line ? `, cut by line ${place.line}` : ", not cut");
    this.view.redraw();
  }
  point(event) {
    const half = this.view.canvas.clientWidth / 2;
    const place = placeAt(this.shown.found, Math.atan2(half - event.offsetY, event.offsetX - half));
    if (place) this.setPlace(place);
  }
  press(event, toLine) {
    const step = { ArrowLeft: 1, ArrowRight: -1 }[event.key];
    if (event.key === "Enter" && this.place.line) toLine(this.place.line);
    if (!step) return;
    event.preventDefault();
    for (let k = 1; k < rays; ++k) {
      const next = this.shown.found.get((this.place.index + step * k + k * rays) % rays);
      if (next) return this.setPlace(next);
    }
  }
  // All round the lobe, so far off its outline, or where that is not known a gap.
  trace(context, offOf, back = false) {
    for (let i = 0; i <= rays; ++i) {
      const at = (back ? rays - i : i) % rays, off = offOf(at), point = this.surface[at];
      if (off !== null) context.lineTo(point.x + off * point.nx, point.y + off * point.ny);
    }
  }
  draw(context, scale) {
    const { found } = this.shown, { times, tolerance, place, surface } = this;
    const of = (name) => (at) => (found.has(at) ? found.get(at)[name] * times : null);
    const line = (offOf, width, pen, dashes) => {
      context.setLineDash(dashes.map((each) => each / scale));
      context.lineWidth = width / scale;
      context.strokeStyle = ink(pen);
      context.beginPath();
      this.trace(context, offOf);
      context.stroke();
    };
    context.beginPath();
    this.trace(context, of("proudest"));
    context.closePath();
    this.trace(context, of("deepest"), true);
    context.closePath();
    context.fillStyle = ink("steel");
    context.fill("evenodd");
    line(() => 0, 1, "dim", []);
    for (const side of [-1, 1]) line(() => side * tolerance * times, 1.5, "ink", [7, 4]);
    for (const name of ["deepest", "proudest"]) line(of(name), 1.5, "cut", []);
    context.setLineDash([]);
    if (!place) return;
    const { x, y, nx, ny } = surface[place.index], long = this.reach * 0.2;
    context.strokeStyle = ink("warn");
    context.lineWidth = 3 / scale;
    context.beginPath();
    context.moveTo(x - long * nx, y - long * ny);
    context.lineTo(x + long * nx, y + long * ny);
    context.stroke();
  }
}

for (const { place } of places("backplot")) new Backplot(place);
