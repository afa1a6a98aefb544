"""Chords in 15 keys against answers that another program worked out; see ``tests/data/README.md``."""

import json
from collections import Counter
from pathlib import Path

import pytest

from fifthwise.theory import (
    chord_notes,
    player_reading,
    read_chord,
    read_key,
    to_letters,
    to_number,
    without_doubles,
    write_letters,
)

FILE = Path(__file__).parents[1] / "data" / "number-chord-answers.json"
ANSWERS = json.loads(FILE.read_text(encoding="utf-8"))
EACH_ANSWER = pytest.mark.parametrize("answer", ANSWERS, ids=lambda a: f"{a['key']}: {a['number']}")


def letters_of(answer):
    """The answer's number, read and spelled strictly by us."""
    key = read_key(answer["key"])
    return to_letters(read_chord(answer["number"], key), key.tonic)


def test_every_key_has_its_answers():
    """There are 315: 21 numbers in each of 15 keys."""
    assert set(Counter(answer["key"] for answer in ANSWERS).values()) == {21}
    assert len(ANSWERS) == 315


@EACH_ANSWER
def test_a_number_is_spelled_strictly(answer):
    """The chord, its notes and its bass are those of the answer."""
    chord = letters_of(answer)
    assert write_letters(chord) == answer["chord"]
    tones = [str(note) for note in chord_notes(chord)]
    if chord.bass is not None and answer["bass"] not in answer["notes"]:
        assert tones.pop(0) == answer["bass"]
    assert tones == answer["notes"]
    assert str(chord.bass or chord.root) == answer["bass"]


@EACH_ANSWER
def test_a_number_is_spelled_without_double_accidentals(answer):
    """A root with two accidentals is respelled, and no other."""
    assert write_letters(without_doubles(letters_of(answer))) == answer["no_doubles"]


@EACH_ANSWER
def test_a_number_is_spelled_for_the_player(answer):
    """The player's reading is the answer's."""
    assert write_letters(player_reading(letters_of(answer), read_key(answer["key"]))) == answer["player"]


@EACH_ANSWER
def test_letters_are_counted_back(answer):
    """The answer's letters are the same number again."""
    key = read_key(answer["key"])
    number = read_chord(answer["number"], key)
    assert to_number(to_letters(number, key.tonic), key.tonic) == number
    assert read_chord(answer["chord"], key) == number
