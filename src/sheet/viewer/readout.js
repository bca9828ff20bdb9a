// A lobe under its follower, at the cam angle that a slider, the arrow keys or a finger on the picture say.
const samples = 10;
const sampleAt = (motion, angle) => {
  const step = motion[samples] - motion[0];
  const place = Math.min(Math.max((angle + 180) / step, 0), motion.length / samples - 1.000001);
  const first = Math.floor(place) * samples, share = place - Math.floor(place);
  return Array.from({ length: samples }, (_, i) => motion[first + i] + share * (motion[first + samples + i] - motion[first + i]));
};

const drawLobe = (context, lobe, sample, scale) => {
  const turn = Math.PI / 2 - radians(sample[5]);
  context.strokeStyle = ink("ink");
  context.fillStyle = ink("steel");
  tracePoints(context, lobe.outline, turn);
  context.fill();
  context.stroke();
  context.setLineDash([6 / scale, 4 / scale]);
  context.beginPath();
  context.arc(0, 0, lobe.base_radius, 0, 2 * Math.PI);
  context.stroke();
  context.setLineDash([]);
};

const drawFollower = (context, lobe, sample, reach, scale) => {
  const turn = Math.PI / 2 - radians(sample[5]), c = Math.cos(turn), s = Math.sin(turn);
  const at = [sample[6] * c - sample[7] * s, sample[6] * s + sample[7] * c];
  const normal = [sample[8] * c - sample[9] * s, sample[8] * s + sample[9] * c];
  context.strokeStyle = ink("cut");
  context.lineWidth = 3 / scale;
  context.beginPath();
  if (lobe.follower === "flat") {
    for (const way of [-0.6, 0.6]) context.lineTo(at[0] - way * reach * normal[1], at[1] + way * reach * normal[0]);
  } else if (lobe.follower_radius > 0) {
    context.arc(at[0] + normal[0] * lobe.follower_radius, at[1] + normal[1] * lobe.follower_radius, lobe.follower_radius, 0, 2 * Math.PI);
  }
  context.stroke();
  context.fillStyle = ink("cut");
  context.beginPath();
  context.arc(at[0], at[1], 4 / scale, 0, 2 * Math.PI);
  context.fill();
};

for (const { place, index } of places("readout")) {
  const lobe = model.lobes[index];
  const reach = (lobe.largest_radius + (lobe.follower === "flat" ? 0 : Math.min(lobe.follower_radius, lobe.largest_radius))) * 1.15;
  const slider = element("input", { type: "range", min: -180, max: 180, step: 0.5, value: 0 });
  slider.setAttribute("aria-label", "cam angle of " + lobe.name + ", degrees");
  const words = element("p", { className: "figures" });
  words.setAttribute("aria-live", "polite");
  const now = () => sampleAt(lobe.motion, Number(slider.value));
  const picture = stage(reach, lobe.name + " under its follower", (context, scale) => {
    drawLobe(context, lobe, now(), scale);
    drawFollower(context, lobe, now(), reach, scale);
  });
  const show = () => {
    const [angle, lift, velocity, acceleration] = now();
    words.textContent = `cam angle ${angle.toFixed(1)}°: lift ${lift.toFixed(decimals)} ${unit}, velocity ${velocity.toFixed(decimals + 1)} per degree, ` +
      `acceleration ${acceleration.toFixed(decimals + 3)} per degree²`;
    picture.redraw();
  };
  const turnTo = (angle) => { slider.value = Math.min(180, Math.max(-180, angle)); show(); };
  slider.addEventListener("input", show);
  picture.canvas.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[event.key];
    if (!step) return;
    event.preventDefault();
    turnTo(Number(slider.value) + step);
  });
  picture.canvas.addEventListener("pointermove", (event) => {
    if (event.buttons || event.pointerType === "mouse") turnTo((event.offsetX / picture.canvas.clientWidth) * 360 - 180);
  });
  place.append(picture.canvas, slider, words);
  show();
}
