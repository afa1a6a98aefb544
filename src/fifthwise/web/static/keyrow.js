/* Keys of the keyboard for the keys of the song: arrows walk the row; - and + (or [ and ]) step by a
   semitone; Escape leaves the chart that stands alone. Whoever types in a field is left in peace. */
const STEPS = { "-": "down", "[": "down", "+": "up", "=": "up", "]": "up", Escape: "leave" };
const WALK = { ArrowLeft: -1, ArrowRight: 1 };

const typing = (element) => element.closest("input:not([type=checkbox]), select, textarea, [contenteditable]");

function walk(event) {
  const row = event.target.closest("[data-key-row]");
  if (!row) return;
  const seen = [...row.querySelectorAll("a")].filter((link) => link.offsetParent);
  const next = seen[seen.indexOf(event.target.closest("a")) + WALK[event.key]];
  if (!next) return;
  event.preventDefault();
  next.focus();
}

function step(event) {
  const link = document.querySelector(`[data-key="${STEPS[event.key]}"]`);
  if (!link) return;
  event.preventDefault();
  link.click();
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented || typing(event.target)) return;
  if (event.key in WALK) walk(event);
  else if (event.key in STEPS && !event.repeat) step(event);
});
