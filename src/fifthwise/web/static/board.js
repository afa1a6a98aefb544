/* The bar that is touched: its chord on the fingerboard beside the chart, and a bracket under it in the chart. */
const page = document.querySelector("[data-touch]");
const board = () => document.getElementById("fold-board");

/* A touch beside the signs means the chord that sounds there. */
function slotAt(bar, x) {
  const slots = [...bar.querySelectorAll("[data-at]")];
  return slots.filter((slot) => slot.getBoundingClientRect().left <= x).pop() ?? slots[0];
}

/* Of several names of a place the first that the chart has is marked. */
function mark(names) {
  for (const slot of page.querySelectorAll("[data-touched]")) slot.removeAttribute("data-touched");
  const found = names.split(" ").map((at) => [...page.querySelectorAll(`[data-at="${at}"]`)]);
  const slots = found.find((some) => some.length) ?? [];
  for (const slot of slots) slot.setAttribute("data-touched", "");
  return slots.find((slot) => slot.offsetParent);
}

page.addEventListener("click", (event) => {
  const slot = event.target.closest(".bar") && slotAt(event.target.closest(".bar"), event.clientX);
  if (!slot || !board() || !getSelection().isCollapsed) return;
  const address = new URL(board().dataset.board, location.href);
  address.searchParams.set("at", slot.dataset.at);
  mark(slot.dataset.at);
  htmx.ajax("GET", address.pathname + address.search, { source: board(), target: board(), swap: "outerHTML" });
});

/* Whatever came of it, the chart says what the board shows. */
document.addEventListener("htmx:afterRequest", () => {
  if (board()) mark(board().dataset.on);
});

/* Another bar on the board is said to those who hear the page, and comes into sight. */
document.addEventListener("htmx:afterSwap", ({ target }) => {
  if (target !== board()) return;
  document.getElementById("song-told").textContent = board().dataset.told;
  mark(board().dataset.on)?.scrollIntoView({ block: "nearest" });
});
