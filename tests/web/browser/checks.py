"""What must hold of any page, each check a list of what does not, in words."""

from axe_playwright_python.sync_playwright import DEFAULT_OPTIONS, Axe
from playwright.sync_api import Page

SMALLEST_PX = 44
MOST_SHIFT = 0.02
THINNEST_FOCUS_PX = 2

WIDTHS = "[document.scrollingElement.scrollWidth, innerWidth]"

# Links in running text are as high as their line: WCAG 2.2, 2.5.5, exception "inline". A label is part of its
# field's target. What looks small may have a larger area that answers to a touch, so the area is probed.
SMALL_TARGETS = """smallest => {
  const seen = [...document.querySelectorAll(
    "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [tabindex='0']")]
    .filter(one => one.checkVisibility({visibilityProperty: true}));
  const inText = one => one.matches("a") && getComputedStyle(one).display === "inline"
    && [...one.parentElement.childNodes].some(node => node.nodeType === 3 && /\\w/.test(node.data));
  const answers = (one, x, y) => {
    const hit = document.elementFromPoint(x, y);
    return hit && (one.contains(hit) || [...(one.labels || [])].some(label => label.contains(hit)));
  };
  const area = one => {
    let box = one.getBoundingClientRect();
    if (box.width >= smallest && box.height >= smallest) return [box.width, box.height];
    one.scrollIntoView({block: "center", inline: "center"});
    box = one.getBoundingClientRect();
    const x = box.left + box.width / 2, y = box.top + box.height / 2;
    const reach = (dx, dy) => {
      let far = 0;
      while (far < smallest && answers(one, x + dx * (far + 1), y + dy * (far + 1))) far += 1;
      return far;
    };
    const [width, height] = [reach(1, 0) + reach(-1, 0), reach(0, 1) + reach(0, -1)];
    return [Math.max(box.width, width), Math.max(box.height, height)];
  };
  const name = one => (one.getAttribute("aria-label") || one.innerText || one.name || one.outerHTML)
    .trim().slice(0, 40);
  const small = seen.filter(one => !inText(one)).map(one => [one, area(one)])
    .filter(([one, [width, height]]) => width < smallest - .5 || height < smallest - .5)
    .map(([one, area]) => `${one.localName} "${name(one)}": ${area.map(px => px.toFixed()).join(" x ")}`);
  scrollTo(0, 0);
  return small;
}"""

# A font that comes late moves what is being read; the signs' own are small and few.
LATE_FONTS = """() => {
  const early = [...document.querySelectorAll("link[rel=preload][as=font]")].map(link => link.href);
  return performance.getEntriesByType("resource").map(entry => entry.name)
    .filter(name => name.endsWith(".woff2") && !name.includes("Signs") && !early.includes(name));
}"""

SHIFT = """async () => {
  await document.fonts.ready;
  await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
  let sum = 0;
  const moved = new Set();
  const add = entries => entries.filter(entry => !entry.hadRecentInput).forEach(entry => {
    sum += entry.value;
    entry.sources.forEach(({node}) => moved.add(node ? node.textContent.trim().slice(0, 20) : "?"));
  });
  const watch = new PerformanceObserver(list => add(list.getEntries()));
  watch.observe({type: "layout-shift", buffered: true});
  await new Promise(done => setTimeout(done, 50));
  add(watch.takeRecords());
  return [sum, [...moved].join(", ")];
}"""

# Everything that the keyboard has to reach; of a group of radio buttons one.
REACHABLE = """() => {
  const groups = new Set();
  const all = [...document.querySelectorAll(
    "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']")];
  const reachable = all.filter(one => {
    if (one.tabIndex < 0 || one.disabled || !one.checkVisibility({visibilityProperty: true})) return false;
    if (one.type !== "radio") return true;
    const isNew = !groups.has(one.name);
    groups.add(one.name);
    return isNew;
  });
  window.reachable = new Set(reachable);
  return reachable.length;
}"""
FOCUSED = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const first = !one.dataset.tabbed;
  one.dataset.tabbed = "yes";
  window.reachable.delete(one);
  if (one.type === "radio") for (const other of window.reachable)
    if (other.name === one.name) window.reachable.delete(other);
  const box = one.getBoundingClientRect(), style = getComputedStyle(one);
  const outline = style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth);
  const inside = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
  return {name: `${one.localName} "${(one.innerText || one.name || one.id).trim().slice(0, 40)}"`,
    first, outline, inside};
}"""
LEFT = """() => [...window.reachable].map(one =>
  `${one.localName} "${(one.innerText || one.name || one.id).trim().slice(0, 40)}"`)"""


def too_wide(page: Page) -> list[str]:
    """Whether the page must be pushed sideways."""
    needed, there = page.evaluate(WIDTHS)
    return [f"needs {needed} px of width and has {there}"] if needed > there else []


def small_targets(page: Page) -> list[str]:
    """What can be touched and is smaller than a fingertip."""
    return page.evaluate(SMALL_TARGETS, SMALLEST_PX)


def late_fonts(page: Page) -> list[str]:
    """Fonts that the page asks for only when its style has come."""
    return [f"is not asked for early: {name}" for name in page.evaluate(LATE_FONTS)]


def shift(page: Page) -> list[str]:
    """Whether what is read moves while the page comes, its fonts being there."""
    page.reload()
    distance, moved = page.evaluate(SHIFT)
    return [f"shifts by {distance:.3f}: {moved}"] if distance >= MOST_SHIFT else []


def barriers(page: Page) -> list[str]:
    """What axe-core finds."""
    return _found_by_axe(page, DEFAULT_OPTIONS)


def faint(page: Page) -> list[str]:
    """What stands out too little by night; the page stays in the night's colours."""
    page.emulate_media(color_scheme="dark")
    only = {"runOnly": ["color-contrast", "link-in-text-block"]}
    return [f"by night: {told}" for told in _found_by_axe(page, DEFAULT_OPTIONS | only)]


def _found_by_axe(page: Page, options: dict[str, list[str]]) -> list[str]:
    found = Axe().run(page, options=options).response["violations"]
    return [
        f"{rule['id']}: {node['target']} {node.get('failureSummary', '')}"
        for rule in found
        for node in rule["nodes"]
    ]


def bad_frame(page: Page, names: str) -> list[str]:
    """Whether the title, the heading and the landmarks say what the page is."""
    wrong = []
    if names not in page.title() or not page.title().endswith(" – fifthwise"):
        wrong.append(f"the title {page.title()!r} does not name {names!r}")
    for role, count in {"heading": 1, "main": 1, "banner": 1}.items():
        found = page.get_by_role(role, level=1) if role == "heading" else page.get_by_role(role)
        if found.count() != count:
            wrong.append(f"{found.count()} of {role}, not {count}")
    if not page.get_by_role("navigation", name="Rooms").count():
        wrong.append("no navigation between the rooms")
    return wrong


def lost_keys(page: Page) -> list[str]:
    """What Tab does not reach, does not show, or does not leave again."""
    wrong = []
    count = page.evaluate(REACHABLE)
    for _ in range(count + 5):
        page.keyboard.press("Tab")
        focused = page.evaluate(FOCUSED)
        if focused is None or not focused["first"]:
            break
        if focused["outline"] < THINNEST_FOCUS_PX:
            wrong.append(f"{focused['name']} shows no focus")
        if not focused["inside"]:
            wrong.append(f"{focused['name']} has the focus out of sight")
    else:
        wrong.append("Tab comes to no end")
    return wrong + [f"Tab does not reach {name}" for name in page.evaluate(LEFT)]
