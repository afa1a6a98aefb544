// Faults lead to their place in the text; a mend takes the place of what is at fault, and undo takes it back.

// Type over a stretch of the field as a player would: so it stays in the browser's own undo.
export function type(field, start, end, text) {
  field.focus();
  field.setSelectionRange(start, end);
  if (!document.execCommand("insertText", false, text)) {
    field.setRangeText(text, start, end, "end");
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
  }
}

// Where a fault stands in the whole text: [start, end].
function place(field, { line, column, length }) {
  const lines = field.value.split("\n");
  const before = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
  const start = Math.min(before + Number(column) - 1, field.value.length);
  return [start, Math.min(start + Number(length), before + (lines[line - 1] ?? "").length)];
}

// Focus alone does not bring a line into view, since the field is as high as its text.
function bring(field, line) {
  const number = field.parentElement.querySelector(`.line:nth-child(${line})`);
  (number ?? field).scrollIntoView({ block: "center" });
}

export function answerMends(form, field) {
  let drawn = field.value;
  form.addEventListener("htmx:beforeRequest", () => { form.dataset.asked = field.value; });
  form.addEventListener("htmx:afterSwap", () => { drawn = form.dataset.asked ?? field.value; });
  form.addEventListener("click", (event) => {
    const pressed = event.target.closest("[data-mend], [data-goto]");
    if (!pressed) return;
    event.preventDefault();
    const at = pressed.closest("[data-line]").dataset;
    document.querySelector("#see-text").checked = true;
    // A fault told before the last keys may have moved: then its line is shown, and nothing is typed over.
    const [start, end] = place(field, at);
    if (pressed.dataset.mend !== undefined && field.value === drawn) type(field, start, end, pressed.dataset.mend);
    else {
      field.focus();
      field.setSelectionRange(start, Math.max(start, end));
    }
    bring(field, at.line);
  });
}
