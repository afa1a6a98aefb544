// The page New song leads back to new songs that were written and never saved; their editor then offers the text.
import { forgetSaved, stored, when } from "./editor_drafts.js";

const field = (text, name) => new RegExp(`^${name}:(.*)$`, "m").exec(text)?.[1].trim() ?? "";

function link({ text, at }) {
  const asked = new URLSearchParams({ title: field(text, "title") || "Untitled", key: field(text, "key") || "C" });
  const made = document.createElement("a");
  made.className = "act";
  made.href = `/songs/new?${asked}`;
  made.textContent = `${asked.get("title")}, from ${when(at)}`;
  return made;
}

const line = document.querySelector("[data-unsaved]");
try {
  forgetSaved(stored("new"));
  const found = stored("new");
  for (const draft of found) line.append(" ", link(draft));
  line.classList.add("told", "acts");
  line.hidden = !found.length;
} catch {
  line.hidden = true; // a browser that keeps nothing has nothing to lead to
}
