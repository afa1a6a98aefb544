"""Chords to numbers and back on the command line."""

import json

import pytest

from tests.cli.running import run


@pytest.mark.parametrize(
    ("args", "out"),
    [
        (["number", "G C D/F# Em7 F D", "--key", "G"], "1 4 5/7 6-7 b7 5"),
        (["letters", "1 4 5/7 6-7 b7 5", "--key", "Ab"], "Ab Db Eb/G Fm7 Gb Eb"),
        (["number", "F C/E | Dm7 | N.C. | Bb.push", "-k", "Bb"], "5 2/#4 | 3-7 | N.C. | 1.push"),
        (["number", "Am", "F", "C", "G", "--key", "Am"], "6- 4 1 5"),
        (["number", "Am F C G", "--key", "Am", "--minor", "from-one"], "1- b6 b3 b7"),
        (["number", "Am F C G", "--key", "Am", "--minor", "natural"], "1- 6 3 7"),
        (["number", "Dm7 G7 C", "--key", "C", "--roman"], "ii7 V7 I"),
        (["number", "Dm7 G7 C A7", "--key", "C", "--plain", "diatonic"], "27 57 1 VI7"),
        (["letters", "1 b7 b3", "--key", "G♭"], "Gb Fb Bbb"),
        (["letters", "1 b7 b3", "--key", "Gb", "--easy"], "Gb E A"),
        (["letters", "57(b9 #11) 1", "--key", "Cb"], "Gb7(b9 #11) Cb"),
        (["letters", "6- 4 1 5", "--key", "G#m"], "G#m E B F#"),
    ],
)
def test_a_line_of_chords_is_written_anew(args, out):
    """Bar lines, rests and marks stay where they were."""
    assert run(*args).lines == [out]


def test_json_holds_notes_and_degrees():
    """One record a chord, spelled strictly."""
    record = json.loads(run("letters", "6-7", "--key", "Eb", "--json").out)
    assert record["chords"] == [
        {
            "number": "6-7",
            "roman": "vi7",
            "letters": "Cm7",
            "notes": ["C", "Eb", "G", "Bb"],
            "degrees": ["6", "1", "3", "5"],
            "bass": "C",
        }
    ]


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["number", "G H", "--key", "G"], "chord 2: 'H' is no chord"),
        (["letters", "15", "--key", "G"], "Did you mean '1 5' or '1(5)'?"),
        (["number", "G", "--key", "G# major"], "'G#' would have 8 sharps. Write Ab."),
        (["number", "G"], "Missing option '--key'"),
        (["number", " ", "--key", "G"], "no chords"),
        (["nmber", "G"], "Did you mean 'number'?"),
        (["zzz"], "Commands are number"),
    ],
)
def test_a_fault_is_said_and_exits_with_2(args, words):
    """The message goes to the error stream, the output stays empty."""
    done = run(*args)
    assert (done.code, done.out) == (2, "")
    assert words in done.err
