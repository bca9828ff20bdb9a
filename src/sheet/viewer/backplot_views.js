// What is seen of a program: the section under the cutter, the shaft from the side, the stock of every block, and what is
// left around a lobe. Each view is a board that draws what its plot shows.
const roundScale = (wanted) => {
  const ten = 10 ** Math.floor(Math.log10(wanted));
  return [5, 4, 3, 2, 1.5, 1].map((each) => each * ten).find((each) => each <= wanted) || ten;
};
const label = (context, text, x, y, size, align = "left") => {
  context.fillStyle = ink("ink");
  context.font = `${size}px system-ui, sans-serif`;
  context.textAlign = align;
  context.fillText(text, x, y);
};
// A bar of a round length with its figure, at the lower left of a board of so many dots to a unit.
const scaleBar = (context, height, scale, dot) => {
  const long = roundScale((80 * dot) / scale), y = height - 10 * dot, end = 10 * dot + long * scale;
  context.strokeStyle = ink("ink");
  context.lineWidth = 1.5 * dot;
  context.beginPath();
  for (const x of [10 * dot, end]) { context.moveTo(x, y - 4 * dot); context.lineTo(x, y + 4 * dot); }
  context.moveTo(10 * dot, y);
  context.lineTo(end, y);
  context.stroke();
  label(context, `${long} ${unit}`, end + 6 * dot, y + 4 * dot, 13 * dot);
};

const traceCutter = (context, { cutter }, place, plane, far) => {
  const section = sectionOf(cutter, plane.z - place.axial) || sectionOf(cutter, (cutter.from + cutter.to) / 2);
  const low = place.radial + cutter.to_tip + section.raise, { flat, corner, shift } = section;
  context.beginPath();
  if (cutter.shape === "round") context.arc(low + corner, shift, corner, 0, fullTurn);
  else {
    context.moveTo(far, shift + flat + corner);
    context.lineTo(low + corner, shift + flat + corner);
    context.arc(low + corner, shift + flat, corner, Math.PI / 2, Math.PI);
    context.arc(low + corner, shift - flat, corner, Math.PI, 1.5 * Math.PI);
    context.lineTo(far, shift - flat - corner);
  }
};

// The shaft across, turned as it stands under the cutter, which comes from the right; what the block takes is filled.
const sectionView = (plot) => {
  const { program } = plot, reach = program.shaft.blank_radius * 1.7;
  return board("the shaft in section under the cutter", 1, (context, size, height, dot) => {
    const run = plot.shown, place = plot.seen, scale = size / 2 / reach, plane = run.planes[run.plane], stock = run.stocks[run.plane];
    const turn = place ? -run.facing(place.rotary) : 0;
    context.setTransform(scale, 0, 0, -scale, size / 2, size / 2);
    context.lineWidth = (1.5 * dot) / scale;
    context.fillStyle = ink("steel");
    context.strokeStyle = ink("dim");
    tracePoints(context, stock.outline(), turn);
    context.fill();
    context.stroke();
    context.fillStyle = context.strokeStyle = ink("warn");
    context.lineWidth = (stock.blank * fullTurn) / rays;
    context.beginPath();
    for (let i = 0; run.taken > 0 && i < rays; ++i) {
      if (stock.block[i] !== run.next - 1) continue;
      const angle = (i / rays) * fullTurn + turn, c = Math.cos(angle), s = Math.sin(angle);
      context.moveTo(stock.left[i] * c, stock.left[i] * s);
      context.lineTo(stock.before[i] * c, stock.before[i] * s);
    }
    context.stroke();
    context.lineWidth = (2.2 * dot) / scale;
    context.strokeStyle = ink("ink");
    tracePoints(context, model.lobes[plane.lobe].outline, turn);
    context.stroke();
    if (place) { context.strokeStyle = ink("cut"); traceCutter(context, program, place, plane, reach * 2); context.stroke(); }
    context.setTransform(1, 0, 0, 1, 0, 0);
    scaleBar(context, height, scale, dot);
  });
};

