// What the key under the cursor means, for who has no pointer: below the text, as the cursor comes to it.
import { element } from "./elements.js";
import { helpAt } from "./key_help.js";

export class KeyHere {
  constructor() {
    this.whole = element(
      "details",
      { className: "key-here", open: true },
      element("summary", { textContent: "The key at the cursor" }),
      element("div", {}, element("p", { className: "hint", textContent: "Put the cursor on a key, and what it means stands here." })),
    );
  }
  // After the cursor has come to rest.
  at(text, place) {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => {
      const found = helpAt(text, place);
      this.whole.lastChild.replaceChildren(found ? found.shown : element("p", { className: "hint", textContent: "Here stands none." }));
    }, 120);
  }
}
