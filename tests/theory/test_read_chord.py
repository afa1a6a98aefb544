import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    ChordFault,
    Numbering,
    plain_signs,
    read_chord,
    read_key,
    read_number_chord,
    to_letters,
    write_letters,
    write_number,
)
from tests.strategies import keys, number_chords, numberings

C = read_key("C")


def settled(text, key="C", numbering=Numbering()):  # noqa: B008 - frozen
    """What is written for a chord that was read."""
    return write_number(read_chord(text, read_key(key), numbering))


@given(number_chords(), keys(), numberings())
def test_letters_in_a_key_are_the_same_chord_as_the_number(chord, key, numbering):
    """A song may mix both; the letters are counted from the key's 1."""
    one = numbering.one(key)
    letters = to_letters(chord, one)
    if abs(letters.root.alter) <= 2 and (letters.bass is None or abs(letters.bass.alter) <= 2):
        assert read_chord(write_letters(letters), key, numbering) == chord


@given(st.sampled_from(["b7", "#4o7", "6-/b3", "7ø", "1Δ", "b3/#5"]))
def test_signs_of_print_are_read_as_plain_ones(text):
    """♭ ♯ ° Δ − and – are what the pages print."""
    printed = text.replace("b", "♭").replace("#", "♯").replace("o", "°").replace("-", "−")
    assert read_chord(printed, C) == read_chord(text, C) == read_chord(printed.replace("−", "–"), C)


@pytest.mark.parametrize(
    ("variants", "written"),
    [
        ("6- 6m 6min 6mi vi A- Am Amin", "6-"),
        ("7o 7dim 7° viio vii° viidim Bdim Bo B°", "7o"),
        ("7ø 7ø7 7-7b5 7m7b5 7-7(b5) 7hdim 7o(b7) viiø viiø7 Bø Bm7b5 Bm7(b5)", "7ø7"),
        ("7o7 7dim7 viio7 Bdim7 B°7", "7o7"),
        ("4maj7 4M7 4ma7 4Δ 4Δ7 IVmaj7 IVM7 Fmaj7 FM7 FΔ", "4maj7"),
        ("4maj9 4Δ9 4maj7(9) Fmaj9 FΔ9", "4maj9"),
        ("1 1maj 1M I C Cmaj CM", "1"),
        ("5+ 5aug 5(#5) V+ Vaug G+ Gaug G(#5)", "5+"),
        ("57 V7 G7 5(b7)", "57"),
        ("5sus 5sus4 Vsus Vsus4 Gsus Gsus4", "5sus"),
        ("57sus 57sus4 5sus(b7) V7sus G7sus G7sus4", "57sus"),
        ("1sus2 Isus2 Csus2", "1sus2"),
        ("1(add9) 1(2) 1(9) 1(add2) Iadd9 I(add9) Cadd9 C(add9) C2", "1(add9)"),
        ("1(5) 1(no3) I(5) C5 C(no3)", "1(5)"),
        ("16 1(6) Iadd6 C6 C(add6)", "16"),
        ("169 16(9) C69 C6/9", "169"),
        ("57(b9,#11) 57(#11,b9) G7b9#11 G7(b9,#11)", "57(b9 #11)"),
        ("5+7 5aug7 57(#5) 57(+5) V+7 G+7 G7#5 G7+ Gaug7", "5+7"),
        ("2-7 2m7 ii7 Dm7 D-7 Dmin7", "2-7"),
        ("2-maj7 2-Δ iimaj7 Dm(maj7) DmM7 DmΔ", "2-maj7"),
        ("b7 bVII Bb B♭", "b7"),
        ("5/7 V/7 V6 G/B", "5/7"),
        ("1/5 I64 I6/4 C/G", "1/5"),
        ("57/7 V65 V6/5 G7/B", "57/7"),
        ("57/2 V43 G7/D", "57/2"),
        ("57/4 V42 G7/F", "57/4"),
        ("37 V7/vi E7", "37"),
        ("37/#5 V7/vi/#5 V65/vi E7/G#", "37/#5"),
        ("2 V/V D", "2"),
        ("#4o7 viio7/V F#dim7", "#4o7"),
        ("b2/4 bII6 Db/F", "b2/4"),
        ("5/B 5/7", "5/7"),
    ],
)
def test_variants_are_one_chord(variants, written):
    """In C, whichever way a chord is written, it is kept and written as one. Common practice, no source."""
    assert {settled(text) for text in variants.split()} == {written}


@pytest.mark.parametrize("text", ["57(b9 #11)", "57(b9, #11)", "57( b9,  #11 )"])
def test_changes_are_parted_by_blanks_or_commas(text):
    """Either will do."""
    assert settled(text) == "57(b9 #11)"


def test_extensions_are_not_two_degrees():
    """513 is the 5 with a 13, 1-11 the 1- with an 11, 69 the 6 with a 9, and 169 the 1 with 6 and 9."""
    assert [settled(text) for text in ("513", "1-11", "69", "169")] == ["513", "1-11", "69", "169"]
    assert str(read_number_chord("69").root) == "6"
    assert str(read_number_chord("169").root) == "1"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("1", "1"), ("2", "2-"), ("3", "3-"), ("4", "4"), ("5", "5"), ("6", "6-"), ("7", "7o"),
        ("27", "2-7"), ("57", "57"), ("77", "7ø7"), ("1maj7", "1maj7"), ("b7", "b7"), ("2maj", "2"),
        ("2sus", "2sus"), ("7sus", "7sus"), ("77sus", "77sus"), ("57sus", "57sus"),
        ("3+", "3+"), ("II", "2"), ("D", "2"), ("6-", "6-"),
    ],
)  # fmt: skip
def test_a_plain_number_may_mean_the_triad_of_the_scale(text, written):
    """Where a song says so, 2 3 6 are minor and 7 diminished; letters and Roman numerals say it themselves.

    Source: the diatonic default of several teaching hand-outs on number charts; common practice.
    """
    assert settled(text, numbering=Numbering("from-six", "diatonic")) == written


