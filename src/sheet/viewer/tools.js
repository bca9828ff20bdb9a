// The viewer: read-outs, the steps at the bench, the plot of the program. It takes the model and nothing else. This
// file holds what the others share.
const model = JSON.parse(document.getElementById("model").textContent);
const unit = model.units === "inch" ? "in" : "mm";
const decimals = model.units === "inch" ? 4 : 3;
const fullTurn = 2 * Math.PI;

const element = (name, properties = {}, ...children) => {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
};
const places = (kind) => [...document.querySelectorAll("." + kind)].map((place) => ({ place, index: Number(place.dataset.index) }));
const radians = (degrees) => (degrees * Math.PI) / 180;
const inTurn = (angle) => angle - fullTurn * Math.floor(angle / fullTurn);
const button = (words, act) => element("button", { type: "button", textContent: words, onclick: act });

// Colours of the page's style, looked up once until they change.
const darkness = matchMedia("(prefers-color-scheme: dark)");
let inks = {};
const ink = (name) => (inks[name] ??= getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim());
darkness.addEventListener("change", () => { inks = {}; });

// A canvas as sharp as the screen, `tall` times as high as wide; draw(context, width, height, dot) is called on every
// change, dot being a dot of the page in dots of the canvas.
const board = (label, tall, draw) => {
  const canvas = element("canvas", { tabIndex: 0 });
  canvas.setAttribute("role", "img");
  canvas.setAttribute("aria-label", label);
  canvas.style.aspectRatio = `1 / ${tall}`;
  const redraw = () => {
    const dot = window.devicePixelRatio || 1;
    const width = Math.max(200, Math.round(canvas.clientWidth * dot)), height = Math.round(width * tall);
    if (canvas.width !== width || canvas.height !== height) { canvas.width = width; canvas.height = height; }
    const context = canvas.getContext("2d");
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, width, height);
    draw(context, width, height, dot);
  };
  new ResizeObserver(redraw).observe(canvas);
  darkness.addEventListener("change", redraw);
  return { canvas, redraw };
};

// The same with the shaft's axis in its middle and y up, as far as `reach` in every direction; draw(context, scale).
const stage = (reach, label, draw) => board(label, 1, (context, size, _, dot) => {
  const scale = size / 2 / reach;
  context.setTransform(scale, 0, 0, -scale, size / 2, size / 2);
  context.lineWidth = (1.5 * dot) / scale;
  draw(context, scale / dot);
});

const tracePoints = (context, points, turn) => {
  const c = Math.cos(turn), s = Math.sin(turn);
  context.beginPath();
  for (let i = 0; i < points.length; i += 2) context.lineTo(points[i] * c - points[i + 1] * s, points[i] * s + points[i + 1] * c);
  context.closePath();
};

// What is folded is unfolded on paper, also where the page's style can't do it.
const unfolded = [];
addEventListener("beforeprint", () => {
  unfolded.push(...document.querySelectorAll("section > details:not([open])"));
  for (const folded of unfolded) folded.open = true;
});
addEventListener("afterprint", () => { for (const folded of unfolded.splice(0)) folded.open = false; });
