"""Made-up progressions for the laws."""

from hypothesis import strategies as st

from tests.strings.lines.songs import song

__all__ = ["CHORDS", "KEYS", "progressions"]

CHORDS = (
    "1", "4", "5", "6-", "2-7", "57", "4maj7", "3-", "b7", "1/3", "5/7", "2ø7", "#4o7", "5sus", "1(5)", "69",
    "5+", "59", "NC", "0",
)  # fmt: skip
KEYS = ("C", "G", "D", "A", "E", "F", "Bb", "Eb", "Ab", "F#", "Gb", "E minor", "D mixolydian")
MARKS = ("", "", "", ".push", ".stop", ".hold", ".late")


@st.composite
def progressions(draw, most=6, marks=MARKS, **head):
    """A chart and its timeline: up to ``most`` bars of one chord, or two that share the bar."""
    token = st.builds(
        lambda chord, mark: chord + mark if chord not in ("NC", "0") else chord,
        st.sampled_from(CHORDS),
        st.sampled_from(marks),
    )
    first = st.sampled_from(CHORDS[:-2])
    bars = draw(st.lists(token | st.builds(lambda a: f"{a} / 4 /", first), min_size=1, max_size=most))
    return song(" | ".join([draw(first), *bars]), key=draw(st.sampled_from(KEYS)), **head)
