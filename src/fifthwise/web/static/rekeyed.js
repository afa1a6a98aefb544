/* After a part of the page has come anew: its name in the title bar, said to those who hear the page, and the
   rows that were unfolded stay so. */
const page = document.querySelector("[data-rekeyed]");
let open = [];

page.addEventListener("htmx:beforeSwap", () => {
  open = [...page.querySelectorAll("details[open]")].map((fold) => fold.id);
});

page.addEventListener("htmx:afterSwap", ({ target }) => {
  open.forEach((id) => document.getElementById(id)?.setAttribute("open", ""));
  const song = page.querySelector("[data-title]");
  if (!song || !target.contains(song)) return;
  document.title = song.dataset.title;
  document.getElementById("song-told").textContent = `In ${song.dataset.told}`;
});
