from pathlib import Path

import pytest
import typst
from fontTools.ttLib import TTFont

FONTS = Path(__file__).parents[2] / "src/fifthwise/page/fonts"
TEXT = "AtkinsonHyperlegibleNext"
SIGNS = "FifthwiseSigns"
SIGN_WEIGHTS = ("Regular", "Bold")
OUR_SIGNS = "♭♮♯𝄪𝄫𝄋𝄌𝄐𝄽𝄎△◇→"
TEXT_SIGNS = "ø–‹›×°…−·•≤≥½“”’"
SAME_METRICS = {
    "head": ("unitsPerEm",),
    "hhea": ("ascent", "descent", "lineGap"),
    "OS/2": (
        "sTypoAscender",
        "sTypoDescender",
        "sTypoLineGap",
        "usWinAscent",
        "usWinDescent",
        "sCapHeight",
        "sxHeight",
        "ySubscriptYSize",
        "ySuperscriptYSize",
    ),
}

PAGE = """
#set document(title: "Signs")
#set text(lang: "en", font: ("Atkinson Hyperlegible Next", "fifthwise Signs"))
#for weight in (400, 600, 700, 800) [#text(weight: weight)[%s] \\ ]
"""


def font(family: str, weight: str, suffix: str = "ttf") -> TTFont:
    """Open one of the package's fonts."""
    return TTFont(FONTS / f"{family}-{weight}.{suffix}")


def export(text: str, standard: str) -> bytes:
    """Print a text in four weights, with no fonts but ours."""
    ours = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    return typst.compile(
        (PAGE % text).encode(), format="pdf", font_paths=ours, pdf_standards=[standard], timestamp=0
    )


@pytest.mark.parametrize("standard", ["a-2u", "ua-1"])
def test_every_sign_prints_with_our_fonts_alone(standard):
    """A strict export, which refuses a sign without a glyph, takes every sign in every weight."""
    assert export(OUR_SIGNS + TEXT_SIGNS, standard).startswith(b"%PDF")


@pytest.mark.parametrize("standard", ["a-2u", "ua-1"])
def test_a_sign_that_no_font_has_is_refused(standard):
    """The export above would have failed, had a glyph been missing."""
    with pytest.raises(typst.TypstError, match="could not be displayed"):
        export("☃", standard)


@pytest.mark.parametrize("weight", SIGN_WEIGHTS)
def test_signs_have_the_vertical_metrics_of_the_text(weight):
    """Falling back from text to a sign moves no baseline and changes no superscript's size."""
    text, signs = font(TEXT, weight), font(SIGNS, weight)
    for table, fields in SAME_METRICS.items():
        for field in fields:
            assert getattr(signs[table], field) == getattr(text[table], field), f"{table} {field}"


@pytest.mark.parametrize("weight", SIGN_WEIGHTS)
@pytest.mark.parametrize(
    ("sign", "above", "below"), [("♭", 0.10, 0.05), ("♯", 0.10, 0.10), ("♮", 0.10, 0.10)]
)
def test_accidentals_stand_beside_capitals(weight, sign, above, below):
    """An accidental is at least as high as a capital and passes either end of it by a tenth at most."""
    signs = font(SIGNS, weight)
    cap = signs["OS/2"].sCapHeight
    glyph = signs["glyf"][signs.getBestCmap()[ord(sign)]]
    assert cap <= glyph.yMax <= (1 + above) * cap
    assert -below * cap <= glyph.yMin <= 0


@pytest.mark.parametrize("file", sorted(FONTS.glob("*.ttf")), ids=lambda file: file.stem)
def test_the_web_font_is_the_printed_font(file):
    """A WOFF2 has the glyphs and the widths of the TTF beside it."""
    printed, web = TTFont(file), TTFont(file.with_suffix(".woff2"))
    assert web.getBestCmap() == printed.getBestCmap()
    assert web["hmtx"].metrics == printed["hmtx"].metrics


@pytest.mark.parametrize("file", sorted(FONTS.glob("*.ttf")), ids=lambda file: file.stem)
def test_every_font_has_its_licence_beside_it(file):
    """The licence text names the owner whom the font itself names."""
    licence = (FONTS / f"OFL-{file.stem.split('-')[0]}.txt").read_text(encoding="utf-8")
    owner = TTFont(file)["name"].getDebugName(0).split(".")[0].split(" (")[0]
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert owner in licence
