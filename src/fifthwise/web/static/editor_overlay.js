// What lies over the text field: the same text with its line numbers, its signs told apart and its faults marked.
// The field keeps the caret, the selection and the undo; a text too long to be drawn at every key stays plain.
const MOST_DRAWN = 60_000;
const MOST_LINES = 2_000;
const SIGNS = /^\s*-{3}\s*$|^\s*[a-z]+:|"[^"]*"|\[[^\]]*\]|[|:]{1,3}|<!--.*?-->/g;
const HEADING = /^\s*#\s/;

// Where a line's quiet signs stand, as [start, end].
function quiet(text) {
  return [...text.matchAll(SIGNS)].map((found) => [found.index, found.index + found[0].length]);
}

// The line cut wherever a quiet sign or a fault begins or ends.
function pieces(text, faults) {
  const signs = quiet(text);
  const cuts = [0, text.length, ...[...signs, ...faults].flat()].filter((at) => at <= text.length);
  const ends = [...new Set(cuts)].sort((a, b) => a - b);
  const inside = (ranges, at) => ranges.some(([start, end]) => start <= at && at < end);
  return ends.slice(1).map((end, i) => {
    const piece = document.createElement("span");
    piece.dataset.text = text.slice(ends[i], end);
    piece.classList.toggle("quiet", inside(signs, ends[i]));
    piece.classList.toggle("wrong", inside(faults, ends[i]));
    return piece;
  });
}

function fill(line, text, faults) {
  line.className = "line";
  line.classList.toggle("heading", HEADING.test(text));
  line.classList.toggle("at-fault", faults.length > 0);
  line.replaceChildren(...pieces(text, faults));
}

export class Overlay {
  constructor(field, layer) {
    Object.assign(this, { field, layer, lines: [], faults: [] });
  }

  get small() {
    return this.field.value.length <= MOST_DRAWN && this.field.value.split("\n").length <= MOST_LINES;
  }

  // Draw the lines that changed; the faults of the others stay with them.
  draw() {
    const small = this.small;
    this.layer.hidden = !small;
    this.field.classList.toggle("under", small);
    const now = small ? this.field.value.split("\n") : [];
    const before = this.lines;
    const most = Math.min(now.length, before.length);
    let head = 0;
    while (head < most && now[head] === before[head]) head++;
    let tail = 0;
    while (tail < most - head && now.at(-1 - tail) === before.at(-1 - tail)) tail++;
    const fresh = now.slice(head, now.length - tail);
    const gone = before.length - tail - head;
    for (let i = 0; i < gone; i++) this.layer.children[head].remove();
    const after = this.layer.children[head] ?? null;
    for (const text of fresh) {
      const line = document.createElement("div");
      fill(line, text, []);
      this.layer.insertBefore(line, after);
    }
    this.faults.splice(head, gone, ...fresh.map(() => []));
    this.lines = now;
  }

  // Mark the faults told as "line:column:length", all from 1.
  mark(told) {
    const faults = this.lines.map(() => []);
    for (const place of told.split(" ").filter(Boolean)) {
      const [line, column, length] = place.split(":").map(Number);
      faults[line - 1]?.push([column - 1, column - 1 + length]);
    }
    this.lines.forEach((text, i) => {
      if (String(faults[i]) !== String(this.faults[i])) fill(this.layer.children[i], text, faults[i]);
    });
    this.faults = faults;
  }
}
