"""Pack every TTF of the package a second time as WOFF2, for pages that a browser shows.

``python tools/web_fonts.py`` is run after a TTF has changed. Typst reads TTF only, browsers read both, and
WOFF2 is less than half the size, which counts in a page that carries its fonts within itself.
"""

from __future__ import annotations

from pathlib import Path

from fontTools.ttLib import TTFont

FONTS = Path(__file__).resolve().parent.parent / "src/fifthwise/page/fonts"


def pack(file: Path) -> Path:
    """Write a font's WOFF2 beside it, glyph for glyph the same."""
    font = TTFont(file, recalcTimestamp=False)
    font.flavor = "woff2"
    target = file.with_suffix(".woff2")
    font.save(target)
    return target


def main() -> None:
    """Pack all fonts and show what that saves."""
    for file in sorted(FONTS.glob("*.ttf")):
        target = pack(file)
        print(f"{target.name}: {file.stat().st_size} to {target.stat().st_size} bytes")


if __name__ == "__main__":
    main()
