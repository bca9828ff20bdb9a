// Elements of the page, made in one line each.
export const element = (name, properties = {}, ...children) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (value === undefined || value === null || value === false) continue;
    if (key in made && !key.startsWith("aria") && key !== "list" && key !== "form") made[key] = value;
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.filter((child) => child !== null && child !== undefined));
  return made;
};
export const button = (words, act, properties = {}) =>
  element("button", { type: "button", textContent: words, onclick: act, ...properties });
export const drawn = (name, attributes = {}, ...children) => {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
};

let numbered = 0;
export const newId = (kind) => `${kind}-${(numbered += 1)}`;

// One of several words, the chosen one given back by `value`.
export const chooser = (label, options, value, act) => {
  const list = element(
    "select",
    { id: newId("choice"), onchange: () => act(list.value) },
    ...options.map(([word, shown]) => element("option", { value: word, textContent: shown ?? word })),
  );
  list.value = value;
  return element("label", { className: "chooser" }, element("span", { textContent: label }), list);
};

export const counted = (count, noun) => `${count} ${noun}${count === 1 ? "" : "s"}`;
