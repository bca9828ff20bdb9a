// The viewer: read-outs, the steps at the bench, the plot of the program. It takes the model and nothing else. This
// file holds what the others share.
const model = JSON.parse(document.getElementById("model").textContent);
const unit = model.units === "inch" ? "in" : "mm";
const decimals = model.units === "inch" ? 4 : 3;

const element = (name, properties = {}, ...children) => {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
};
const places = (kind) => [...document.querySelectorAll("." + kind)].map((place) => ({ place, index: Number(place.dataset.index) }));
const ink = (name) => getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim();
const radians = (degrees) => (degrees * Math.PI) / 180;

// A canvas as sharp as the screen, its middle the shaft's axis, y up; draw(context, scale) is called on every change.
const stage = (reach, label, draw) => {
  const canvas = element("canvas", { tabIndex: 0, role: "img" });
  canvas.setAttribute("aria-label", label);
  const redraw = () => {
    const size = Math.max(200, Math.round(canvas.clientWidth * (window.devicePixelRatio || 1)));
    if (canvas.width !== size) canvas.width = canvas.height = size;
    const context = canvas.getContext("2d");
    const scale = size / 2 / reach;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, size, size);
    context.setTransform(scale, 0, 0, -scale, size / 2, size / 2);
    context.lineWidth = 1.5 / scale;
    draw(context, scale);
  };
  new ResizeObserver(redraw).observe(canvas);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", redraw);
  return { canvas, redraw };
};

const tracePoints = (context, points, turn) => {
  const c = Math.cos(turn), s = Math.sin(turn);
  context.beginPath();
  for (let i = 0; i < points.length; i += 2) context.lineTo(points[i] * c - points[i + 1] * s, points[i] * s + points[i + 1] * c);
  context.closePath();
};
