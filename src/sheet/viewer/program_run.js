// The program's own moves, and the stock as they take it, on rays half a degree apart in a few planes of every lobe.
const rays = 720;
const rayCos = Float64Array.from({ length: rays }, (_, i) => Math.cos((i / rays) * fullTurn));
const raySin = Float64Array.from({ length: rays }, (_, i) => Math.sin((i / rays) * fullTurn));
const chord = (radius, off) => Math.sqrt(Math.max(0, radius * radius - off * off));

// Of the model's whole numbers, each less the one before: the moves' places, NaN where they are not known.
const movesOf = (program) => {
  const flat = program.moves, count = flat.length / 6, at = [0, 0, 0, 0, 0];
  const moves = { count, kind: new Uint8Array(count), line: new Int32Array(count), radial: new Float64Array(count),
    axial: new Float64Array(count), rotary: new Float64Array(count), time: new Float64Array(count), clock: new Float64Array(count) };
  let waits = 0; // a move without a time of its own, which a person wants to see all the same
  for (let i = 0; i < count; ++i) {
    const kind = flat[6 * i];
    for (let k = 0; k < 5; ++k) at[k] += flat[6 * i + 1 + k];
    moves.kind[i] = kind & 7;
    moves.line[i] = at[0];
    moves.radial[i] = kind & 8 ? at[1] / 1e5 : NaN;
    moves.axial[i] = kind & 16 ? at[2] / 1e5 : NaN;
    moves.rotary[i] = kind & 32 ? at[3] / 1e5 : NaN;
    if (flat[6 * i + 5] === 0) waits += 0.2;
    moves.time[i] = at[4] / 1e3;
    moves.clock[i] = moves.time[i] + waits;
  }
  return moves;
};
// The first of the ascending values that is no less.
const firstFrom = (values, wanted) => {
  let low = 0, high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
};

// What a plane `off` along the shaft from the axial word cuts from the cutter: its lowest point so high over the tip, a
// flat of so much to both sides of its middle, a rounding at the flat's ends; null: the plane misses it.
const sectionOf = (cutter, off) => {
  const { shape, radius, corner, shift } = cutter;
  if (off < cutter.from || off > cutter.to) return null;
  if (shape === "round") return { raise: 0, flat: 0, corner: radius, shift };
  if (shape === "lying") return { raise: radius - chord(radius, off), flat: cutter.half_length, corner: 0, shift };
  if (corner < radius) return { raise: 0, flat: chord(radius - corner, off), corner, shift };
  return { raise: radius - chord(radius, off), flat: 0, corner: chord(radius, off), shift };
};

