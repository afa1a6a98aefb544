// What is in the way of drawing or saving is said, and the text stays: too long, faults, no answer.

export function guard(form, field) {
  const told = form.querySelector("[data-told]");
  const largest = Number(form.dataset.largest);
  let asked = null;
  let sound = form.querySelector("[data-marks]")?.dataset.marks === "" ? field.value : null;

  const say = (text) => {
    told.hidden = text === "";
    if (told.textContent !== text) told.textContent = text;
  };
  const tooLong = () => {
    // A character takes one to four bytes; only a text between the two bounds has to be measured.
    if (field.value.length * 3 <= largest) return "";
    const size = new Blob([field.value]).size;
    if (size <= largest) return "";
    return `The text has ${(size / 1e6).toFixed(1)} MB; a chart may have ${largest / 1e6} MB. Nothing is lost: shorten it here.`;
  };
  const hold = (event) => {
    const long = tooLong();
    if (long) {
      event.preventDefault();
      say(long);
    }
    return long !== "";
  };

  // A paste that is too long is not put in: the field would take many seconds to lay it out.
  field.addEventListener("beforeinput", (event) => {
    const more = event.data ?? event.dataTransfer?.getData("text/plain") ?? "";
    const rest = field.value.length - (field.selectionEnd - field.selectionStart);
    if (more.length < 2 || rest + more.length <= largest) return;
    event.preventDefault();
    say(`That would make the text longer than the ${largest / 1e6} MB that a chart may have. It was not put in; your text is as it was.`);
  });

  form.addEventListener("htmx:beforeRequest", (event) => {
    if (!hold(event)) asked = field.value;
  });
  form.addEventListener("htmx:afterSwap", () => {
    say("");
    sound = form.querySelector("[data-marks]")?.dataset.marks === "" ? asked : null;
    asked = null;
  });
  for (const fault of ["htmx:sendError", "htmx:responseError", "htmx:timeout"]) {
    form.addEventListener(fault, () => say("No answer; the page is the last one drawn. Your text is safe here."));
  }

  form.addEventListener("submit", (event) => {
    if (hold(event)) return;
    const faults = form.querySelectorAll("[data-line]").length;
    const drawn = form.dataset.asked ?? field.defaultValue;
    if (faults > 0 && sound === null && field.value === drawn) {
      event.preventDefault();
      say("Not saved yet: mend the faults first. Your text is kept here meanwhile.");
      form.querySelector(".faults").scrollIntoView({ block: "nearest" });
    }
  });
  document.addEventListener("keydown", (event) => {
    if ((event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === "s") {
      event.preventDefault();
      form.requestSubmit();
    }
  });
}
