// What goes wrong in the page itself is told in words, with what to do; what was typed stays.
import { button, element } from "./elements.js";
import { EngineFault } from "./engine_link.js";

const said = (fault) => (fault instanceof Error ? fault.message : String(fault));

// Gives the function that faults are told to; faults that nobody awaited come to it, too.
export function faulty(saveJob) {
  const place = document.getElementById("fault");
  const tell = (fault) => {
    const engine = fault instanceof EngineFault;
    place.hidden = false;
    place.replaceChildren(
      element("p", {
        textContent: engine
          ? `Something went wrong: ${said(fault)}.`
          : `This page made a mistake of its own (${said(fault)}). Your job is untouched; what is shown beside it may be out of date.`,
      }),
      element("p", {
        textContent:
          "Save the job, then load the page again. If it happens again with the same job, please report it together with the job's file.",
      }),
      element(
        "div",
        { className: "buttons" },
        button("save the job", saveJob),
        button("go on", () => {
          place.hidden = true;
        }),
      ),
    );
  };
  addEventListener("error", (event) => {
    if (!/ResizeObserver/.test(event.message)) tell(event.error ?? event.message);
  });
  addEventListener("unhandledrejection", (event) => tell(event.reason));
  return tell;
}
