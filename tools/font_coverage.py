"""Write down which characters the page fonts have: ``python tools/font_coverage.py`` after a TTF has changed.

The package reads the list to print a ``?`` where a title uses a character that no font of ours has; it needs
no font library for that.
"""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

FONTS = Path(__file__).resolve().parent.parent / "src/fifthwise/page/fonts"
# Every weight of these is used for any text; the other families are for single places.
FAMILIES = ("AtkinsonHyperlegibleNext-", "FifthwiseSigns-")


def covered() -> set[int]:
    """The characters that every weight of at least one family has."""
    found: set[int] = set()
    for family in FAMILIES:
        weights = [set(TTFont(file).getBestCmap()) for file in sorted(FONTS.glob(f"{family}*.ttf"))]
        found |= set.intersection(*weights)
    return found


def ranges(points: set[int]) -> list[str]:
    """Code points as hexadecimal ranges, one a line."""
    lines: list[str] = []
    start = last = -2
    for point in [*sorted(points), -1]:
        if point != last + 1:
            if start >= 0:
                lines.append(f"{start:04X}-{last:04X}")
            start = point
        last = point
    return lines


def main() -> None:
    """Write the list beside the fonts."""
    lines = ranges(covered())
    (FONTS / "coverage.txt").write_text("\n".join(lines) + "\n", "utf-8")
    print(f"{len(lines)} ranges")


if __name__ == "__main__":
    main()
