/* Files dropped anywhere on the form, or chosen, are sent at once. */
const form = document.querySelector("[data-drop]");
const input = form.querySelector("input[type=file]");

const over = (event) => {
  if (![...event.dataTransfer.types].includes("Files")) return;
  event.preventDefault();
  form.classList.toggle("over", event.type === "dragover");
};
form.addEventListener("dragover", over);
form.addEventListener("dragleave", over);
form.addEventListener("drop", (event) => {
  over(event);
  if (!event.dataTransfer.files.length) return;
  input.files = event.dataTransfer.files;
  form.requestSubmit();
});
input.addEventListener("change", () => input.files.length && form.requestSubmit());
