import pytest

from fifthwise.theory import ChordFault, interval_name, quality_tones, read_letter_chord, write_letters


def tone_names(text):
    """The tones of a chord in letters."""
    return " ".join(map(interval_name, quality_tones(read_letter_chord(text).quality)))


@pytest.mark.parametrize(
    ("text", "tones"),
    [
        ("Bb7", "1 3 5 b7"),
        ("Bbm7b5", "1 b3 b5 b7"),
        ("Ebdim", "1 b3 b5"),
        ("Abmaj7#11", "1 3 5 7 #11"),
        ("F#m7add11", "1 b3 5 b7 11"),
        ("C7b9b13", "1 3 5 b7 b9 b13"),
        ("C7b5#9", "1 3 b5 b7 #9"),
        ("C7sus2", "1 2 5 b7"),
        ("C9sus2", "1 2 5 b7"),
        ("C9sus", "1 4 5 b7 9"),
        ("C13sus", "1 4 5 b7 9 13"),
        ("C13(b9)sus", "1 4 5 b7 b9 9 13"),
        ("C7(b9)sus", "1 4 5 b7 b9"),
        ("Cm(maj9 b13)", "1 b3 5 7 9 b13"),
        ("Csus2", "1 2 5"),
        ("C4", "1 4 5"),
        ("C11no5", "1 3 b7 9 11"),
        ("Em7no5", "1 b3 b7"),
        ("A", "1 3 5"),
    ],
)
def test_lead_sheet_letters_have_their_tones(text, tones):
    """Changes may stand without brackets, and a b belongs to the root first. Common practice, no source."""
    assert tone_names(text) == tones


@pytest.mark.parametrize(
    ("text", "root", "bass"),
    [
        ("D/F#", "D", "F#"),
        ("C7/Bb", "C", "Bb"),
        ("C6/9", "C", None),
        ("C6/9/E", "C", "E"),
        ("Bbb/Db", "Bbb", "Db"),
    ],
)
def test_a_letter_after_the_slash_is_the_bass(text, root, bass):
    """A nine after it belongs to the six."""
    chord = read_letter_chord(text)
    assert (str(chord.root), chord.bass and str(chord.bass)) == (root, bass)


def test_what_is_read_is_written_in_one_form():
    """Brackets and signs settle."""
    assert [write_letters(read_letter_chord(t)) for t in ("C7b9#11", "CM7", "B♭-7")] == [
        "C7(b9 #11)",
        "Cmaj7",
        "Bbm7",
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("H7", r"'H7' is no chord\. Write it as in 'Bb7', 'Cm/Eb' or 'C7\(b9\)'\."),
        ("c", r"'c' is no chord"),
        ("Cfoo", r"'Cfoo' is no chord"),
        ("C/3", r"'C/3' is no chord"),
        ("C69sus", r"the suspension does not fit the rest\. Write it as in 'Csus' or 'C7sus'\."),
        ("Csus2sus4", r"the suspension does not fit the rest"),
        ("C7b8", r"'b8' changes no note of a chord"),
    ],
)
def test_what_is_no_letter_chord_is_refused(text, message):
    """The message shows how letters are written."""
    with pytest.raises(ChordFault, match=message):
        read_letter_chord(text)