// A lobe's outline on rays at the middles of the proof's places, with the normals there and the
// cosine between normal and ray.
const surfaceOf = (outline) => {
  const points = [];
  for (let i = 0; i < outline.length; i += 2) points.push({ angle: inTurn(Math.atan2(outline[i + 1], outline[i])), radius: Math.sqrt(outline[i] ** 2 + outline[i + 1] ** 2) });
  points.sort((a, b) => a.angle - b.angle);
  const angles = points.map((each) => each.angle);
  const surface = Array.from({ length: rays }, (_, i) => {
    const angle = ((i + 0.5) / rays) * fullTurn, k = firstFrom(angles, angle);
    const after = points[k % points.length], before = points[(k + points.length - 1) % points.length];
    const gap = inTurn(after.angle - before.angle) || 1, share = inTurn(angle - before.angle) / gap;
    const radius = before.radius + share * (after.radius - before.radius);
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });
  return surface.map(({ x, y }, i) => {
    const next = surface[(i + 1) % rays], last = surface[(i + rays - 1) % rays];
    const dx = next.x - last.x, dy = next.y - last.y, long = Math.sqrt(dx * dx + dy * dy) || 1;
    const nx = dy / long, ny = -dx / long;
    return { x, y, nx, ny, lean: (x * nx + y * ny) / Math.sqrt(x * x + y * y) };
  });
};
// One plane's stock, ray by ray, in the shaft's frame, and what the last block took of it.
class Stock {
  constructor(blank, leans) {
    this.blank = blank;
    this.leans = leans;
    this.left = new Float32Array(rays).fill(blank);
    this.before = new Float32Array(rays);
    this.block = new Int32Array(rays).fill(-1);
  }
  // A section whose tip stands so far from the axis, in the direction `towards`; gives the most that this block has taken,
  // along the design's normal.
  cut({ raise, flat, corner, shift }, tip, towards, block) {
    const low = tip + raise, centre = low + corner;
    if (low >= this.blank || low <= 0) return 0;
    const widest = Math.min(Math.acos(low / this.blank), Math.atan2(flat + corner + Math.abs(shift), low));
    const first = Math.floor(((towards - widest) / fullTurn) * rays), last = Math.ceil(((towards + widest) / fullTurn) * rays);
    const ct = Math.cos(towards), st = Math.sin(towards), { left, before, leans } = this;
    let most = 0, ray = ((first % rays) + rays) % rays;
    for (let i = first; i <= last; ++i, ray = ray + 1 === rays ? 0 : ray + 1) {
      const c = rayCos[ray] * ct + raySin[ray] * st, s = raySin[ray] * ct - rayCos[ray] * st;
      let reach = low / c;
      const off = reach * s - shift;
      if (Math.abs(off) > flat) {
        const end = shift + (off > 0 ? flat : -flat), beside = centre * s - end * c, under = corner * corner - beside * beside;
        if (under < 0 || corner === 0) continue;
        reach = centre * c + end * s - Math.sqrt(under);
      }
      if (!(reach > 0 && reach < left[ray])) continue;
      if (this.block[ray] !== block) { this.block[ray] = block; before[ray] = left[ray]; }
      left[ray] = reach;
      const taken = (before[ray] - reach) * leans[ray];
      if (taken > most) most = taken;
    }
    return most;
  }
  outline() {
    const points = new Float64Array(2 * rays);
    for (let i = 0; i < rays; ++i) { points[2 * i] = this.left[i] * rayCos[i]; points[2 * i + 1] = this.left[i] * raySin[i]; }
    return points;
  }
}

// Planes of a lobe: as many as the cutter has to stand side by side on it.
const planesOf = (program) => model.lobes.flatMap((lobe, index) => {
  const count = Math.min(8, Math.max(1, Math.ceil(lobe.width / (program.cutter.to - program.cutter.from) - 1e-6)));
  return Array.from({ length: count }, (_, i) => ({ lobe: index, z: lobe.z + lobe.width * ((i + 0.5) / count - 0.5), width: lobe.width / count }));
});

