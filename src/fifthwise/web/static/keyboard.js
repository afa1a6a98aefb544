/* A key pressed on the picture of a keyboard fills the note field that was used last. */
const keyboard = document.querySelector("[data-keyboard]");
const fields = [...document.querySelectorAll("[data-note-field]")];
const told = document.querySelector("[data-fills]");
let chosen = fields.find((field) => !field.value) ?? fields[0];

function choose(field) {
  chosen = field;
  fields.forEach((each) => each.toggleAttribute("data-chosen", each === field));
  told.textContent = `A key pressed below fills “${field.dataset.noteField}”.`;
}

/* Where the picture is wider than the screen: the voice, or middle C, in its middle. */
function show() {
  const seen = keyboard.querySelector(".easy, .reach") ?? keyboard.querySelector("[data-note='C4']");
  const place = seen.getBoundingClientRect(), frame = keyboard.getBoundingClientRect();
  keyboard.scrollLeft += place.left + place.width / 2 - frame.left - frame.width / 2;
}

fields.forEach((field) => field.addEventListener("focus", () => choose(field)));

keyboard.addEventListener("click", (event) => {
  const key = event.target.closest("[data-note]");
  if (!key) return;
  choose(chosen);
  chosen.value = key.dataset.note;
  chosen.dispatchEvent(new Event("input", { bubbles: true }));
});

keyboard.setAttribute("data-ready", "");
show();