@pytest.mark.parametrize(
    ("way", "written"),
    [
        ("from-six", "6- 7o 1 2- 3- 4 5"),
        ("from-one", "1- 2o b3 4- 5- b6 b7"),
        ("natural", "1- 2o b3 4- 5- b6 b7"),
    ],
)
def test_a_diatonic_minor_song_has_the_triads_of_minor(way, written):
    """A minor: Am Bdim C Dm Em F G, from each step of its scale. Common practice, no source."""
    written_so = {"from-six": "6 7 1 2 3 4 5", "from-one": "1 2 b3 4 5 b6 b7", "natural": "1 2 3 4 5 6 7"}
    numbering, key = Numbering(way, "diatonic"), read_key("Am")
    chords = [read_chord(step, key, numbering) for step in written_so[way].split()]
    assert " ".join(map(write_number, chords)) == written
    letters = " ".join(write_letters(to_letters(chord, numbering.one(key))) for chord in chords)
    assert letters == "Am Bdim C Dm Em F G"


@pytest.mark.parametrize(
    ("text", "way", "letters"),
    [
        ("VI", "from-six", "A"),
        ("vi", "from-six", "Am"),
        ("VI", "natural", "F"),
        ("bVI", "from-one", "F"),
        ("V7", "natural", "E7"),
        ("V7/VI", "natural", "C7"),
        ("V7/VI", "from-six", "E7"),
        ("6/3", "natural", "F/C"),
        ("b6/1", "from-one", "F/A"),
        ("7/2", "natural", "G/B"),
    ],
)
def test_numerals_and_basses_count_as_the_song_does(text, way, letters):
    """A minor: what six is hangs on the song's own numbering."""
    numbering, key = Numbering(way), read_key("Am")
    chord = read_chord(text, key, numbering)
    assert write_letters(to_letters(chord, numbering.one(key))) == letters


@pytest.mark.parametrize(
    ("text", "mends"),
    [
        ("15", ("1 5", "1(5)")),
        ("12", ("1 2", "1(add9)")),
        ("14", ("1 4", "1(add11)")),
        ("13", ("1 3",)),
        ("43", ("4 3",)),
        ("10", ("1 0",)),
        ("45", ("4 5", "4(5)")),
        ("145", ("1 4 5",)),
        ("57b9", ("57(b9)",)),
        ("1add9", ("1(add9)",)),
        ("1b7", ("17", "1 b7")),
        ("5b9", ("5(b9)",)),
        ("1b3", ("1 b3",)),
    ],
)
def test_a_broken_number_asks_what_was_meant(text, mends):
    """The mends can be typed in its place, and the message asks for them."""
    with pytest.raises(ChordFault, match=r"Did you mean .*\?$") as caught:
        read_chord(text, C)
    assert caught.value.mends == mends
    assert all(f"'{mend}'" in str(caught.value) for mend in mends)
    for mend in mends:
        for token in mend.replace("1 0", "1").split(" "):
            read_chord(token, C)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("8", r"'8' is no chord number\. Write 1 to 7, as in '1'\."),
        ("9-", r"'9-' is no chord number"),
        ("", r"'' is no chord\. Write a number and its quality, as in '6-7', '5/7' or '4maj7'\."),
        ("x", r"'x' is no chord"),
        ("5/8", r"the bass '8' is no degree\. Write 1 to 7, as in '5/7'\."),
        ("5()", r"the brackets are empty\. Write what changes, as in '\(b9\)'\."),
        ("57(b8)", r"'b8' changes no note of a chord"),
        ("vi+", r"a small numeral is minor and has no '\+'\. Write it in capitals, as in 'III\+'\."),
        ("VI-", r"a capital numeral is major and has no minor sign\. Write it small, as in 'vi'\."),
        ("V65/4/5", r"is no chord"),
        ("V65/5", r"the figure already gives the bass\. Leave the figure or the bass out\."),
        ("5o(#5)", r"'o' already has a b5"),
        ("Csus7", r"'Csus7' is no chord|changes no note"),
    ],
)
def test_what_is_no_chord_is_refused_with_the_mend(text, message):
    """The message says what is wrong and how a chord is written."""
    with pytest.raises(ChordFault, match=message):
        read_chord(text, C)


def test_a_letter_bass_needs_the_key():
    """Without a 1 to count from, the bass of 5/B cannot be a degree."""
    with pytest.raises(
        ChordFault, match=r"the bass 'B' is a letter\. Write it as a number, or name the key\."
    ):
        read_number_chord("5/B")


def test_the_triangle_may_carry_its_extension():
    """Δ alone is maj7; Δ9 is maj9 and Δ13 is maj13."""
    assert [plain_signs(text) for text in ("1Δ", "1Δ7", "1Δ9", "1Δ13")] == [
        "1maj7",
        "1maj7",
        "1maj9",
        "1maj13",
    ]
