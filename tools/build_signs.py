"""Build the sign font: the musical signs that no text font has, in two weights.

``python tools/build_signs.py NOTO_MUSIC_FONT`` writes fifthwise Signs, Regular and Bold, into the
package. Accidentals and symbols are drawn in ``sign_shapes``; segno, coda and the like are taken from
Noto Music, scaled to stand beside capitals. Each weight has the text font's vertical metrics to the
unit: where they differ, the baseline jumps on every line that falls back from one font to the other.
"""

from __future__ import annotations

import sys
from pathlib import Path

from borrowed_signs import BORROWED, borrowed_sign
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph, flagOverlapSimple
from sign_shapes import BOLD, CAP, DRAWN, REGULAR, Sign, Weight

FAMILY = "fifthwise Signs"
VERSION = "Version 1.000"
FONTS = Path(__file__).resolve().parent.parent / "src/fifthwise/page/fonts"
MADE = 3_849_984_000  # a fixed day, in seconds since 1904, so that the same shapes give the same file
COPYRIGHT = (
    "Copyright 2026 fifthwise contributors. "
    "Segno, coda, fermata, rest, repeat and double sharp: Copyright 2022 The Noto Project Authors."
)
LICENCE = "This Font Software is licensed under the SIL Open Font License, Version 1.1."
LICENCE_URL = "https://openfontlicense.org"

UNITS_PER_EM = 1000
ASCENDER, DESCENDER = 984, -316
UNDERLINE = {"underlinePosition": -78, "underlineThickness": 56}
# The text font's own figures. A superscript size left at nought makes signs vanish from exponents.
METRICS = {
    "sTypoAscender": ASCENDER,
    "sTypoDescender": DESCENDER,
    "sTypoLineGap": 0,
    "usWinAscent": 996,
    "usWinDescent": 411,
    "sCapHeight": CAP,
    "sxHeight": 496,
    "ySubscriptXSize": 650,
    "ySubscriptYSize": 600,
    "ySubscriptYOffset": 75,
    "ySuperscriptXSize": 650,
    "ySuperscriptYSize": 600,
    "ySuperscriptYOffset": 350,
    "yStrikeoutSize": 56,
    "yStrikeoutPosition": 258,
}


def drawn_sign(sign: Sign) -> tuple[Glyph, int]:
    """Return one of our own signs as a glyph, with its advance."""
    pen = TTGlyphPen(None)
    quadratic = Cu2QuPen(pen, max_err=0.3)
    for contour in sign.contours:
        quadratic.moveTo(contour[0])
        for segment in contour[1:]:
            if isinstance(segment[0], tuple):
                quadratic.curveTo(*segment)
            else:
                quadratic.lineTo(segment)
        quadratic.closePath()
    return pen.glyph(), round(sign.advance)


def settle(glyph: Glyph) -> None:
    """Round to whole units, and tell rasterisers that contours may overlap."""
    glyph.coordinates.toInt()
    glyph.flags[0] |= flagOverlapSimple
    glyph.recalcBounds(None)


def build_font(source: TTFont, weight: Weight) -> FontBuilder:
    """Put one weight of the sign font together."""
    glyphs: dict[str, tuple[Glyph, int]] = {".notdef": (Glyph(), 500), "space": (Glyph(), 220)}
    names = {ord(" "): "space", 0xA0: "space"}
    for sign in sorted((*DRAWN, *BORROWED)):
        name = names[ord(sign)] = f"u{ord(sign):04X}"
        glyphs[name] = (
            drawn_sign(DRAWN[sign](weight)) if sign in DRAWN else borrowed_sign(source, sign, weight)
        )
        settle(glyphs[name][0])
    builder = FontBuilder(UNITS_PER_EM, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap(names)
    builder.setupGlyf({name: glyph for name, (glyph, _) in glyphs.items()})
    builder.setupHorizontalMetrics(
        {name: (advance, getattr(glyph, "xMin", 0)) for name, (glyph, advance) in glyphs.items()}
    )
    set_metrics(builder, weight)
    return builder


def set_metrics(builder: FontBuilder, weight: Weight) -> None:
    """Give the font its names and the text font's vertical metrics."""
    builder.setupHorizontalHeader(ascent=ASCENDER, descent=DESCENDER)
    builder.setupNameTable(
        {
            "copyright": COPYRIGHT,
            "familyName": FAMILY,
            "styleName": weight.name,
            "uniqueFontIdentifier": f"{FAMILY} {weight.name} {VERSION}",
            "fullName": f"{FAMILY} {weight.name}",
            "version": VERSION,
            "psName": f"FifthwiseSigns-{weight.name}",
            "licenseDescription": LICENCE,
            "licenseInfoURL": LICENCE_URL,
        },
        mac=False,
    )
    is_bold = weight is BOLD
    builder.setupOS2(
        version=4,
        usWeightClass=weight.css,
        fsSelection=(1 << 7) | (1 << 5 if is_bold else 1 << 6),
        achVendID="NONE",
        **METRICS,
    )
    builder.setupHead(unitsPerEm=UNITS_PER_EM, created=MADE, modified=MADE, macStyle=1 if is_bold else 0)
    builder.setupPost(**UNDERLINE)
    builder.font.recalcTimestamp = False


def main(source_file: str) -> None:
    """Write both weights into the package."""
    source = TTFont(source_file)
    for weight in (REGULAR, BOLD):
        target = FONTS / f"FifthwiseSigns-{weight.name}.ttf"
        build_font(source, weight).save(target)
        print(target.relative_to(Path.cwd()) if target.is_relative_to(Path.cwd()) else target)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("Say where Noto Music is: python tools/build_signs.py NOTO_MUSIC_FONT")
    main(sys.argv[1])
