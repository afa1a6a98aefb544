// The running order moved by hand: a row is dragged by its number, or moved by the arrow keys on it. What stands
// between two moves is sent as one new order of places; while an order is on its way, moves wait for its answer.
const SETTLE_MS = 300;
const EDGE_PX = 72;
let timer = 0;
let sending = false;
let waiting = [];
let open = [];
let held = "";

const middle = row => (row.getBoundingClientRect().top + row.getBoundingClientRect().bottom) / 2;
const form = () => document.querySelector("[data-order]");
const rows = () => [...document.querySelectorAll("[data-order] .set-row")];

function tell(row) {
  const all = rows();
  document.getElementById("order-told").textContent = `${row.dataset.title}, ${all.indexOf(row) + 1} of ${all.length}`;
}

// The neighbour is moved, not the row itself: so the row keeps the focus and the pointer.
function step(row, by) {
  const next = by > 0 ? row.nextElementSibling : row.previousElementSibling;
  if (!next) return false;
  if (by > 0) row.before(next); else row.after(next);
  return true;
}

function send() {
  const field = form()?.elements.order;
  if (!field) return;
  const places = rows().map(row => row.dataset.place);
  if (places.every((place, at) => Number(place) === at + 1)) return;
  field.value = places.join(",");
  form().requestSubmit();
}

const later = () => { clearTimeout(timer); timer = setTimeout(send, SETTLE_MS); };

document.addEventListener("keydown", event => {
  const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
  const grip = event.target.closest?.(".grip");
  if (!by || !grip) return;
  event.preventDefault();
  if (sending) { waiting.push([grip.id, by]); return; }
  if (!step(grip.closest(".set-row"), by)) return;
  tell(grip.closest(".set-row"));
  grip.scrollIntoView({ block: "nearest" });
  later();
});

document.addEventListener("pointerdown", event => {
  const grip = event.target.closest?.(".grip");
  if (!grip || grip.disabled || sending || event.button) return;
  const row = grip.closest(".set-row");
  const before = rows();
  grip.setPointerCapture(event.pointerId);
  clearTimeout(timer);
  const follow = ({ clientY }) => {
    row.classList.add("moving");
    while (row.nextElementSibling && clientY > middle(row.nextElementSibling)) step(row, 1);
    while (row.previousElementSibling && clientY < middle(row.previousElementSibling)) step(row, -1);
    if (clientY < EDGE_PX) scrollBy(0, -16); else if (clientY > innerHeight - EDGE_PX) scrollBy(0, 16);
  };
  const end = kept => {
    row.classList.remove("moving");
    for (const name of ["pointermove", "pointerup", "pointercancel", "keydown"]) grip.removeEventListener(name, heard);
    if (!kept) row.parentElement.append(...before);
    else if (before.some((one, at) => one !== rows()[at])) { tell(row); send(); }
  };
  const heard = told => {
    if (told.type === "pointermove") follow(told);
    else if (told.type !== "keydown" || told.key === "Escape") end(told.type === "pointerup");
  };
  for (const name of ["pointermove", "pointerup", "pointercancel", "keydown"]) grip.addEventListener(name, heard);
});

const ready = () => document.querySelectorAll("[data-order] .grip").forEach(grip => { grip.disabled = false; });
document.addEventListener("htmx:beforeRequest", event => { if (event.detail.elt === form()) sending = true; });
document.addEventListener("htmx:beforeSwap", () => {
  open = [...document.querySelectorAll(".set-change[open]")].map(one => one.id);
  held = document.activeElement.id;
});
document.addEventListener("htmx:afterSwap", () => {
  if (!document.querySelector(".set-change[open]")) for (const id of open) document.getElementById(id)?.setAttribute("open", "");
  ready();
  if (held && document.activeElement === document.body) document.getElementById(held)?.focus({ preventScroll: true });
});
document.addEventListener("htmx:afterRequest", event => {
  if (!event.detail.requestConfig.elt.matches("[data-order]")) return;
  sending = false;
  for (const [id, by] of waiting.splice(0)) {
    const row = document.getElementById(id)?.closest(".set-row");
    if (row && step(row, by)) { tell(row); later(); }
  }
});
ready();
