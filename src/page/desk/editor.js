// The text of the job: complaints at their places, what a key means under the pointer, and what could stand next.
import { acceptCompletion, autocompletion, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { HighlightStyle, StreamLanguage, syntaxHighlighting } from "@codemirror/language";
import { lintGutter, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, searchKeymap } from "@codemirror/search";
import { EditorState } from "@codemirror/state";
import {
  drawSelection,
  EditorView,
  highlightActiveLine,
  highlightActiveLineGutter,
  hoverTooltip,
  keymap,
  lineNumbers,
} from "@codemirror/view";
import { tags } from "@lezer/highlight";
import { completionsAt, helpAt } from "./key_help.js";

const toml = StreamLanguage.define({
  name: "job",
  languageData: { commentTokens: { line: "#" } },
  startState: () => ({ value: false }),
  token(stream, state) {
    if (stream.sol()) state.value = false;
    if (stream.eatSpace()) return null;
    if (stream.match(/^#.*/)) return "comment";
    if (!state.value && stream.sol() && stream.match(/^\[\[?[^\]]*\]?\]?/)) return "heading";
    if (stream.match(/^"(?:[^"\\]|\\.)*"?/) || stream.match(/^'[^']*'?/)) return "string";
    if (stream.match(/^[A-Za-z_][\w-]*(?=\s*=)/)) return "propertyName";
    if (stream.match(/^[+-]?\d[\d_.eE+-]*/)) return "number";
    if (stream.match(/^=/)) {
      state.value = true;
      return "operator";
    }
    stream.next();
    return null;
  },
});
const colours = HighlightStyle.define([
  { tag: tags.comment, color: "var(--dim)", fontStyle: "italic" },
  { tag: tags.heading, color: "var(--ink)", fontWeight: "700" },
  { tag: tags.string, color: "var(--text)" },
  { tag: tags.number, color: "var(--cut)" },
  { tag: tags.propertyName, color: "var(--ink)" },
]);

const help = hoverTooltip(
  (view, place) => {
    const found = helpAt(view.state.doc.toString(), place);
    return found && { pos: found.from, end: found.to, above: true, create: () => ({ dom: found.shown }) };
  },
  { hoverTime: 250 },
);

const complete = (context) => {
  const found = completionsAt(context.state.doc.toString(), context.pos);
  if (!found || (!context.explicit && found.from === context.pos)) return null;
  return { ...found, validFor: /^["\w.-]*$/ };
};

const sizes = EditorView.theme({
  "&": { fontSize: "0.94rem", backgroundColor: "var(--paper)", color: "var(--ink)" },
  ".cm-scroller": { fontFamily: "ui-monospace, monospace", lineHeight: "1.5" },
  ".cm-content": { caretColor: "var(--ink)" },
  ".cm-gutters": { backgroundColor: "var(--paper)", color: "var(--dim)", borderRight: "1px solid var(--rule)" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "var(--line)" },
  "&.cm-focused .cm-cursor": { borderLeftColor: "var(--ink)" },
  "&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground": { backgroundColor: "var(--chosen)" },
});

export class JobEditor {
  constructor(place, onChange, onPlace) {
    const watch = EditorView.updateListener.of((update) => {
      if (update.docChanged) onChange();
      if (update.docChanged || update.selectionSet) onPlace(update.state.selection.main.head);
    });
    this.extensions = [
      lineNumbers(),
      history(),
      drawSelection(),
      highlightActiveLine(),
      highlightActiveLineGutter(),
      highlightSelectionMatches(),
      lintGutter(),
      help,
      toml,
      syntaxHighlighting(colours),
      autocompletion({ override: [complete] }),
      EditorView.lineWrapping,
      sizes,
      watch,
      EditorView.contentAttributes.of({ "aria-label": "text of the job", tabindex: "0" }),
      keymap.of([
        { key: "Tab", run: acceptCompletion },
        ...completionKeymap,
        ...defaultKeymap,
        ...historyKeymap,
        ...searchKeymap,
        ...lintKeymap,
      ]),
    ];
    this.view = new EditorView({ parent: place, state: EditorState.create({ doc: "", extensions: this.extensions }) });
  }
  get text() {
    return this.view.state.doc.toString();
  }
  // A whole other job: what was typed before can't be undone into it.
  open(text) {
    this.view.setState(EditorState.create({ doc: text, extensions: this.extensions }));
    this.view.scrollDOM.scrollTop = 0;
  }
  // Parts of the text changed from elsewhere: [{ from, to, insert }].
  change(changes) {
    this.view.dispatch({ changes });
  }
  offsetOf(line, column) {
    const { doc } = this.view.state,
      found = doc.line(Math.min(Math.max(line, 1), doc.lines));
    const characters = [...found.text].slice(0, Math.max(0, column - 1)).join("").length;
    return Math.min(found.from + characters, found.to);
  }
  lineOf(place) {
    return this.view.state.doc.lineAt(place).number;
  }
  goTo(place) {
    this.view.dispatch({ selection: { anchor: place }, effects: EditorView.scrollIntoView(place, { y: "center" }) });
    this.view.focus();
  }
  // Complaints: { from, to, severity, words }.
  mark(complaints) {
    const diagnostics = complaints.map(({ from, to, severity, words }) => ({
      from,
      to: Math.max(to, from),
      severity: severity === "note" ? "info" : severity,
      message: words,
    }));
    this.view.dispatch(setDiagnostics(this.view.state, diagnostics));
  }
}
