// The program's own moves: the shaft in section under the cutter, the stock as it goes, line by line.
const rays = 720;
const cuts = (kind) => kind === 1 || kind === 2; // feeds and arcs

// A lobe's stock, ray by ray, in the shaft's frame.
class Stock {
  constructor(radius) { this.left = new Float64Array(rays).fill(radius); }
  // A cutter at `distance` from the shaft's axis (its centre where it is round, else its flat end) in the direction `towards`.
  cut(cutter, distance, towards) {
    const widest = cutter.round ? Math.asin(Math.min(1, cutter.radius / Math.max(distance, cutter.radius))) : 1.2;
    const first = Math.floor(((towards - widest) / (2 * Math.PI)) * rays), last = Math.ceil(((towards + widest) / (2 * Math.PI)) * rays);
    for (let i = first; i <= last; ++i) {
      const off = (i / rays) * 2 * Math.PI - towards, c = Math.cos(off), s = Math.sin(off);
      let reach = Infinity;
      if (cutter.round) {
        const under = cutter.radius * cutter.radius - distance * distance * s * s;
        if (under >= 0) reach = distance * c - Math.sqrt(under);
      } else if (c > 0 && Math.abs((distance / c) * s) <= cutter.radius) reach = distance / c;
      const ray = ((i % rays) + rays) % rays;
      if (reach < this.left[ray]) this.left[ray] = Math.max(reach, 0);
    }
  }
  outline() {
    const points = [];
    for (let i = 0; i < rays; ++i) points.push(this.left[i] * Math.cos((i / rays) * 2 * Math.PI), this.left[i] * Math.sin((i / rays) * 2 * Math.PI));
    return points;
  }
}

// Steps through the moves; going back begins anew.
class Run {
  constructor(program) {
    this.program = program;
    this.count = program.moves.length / 6;
    this.lines = program.text.split("\n");
    this.begin();
  }
  begin() { this.next = 0; this.place = null; this.stocks = model.lobes.map(() => new Stock(this.program.blank_radius)); this.lobe = 0; this.line = 0; }
  // Which lobe the cutter's width covers, -1: none.
  lobeAt(axial) {
    const half = this.program.cutter.width / 2;
    return model.lobes.findIndex((lobe) => Math.abs(lobe.z - axial) < half + lobe.width / 2);
  }
  distance(radial) { return this.program.cutter.round ? radial + this.program.cutter.to_centre : radial; }
  facing(rotary) { return -this.program.cutter.rotary_sense * radians(rotary); }
  step() {
    const [kind, line, radial, axial, rotary] = this.program.moves.slice(this.next * 6, this.next * 6 + 6);
    this.next += 1;
    this.line = line;
    if (radial === null || axial === null || rotary === null) return;
    const to = { radial, axial, rotary }, from = this.place || to;
    this.place = to;
    const lobe = this.lobeAt(axial);
    if (lobe < 0) return;
    this.lobe = lobe;
    if (!cuts(kind)) return;
    const parts = Math.max(1, Math.ceil(Math.abs(to.rotary - from.rotary) / 0.5));
    for (let i = 1; i <= parts; ++i) {
      const share = i / parts;
      this.stocks[lobe].cut(this.program.cutter, this.distance(from.radial + share * (to.radial - from.radial)), this.facing(from.rotary + share * (to.rotary - from.rotary)));
    }
  }
  goTo(move) {
    if (move < this.next) this.begin();
    while (this.next < move) this.step();
  }
}

const drawCutter = (context, run, reach) => {
  const distance = run.distance(run.place.radial), cutter = run.program.cutter;
  context.strokeStyle = ink("cut");
  context.beginPath();
  if (cutter.round) context.arc(distance, 0, cutter.radius, 0, 2 * Math.PI);
  else { context.moveTo(reach * 2, cutter.radius); context.lineTo(distance, cutter.radius); context.lineTo(distance, -cutter.radius); context.lineTo(reach * 2, -cutter.radius); }
  context.stroke();
};

for (const { place } of places("backplot")) {
  const program = model.program, run = new Run(program);
  const reach = program.blank_radius * 1.8;
  const slider = element("input", { type: "range", min: 0, max: run.count, step: 1, value: 0 });
  slider.setAttribute("aria-label", "move of the program");
  const words = element("p", { className: "figures" }), line = element("p", { className: "line" });
  const picture = stage(reach, "the shaft in section under the cutter", (context) => {
    const turn = run.place ? -run.facing(run.place.rotary) : 0;
    context.fillStyle = ink("steel");
    context.strokeStyle = ink("dim");
    tracePoints(context, run.stocks[run.lobe].outline(), turn);
    context.fill();
    context.stroke();
    context.strokeStyle = ink("ink");
    tracePoints(context, model.lobes[run.lobe].outline, turn);
    context.stroke();
    if (run.place) drawCutter(context, run, reach);
  });
  const show = () => {
    run.goTo(Number(slider.value));
    words.textContent = `move ${run.next} of ${run.count}, ${model.lobes[run.lobe].name}` +
      (run.place ? `: radial ${run.place.radial.toFixed(decimals)}, axial ${run.place.axial.toFixed(decimals)}, rotary ${run.place.rotary.toFixed(3)}°` : "");
    line.textContent = run.line ? `${run.line}  ${run.lines[run.line - 1] || ""}` : "";
    picture.redraw();
  };
  let playing = false;
  const play = element("button", { type: "button", textContent: "play" });
  const tick = () => {
    if (!playing) return;
    const each = Math.max(1, Math.round(run.count / 1800));
    slider.value = Math.min(run.count, run.next + each);
    show();
    if (run.next < run.count) requestAnimationFrame(tick);
    else { playing = false; play.textContent = "play"; }
  };
  play.addEventListener("click", () => {
    playing = !playing;
    play.textContent = playing ? "stop" : "play";
    if (playing && run.next >= run.count) slider.value = 0, run.begin();
    if (playing) requestAnimationFrame(tick);
  });
  const wanted = element("input", { type: "number", min: 1, value: 1, id: "wanted-line" });
  const jump = element("button", { type: "button", textContent: "to line", onclick: () => {
    let move = 0;
    while (move < run.count && program.moves[move * 6 + 1] < Number(wanted.value)) ++move;
    slider.value = Math.min(run.count, move + 1);
    show();
  } });
  const label = element("label", { htmlFor: "wanted-line", textContent: "line " }, wanted);
  slider.addEventListener("input", show);
  place.append(picture.canvas, slider, words, line, element("div", { className: "buttons" }, play, label, jump));
  show();
}
