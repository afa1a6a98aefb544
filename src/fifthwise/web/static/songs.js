/* The list of songs: "/" goes to the field from anywhere on the page, and after More the first new song is next. */
const field = document.getElementById("find-text");
const typing = (element) => element.closest("input:not([type=radio]), select, textarea, [contenteditable]");

document.addEventListener("keydown", (event) => {
  if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || !field || typing(event.target)) return;
  event.preventDefault();
  field.focus();
  field.select();
});

let last = null;
document.addEventListener("htmx:beforeSwap", (event) => {
  last = event.detail.target.id === "more" ? event.detail.target.previousElementSibling : null;
});
document.addEventListener("htmx:afterSettle", () => {
  last?.nextElementSibling?.querySelector("a")?.focus();
  last = null;
});
