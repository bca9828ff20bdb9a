// Lines of a job file as a person would write them: a key, its value, and what it means behind it.
export const per = { mm: 1, inch: 25.4 };
export const grain = { mm: 0.01, inch: 0.0005 };
export const shown = (value) => {
  const text = Number(value.toFixed(6)).toString();
  return /[.e]/.test(text) ? text : text + ".0";
};
export const line = (key, value, about = "") => (about ? `${`${key} = ${value}`.padEnd(26)}  # ${about}` : `${key} = ${value}`);
export const block = (...lines) =>
  lines
    .flat()
    .filter((each) => each !== null)
    .join("\n") + "\n";
export const comment = (text) => {
  const lines = [""];
  for (const word of text.split(" ")) {
    if ((lines[lines.length - 1] + " " + word).length > 116) lines.push("");
    lines[lines.length - 1] += " " + word;
  }
  return lines.map((each) => "#" + each);
};

export const whole = (value) => String(Math.round(value));
export const even = (value, to) => Math.max(to, Math.round(value / to) * to);