// Through the axis and the cutter: above it what faces the cutter, below it what lies opposite.
const sideView = (plot) => {
  const { program } = plot, { shaft, cutter } = program;
  const ends = [...plot.shown.planes, ...shaft.journals].map((each) => each.z + each.width / 2);
  const end = Math.max(shaft.length ?? 0, ...ends), margin = Math.max(cutter.to - cutter.from, end * 0.04);
  const radius = Math.max(shaft.blank_radius, ...shaft.journals.map((each) => each.radius));
  const span = end + 2 * margin, high = radius * 2.4, low = radius * 1.1 + span * 0.07; // room for the scale below
  return board("the shaft from the side, the drive end to the left", Math.min(0.9, (high + low) / span), (context, width, height, dot) => {
    const run = plot.shown, place = plot.seen, scale = Math.min(width / span, height / (high + low));
    const x = (z) => (z + margin) * scale, y = (r) => (high - r) * scale;
    const box = (from, to, above, below, fill, pen, dashes = []) => {
      context.setLineDash(dashes.map((each) => each * dot));
      context.fillStyle = fill;
      context.strokeStyle = pen;
      if (fill) context.fillRect(x(from), y(above), (to - from) * scale, (above + below) * scale);
      context.strokeRect(x(from), y(above), (to - from) * scale, (above + below) * scale);
    };
    context.lineWidth = 1.5 * dot;
    box(0, end, shaft.blank_radius, shaft.blank_radius, null, ink("rule"), [6, 4]);
    for (const { z, width: wide, radius: r } of shaft.journals) box(z - wide / 2, z + wide / 2, r, r, ink("steel"), ink("dim"));
    const facing = place ? run.facing(place.rotary) : 0, ray = Math.floor(inTurn(facing) / fullTurn * rays) % rays;
    run.planes.forEach(({ z, width: wide }, k) => {
      const { left } = run.stocks[k];
      box(z - wide / 2, z + wide / 2, left[ray], left[(ray + rays / 2) % rays], ink("steel"), ink("ink"));
    });
    context.setLineDash([12 * dot, 3 * dot, 2 * dot, 3 * dot]);
    context.strokeStyle = ink("dim");
    context.beginPath();
    context.moveTo(0, y(0));
    context.lineTo(width, y(0));
    context.stroke();
    context.setLineDash([]);
    if (place) drawFromSide(context, cutter, place, { x, y, scale, high });
    scaleBar(context, height, scale, dot);
  });
};
const drawFromSide = (context, cutter, place, { x, y, scale, high }) => {
  const tip = place.radial + cutter.to_tip, top = cutter.shape === "upright" ? Math.max(high, tip) : tip + 2 * cutter.radius;
  context.strokeStyle = ink("cut");
  context.beginPath();
  if (cutter.shape === "lying") context.arc(x(place.axial), y(tip + cutter.radius), cutter.radius * scale, 0, fullTurn);
  else context.rect(x(place.axial + cutter.from), y(top), (cutter.to - cutter.from) * scale, (top - tip) * scale);
  context.stroke();
};

// Every block's stock as a bar; blocks that share a dot of the screen show their most. The bars are drawn anew only when
// they change.
const takenView = (plot) => {
  const picture = document.createElement("canvas");
  let drawn = "";
  const drawBars = (width, height, top, dot) => {
    const most = new Float32Array(width), tall = height - top - 2 * dot, full = plot.mostTaken || 1;
    for (let i = 0; i < plot.ready; ++i) {
      const at = Math.floor((i / plot.moves.count) * width);
      if (plot.taken[i] > most[at]) most[at] = plot.taken[i];
    }
    picture.width = width;
    picture.height = height;
    const context = picture.getContext("2d");
    context.fillStyle = ink("warn");
    for (let x = 0; x < width; ++x) if (most[x] > 0) context.fillRect(x, top + tall * (1 - most[x] / full), 1, tall * (most[x] / full));
    context.strokeStyle = ink("rule");
    context.lineWidth = dot;
    context.setLineDash([4 * dot, 4 * dot]);
    context.beginPath();
    for (const share of [0, 0.5]) { context.moveTo(0, top + tall * share); context.lineTo(width, top + tall * share); }
    context.stroke();
    context.setLineDash([]);
    label(context, `${plot.mostTaken.toFixed(decimals)} ${unit}`, 4 * dot, 14 * dot, 13 * dot);
    label(context, "stock each block takes", width - 4 * dot, 14 * dot, 13 * dot, "right");
  };
  return board("stock that each block takes, the program from left to right", 0.16, (context, width, height, dot) => {
    const top = 20 * dot, wanted = [width, height, plot.ready, ink("warn")].join();
    if (wanted !== drawn) drawBars(width, height, top, dot);
    drawn = wanted;
    context.drawImage(picture, 0, 0);
    const at = (plot.shown.next / plot.moves.count) * width;
    context.fillStyle = ink("cut");
    context.fillRect(Math.min(width - 2 * dot, at - dot), top, 2 * dot, height - top);
  });
};

const deviationsOf = ({ around }) => {
  const found = new Map();
  for (let i = 0; i < around.length; i += 4) {
    found.set(around[i], { index: around[i], deepest: around[i + 1] / 1e6, proudest: around[i + 2] / 1e6, line: around[i + 3] });
  }
  return found;
};
// The place nearest to a direction on the shaft.
const placeAt = (deviations, angle) => {
  const wanted = Math.floor((inTurn(angle) / fullTurn) * rays) % rays;
  for (let off = 0; off < rays; ++off) {
    const place = deviations.get((wanted + off) % rays) || deviations.get((wanted - off + rays) % rays);
    if (place) return place;
  }
  return null;
};
