// The questions to begin with: one card after the other, as the steps at the bench go; at the end there is a commented job.
import { changeUnits, checks, faultOf, first, proposals } from "./answers.js";
import { button, element, newId } from "./elements.js";
import { jobFrom } from "./job_from_answers.js";
import { cards } from "./question_cards.js";
import senses from "desk:senses";

const sensesPicture = () =>
  element(
    "details",
    {},
    element("summary", { textContent: "Which way is that? A picture of the senses" }),
    element(
      "figure",
      { className: "senses", tabIndex: 0, role: "region", "aria-label": "the senses of angles" },
      element("img", {
        src: "data:image/svg+xml," + encodeURIComponent(senses),
        alt: "The senses of angles, seen from the drive end of the shaft",
      }),
    ),
  );

export class Questions {
  // `done(name, text)` takes the job that was written; `posts` gives [name, summary] of each post-processor.
  constructor({ done, leave, posts, fault }) {
    Object.assign(this, { done, leave, posts, fault });
    this.answers = first();
    this.at = 0;
    this.whole = element("form", { className: "step questions", noValidate: true, "aria-label": "questions to begin with" });
    this.whole.addEventListener("submit", (event) => {
      event.preventDefault();
      this.on();
    });
    this.whole.addEventListener("keydown", (event) => {
      if (event.key === "Escape") this.leave();
    });
  }
  show() {
    const card = cards[this.at],
      last = this.at === cards.length - 1;
    this.words = element("p", { className: "fault", role: "alert", hidden: true });
    this.fields = element("div", { className: "fields" });
    this.whole.replaceChildren(
      element("p", { className: "progress", textContent: `question ${this.at + 1} of ${cards.length}` }),
      element("h2", { textContent: card.title, tabIndex: -1 }),
      ...(card.about ? [element("p", { className: "hint", textContent: card.about })] : []),
      this.fields,
      card.senses ? sensesPicture() : "",
      this.words,
      element(
        "div",
        { className: "buttons" },
        button("◀ back", () => this.turn(-1), { disabled: this.at === 0 }),
        element("button", { type: "submit", className: "main", textContent: last ? "write the job" : "next ▶" }),
        button("leave the questions", () => this.leave()),
      ),
    );
    this.drawFields();
  }
  drawFields(focus) {
    const { answers: a } = this;
    this.proposing = [];
    const drawn = (field) => (field.options ? this.choice(field) : field.posts ? this.postChoice(field) : this.entry(field));
    this.fields.replaceChildren(...cards[this.at].fields.filter((field) => !field.when || field.when(a)).map(drawn));
    this.propose();
    const again = focus && this.fields.querySelector(`[name="${focus}"]${focus === "cylinders" ? "" : ":checked"}`);
    again?.focus();
    if (again?.type === "text") again.setSelectionRange(again.value.length, again.value.length);
  }
  entry(field) {
    const { answers: a } = this,
      id = newId("answer"),
      said = (value) => (typeof value === "function" ? value(a) : value),
      unit = said(field.unit);
    const hint = element("p", { className: "hint", id: newId("hint") });
    const input = element("input", {
      id,
      name: field.name,
      type: "text",
      value: a[field.name],
      autocomplete: "off",
      spellcheck: false,
      inputMode: field.wide || field.name === "order" || field.name === "firing" ? "text" : field.whole ? "numeric" : "decimal",
      "aria-describedby": hint.id,
      oninput: () => {
        a[field.name] = input.value;
        if (field.name === "cylinders") this.drawFields("cylinders");
        else this.propose();
      },
    });
    this.proposing.push({ field, input, hint });
    return element(
      "div",
      { className: field.wide ? "answer wide" : "answer" },
      element("label", { htmlFor: id, textContent: said(field.words) }),
      element("span", { className: "with-unit" }, input, unit ? element("span", { className: "unit", textContent: unit }) : null),
      hint,
    );
  }
  // What an empty field comes to, as far as the answers say.
  propose() {
    const proposed = proposals(this.answers);
    for (const { field, input, hint } of this.proposing) {
      const proposal = String(proposed[field.name] ?? "");
      input.placeholder = proposal;
      hint.textContent = [field.hint, proposal && input.value === "" ? `if empty: ${proposal}` : ""].filter(Boolean).join("; ");
      hint.hidden = !hint.textContent;
    }
  }
  choice(field) {
    const { answers: a } = this,
      words = typeof field.words === "function" ? field.words(a) : field.words;
    const options = field.options.map(([word, shown]) => {
      const id = newId("option"),
        input = element("input", {
          id,
          type: "radio",
          name: field.name,
          value: word,
          checked: a[field.name] === word,
          onchange: () => {
            if (field.name === "units") changeUnits(a, word);
            a[field.name] = word;
            if (field.name === "way") a.post = "";
            this.drawFields(field.name);
          },
        });
      return element("label", { className: "option", htmlFor: id }, input, element("span", { textContent: shown }));
    });
    return element(
      "fieldset",
      { className: field.stacked ? "answer wide stacked" : "answer wide" },
      element("legend", { textContent: words }),
      element("div", { className: "options" }, ...options),
      field.hint ? element("p", { className: "hint", textContent: field.hint }) : null,
    );
  }
  postChoice(field) {
    const { answers: a } = this,
      id = newId("answer"),
      posts = this.posts().filter(([name]) => a.way !== "caxis" || /xzc/.test(name));
    const hint = element("p", { className: "hint", id: newId("hint") }),
      tell = () => {
        hint.textContent = posts.find(([name]) => name === select.value)?.[1] ?? "";
      };
    const select = element(
      "select",
      {
        id,
        name: field.name,
        "aria-describedby": hint.id,
        onchange: () => {
          a.post = select.value;
          tell();
        },
      },
      ...posts.map(([name]) => element("option", { value: name, textContent: name })),
    );
    select.value = posts.some(([name]) => name === a.post) ? a.post : proposals(a).post;
    tell();
    return element("div", { className: "answer wide" }, element("label", { htmlFor: id, textContent: field.words }), select, hint);
  }
  // What is wrong is told at the card, and its field takes the next key.
  tellFault() {
    const fault = checks[cards[this.at].id] && faultOf(cards[this.at].id, this.answers);
    this.words.hidden = !fault;
    for (const input of this.fields.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
    if (!fault) return false;
    this.words.textContent = fault[1];
    const input = this.fields.querySelector(`[name="${fault[0]}"]`);
    input?.setAttribute("aria-invalid", "true");
    input?.focus();
    return true;
  }
  turn(way) {
    this.at = Math.min(cards.length - 1, Math.max(0, this.at + way));
    this.show();
    this.whole.querySelector("h2").focus();
    this.whole.scrollIntoView({ block: "nearest" });
  }
  async on() {
    if (this.tellFault()) return;
    if (this.at + 1 < cards.length) return this.turn(1);
    this.whole.setAttribute("aria-busy", "true");
    try {
      const name =
        (this.answers.title || "camshaft")
          .toLowerCase()
          .replace(/[^a-z0-9]+/g, "-")
          .replace(/^-|-$/g, "") || "camshaft";
      this.done(`${name}.toml`, await jobFrom(this.answers));
    } catch (fault) {
      this.fault(fault);
    }
    this.whole.removeAttribute("aria-busy");
  }
}