// Steps through the moves from the first on.
class Run {
  constructor(program, moves) {
    const leans = model.lobes.map((lobe) => Float32Array.from(surfaceOf(lobe.outline), ({ lean }) => lean));
    Object.assign(this, { program, moves, leans, planes: planesOf(program) });
    this.begin();
  }
  begin() {
    this.next = 0;
    this.stocks = this.planes.map(({ lobe }) => new Stock(this.program.shaft.blank_radius, this.leans[lobe]));
    this.place = null;
    this.plane = 0;
    this.taken = 0;
  }
  facing(rotary) { return this.program.cutter.facing_per_degree * radians(rotary); }
  // Takes the next move; gives the most that it takes off.
  step() {
    const { moves, program: { cutter } } = this, i = this.next;
    this.next += 1;
    this.taken = 0;
    const to = { radial: moves.radial[i], axial: moves.axial[i], rotary: moves.rotary[i] };
    if (!(Number.isFinite(to.radial) && Number.isFinite(to.axial) && Number.isFinite(to.rotary))) return 0;
    const from = this.place || to;
    this.place = to;
    this.plane = this.planeAt(to.axial);
    if (moves.kind[i] !== 1 && moves.kind[i] !== 2) return 0;
    const parts = Math.max(1, Math.ceil(Math.abs(to.rotary - from.rotary) / 0.5));
    for (let k = 0; k < this.planes.length; ++k) {
      const { z } = this.planes[k];
      if (z < Math.min(from.axial, to.axial) + cutter.from || z > Math.max(from.axial, to.axial) + cutter.to) continue;
      for (let part = 1; part <= parts; ++part) {
        const share = part / parts, between = (a, b) => a + share * (b - a);
        const section = sectionOf(cutter, z - between(from.axial, to.axial));
        if (!section) continue;
        const tip = between(from.radial, to.radial) + cutter.to_tip;
        this.taken = Math.max(this.taken, this.stocks[k].cut(section, tip, this.facing(between(from.rotary, to.rotary)), i));
      }
    }
    return this.taken;
  }
  // The plane nearest to the cutter's middle, where it stands over a lobe; else the one before.
  planeAt(axial) {
    const { cutter } = this.program, middle = axial + (cutter.from + cutter.to) / 2;
    let best = -1, off = Infinity;
    this.planes.forEach(({ z, width }, k) => {
      if (z + width / 2 < axial + cutter.from || z - width / 2 > axial + cutter.to) return;
      if (Math.abs(z - middle) < off) { off = Math.abs(z - middle); best = k; }
    });
    return best < 0 ? this.plane : best;
  }
}

// A run that can be anywhere at once: another run goes ahead of it while nothing else is to be done, keeps the stock of
// every so many moves, and what each block takes.
class Plot {
  constructor(program) {
    this.program = program;
    this.moves = movesOf(program);
    this.lines = program.text.split("\n");
    this.shown = new Run(program, this.moves);
    this.ahead = new Run(program, this.moves);
    this.every = Math.max(200, Math.ceil(this.moves.count / 60));
    this.kept = [];
    this.taken = new Float32Array(this.moves.count);
    this.mostTaken = 0;
    this.atMost = 0;
    this.watchers = [];
    this.later();
  }
  later() {
    if (window.requestIdleCallback) requestIdleCallback((idle) => this.goAhead(Math.max(4, idle.timeRemaining())), { timeout: 100 });
    else setTimeout(() => this.goAhead(8), 16);
  }
  goAhead(milliseconds) {
    const until = performance.now() + milliseconds;
    while (this.ahead.next < this.moves.count && performance.now() < until) this.stepAhead();
    if (this.ahead.next < this.moves.count) this.later();
    else for (const watcher of this.watchers) watcher();
  }
  stepAhead() {
    const { ahead } = this, i = ahead.next;
    if (i % this.every === 0) this.kept.push({ left: ahead.stocks.map((stock) => stock.left.slice()), place: ahead.place, plane: ahead.plane });
    this.taken[i] = ahead.step();
    if (this.taken[i] > this.mostTaken) { this.mostTaken = this.taken[i]; this.atMost = i; }
  }
  get ready() { return this.ahead.next; }
  goTo(move) {
    const run = this.shown, index = Math.min(Math.floor(move / this.every), this.kept.length - 1);
    if (move < run.next || (index >= 0 && index * this.every > run.next)) {
      run.begin();
      if (index > 0 || (index === 0 && move >= 0)) this.restore(index);
    }
    while (run.next < move) run.step();
  }
  restore(index) {
    const { left, place, plane } = this.kept[index];
    left.forEach((each, k) => this.shown.stocks[k].left.set(each));
    Object.assign(this.shown, { next: index * this.every, place, plane });
  }
  lineOf(move) { return move > 0 ? this.moves.line[move - 1] : 0; }
  // The move, counted from 1, that the line makes, or the next line that makes one.
  moveOfLine(line) { return Math.min(this.moves.count, firstFrom(this.moves.line, line) + 1); }
}
