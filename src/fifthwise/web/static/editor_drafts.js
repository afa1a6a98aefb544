// What is typed is kept in the browser until it is saved. Each open page keeps its own, under
// "fifthwise-draft:SONG:NAME"; the server's cookie "saved-NAME" says that it has that text now.
import { type } from "./editor_mends.js";

const WAIT_MS = 400;
const PREFIX = "fifthwise-draft:";

export function stored(song) {
  const found = [];
  for (let i = 0; i < localStorage.length; i++) {
    const key = localStorage.key(i);
    if (!key.startsWith(`${PREFIX}${song}:`)) continue;
    try {
      found.push({ key, name: key.slice(key.lastIndexOf(":") + 1), ...JSON.parse(localStorage.getItem(key)) });
    } catch {
      localStorage.removeItem(key);
    }
  }
  return found.sort((a, b) => b.at - a.at);
}

export function forgetSaved(drafts) {
  for (const { key, name } of drafts) {
    if (!document.cookie.split("; ").includes(`saved-${name}=1`)) continue;
    localStorage.removeItem(key);
    document.cookie = `saved-${name}=; max-age=0; path=/; samesite=strict`;
  }
}

export function when(at) {
  const time = new Date(at);
  const clock = time.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  const today = time.toDateString() === new Date().toDateString();
  return today ? clock : `${time.toLocaleDateString([], { day: "numeric", month: "long" })}, ${clock}`;
}

export function keepDrafts(form, field) {
  const { version, draft } = form.elements;
  const song = form.dataset.song;
  draft.value ||= Date.now().toString(36) + Math.random().toString(36).slice(2, 8);
  const key = () => `${PREFIX}${song}:${draft.value}`;
  let failed = false;
  let timer = 0;

  const keep = () => {
    clearTimeout(timer);
    try {
      if (field.value === field.defaultValue && !localStorage.getItem(key())) return;
      localStorage.setItem(key(), JSON.stringify({ text: field.value, version: version.value, at: Date.now() }));
      failed = false;
    } catch {
      failed = field.value !== field.defaultValue;
    }
  };
  field.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(keep, WAIT_MS);
  });
  window.addEventListener("pagehide", keep);
  let leaving = false;
  form.addEventListener("submit", (event) => {
    keep();
    leaving = !event.defaultPrevented;
  });
  window.addEventListener("beforeunload", (event) => {
    keep();
    if (failed && !leaving) event.preventDefault();
  });

  const offers = document.querySelector("[data-offers]");
  const offer = (found) => {
    const line = document.createElement("p");
    line.className = "told acts";
    line.append(`Your unsaved text from ${when(found.at)}:`);
    for (const [words, act] of [["take it", () => {
      draft.value = found.name;
      version.value = found.version;
      type(field, 0, field.value.length, found.text);
    }], ["drop it", () => localStorage.removeItem(found.key)]]) {
      const button = document.createElement("button");
      Object.assign(button, { type: "button", className: "act", textContent: words });
      button.addEventListener("click", () => { act(); line.remove(); });
      line.append(button);
    }
    offers.append(line);
    offers.hidden = false;
  };
  try {
    forgetSaved(stored(song));
    for (const found of stored(song)) {
      if (found.name !== draft.value && found.text === field.defaultValue) localStorage.removeItem(found.key);
      else if (found.name !== draft.value) offer(found);
    }
  } catch {
    failed = false; // a browser that keeps nothing has nothing to offer
  }
}
