/* Files dropped on the form, or anywhere on a page whose form says so, or chosen, are sent at once. */
const form = document.querySelector("[data-drop]");
const input = form.querySelector("input[type=file]");
const field = form.dataset.drop === "page" ? document : form;

const over = (event) => {
  if (![...event.dataTransfer.types].includes("Files")) return;
  event.preventDefault();
  form.classList.toggle("over", event.type === "dragover");
};
field.addEventListener("dragover", over);
field.addEventListener("dragleave", over);
field.addEventListener("drop", (event) => {
  over(event);
  if (!event.dataTransfer.files.length) return;
  input.files = event.dataTransfer.files;
  form.requestSubmit();
});
input.addEventListener("change", () => input.files.length && form.requestSubmit());
