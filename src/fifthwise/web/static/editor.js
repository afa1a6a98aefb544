// The text field of the page Edit: its marks, its mends, its drafts. Each part is a module of its own.
import { keepDrafts } from "./editor_drafts.js";
import { guard } from "./editor_guard.js";
import { answerMends } from "./editor_mends.js";
import { Overlay } from "./editor_overlay.js";

for (const form of document.querySelectorAll("[data-editor]")) {
  const field = form.querySelector("textarea");
  const overlay = new Overlay(field, form.querySelector("[data-overlay]"));
  const live = form.querySelector("#live");
  const count = form.querySelector("#count");

  const told = () => {
    const faults = live.querySelector("[data-marks]");
    if (!faults) return;
    overlay.mark(faults.dataset.marks);
    field.setAttribute("aria-invalid", String(faults.dataset.marks !== ""));
    if (count.textContent !== faults.dataset.said) count.textContent = faults.dataset.said;
  };
  field.addEventListener("input", () => overlay.draw());
  // The page drawn anew stays scrolled to where it was.
  let scrolled = 0;
  live.addEventListener("htmx:beforeSwap", () => { scrolled = live.querySelector(".drawn").scrollTop; });
  live.addEventListener("htmx:afterSwap", () => {
    live.querySelector(".drawn").scrollTop = scrolled;
    told();
  });
  // A browser may put back what was typed before a reload, without saying so.
  window.addEventListener("pageshow", () => overlay.draw());

  for (const button of document.querySelectorAll("[data-look]")) button.hidden = true;
  overlay.draw();
  told();
  answerMends(form, field);
  guard(form, field);
  keepDrafts(form, field);
}
