"""Whatever a file holds, it is read or refused with our own error, within bounds."""

import random
import time
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.abc import read_abc
from fifthwise.exchange.errors import ExchangeError
from tests.exchange.abc.corpus import tune_texts

SIGNS = st.sampled_from(
    [
        *"ABCDEFGabcdefgzxyZX|:[](){}<>-^_=,'/1234567890 \\\n\"!+.~&%$*",
        "[K:", "[V:2]", "[1", "|:", ":|", "::", "(3", "(&", "&)",
        "V:2\n", "K:", "M:", "L:1/", "Q:", "P:", "w:",
        "X:1\n", "M:none\n", "%%", "T:", "Dmix", "3/4", "=120", "!segno!", "!D.S.!", '"Am7"', "{c}",
    ]
)  # fmt: skip
MUTATIONS = 300


def read_or_refuse(text):
    """Read a file and make charts of its tunes; a fault is one of ours."""
    try:
        tunes = read_abc(text).tunes
    except ExchangeError:
        return
    for tune in tunes[:3]:
        chart_of_sheet(tune.sheet)


def read_in_time(text, seconds):
    """Read a file within a time, or have it refused."""
    start = time.perf_counter()
    with suppress(ExchangeError):
        read_abc(text)
    assert time.perf_counter() - start < seconds


@settings(deadline=None)
@given(st.lists(SIGNS, max_size=80).map("".join), st.booleans())
def test_any_signs_are_read_or_refused(text, has_head):
    """Signs of the notation in any order are a tune or an error."""
    read_or_refuse("X:1\nK:C\n" + text if has_head else text)


@settings(deadline=None)
@given(st.text(max_size=200) | st.binary(max_size=200))
def test_any_text_is_read_or_refused(text):
    """Text and bytes of any kind are a tune or an error."""
    read_or_refuse(text)


def test_broken_tunes_are_read_or_refused():
    """Tunes with signs lost, doubled and mixed are a tune or an error."""
    chance = random.Random(7)
    texts = [text for _, text in chance.sample(tune_texts(), 40)]
    for _ in range(MUTATIONS):
        text = list(chance.choice(texts))
        for _ in range(chance.randint(1, 12)):
            at = chance.randrange(len(text))
            text[at : at + chance.choice((0, 1, 1, 5))] = chance.choice(
                (chance.choice(texts)[:9], "", "|", "[", '"')
            )
            text = text or [" "]
        read_or_refuse("".join(text))


@pytest.mark.parametrize(
    "text",
    [
        "X:1\nK:C\n" + "[" * 200_000,
        "X:1\nK:C\n" + '"' * 199_999,
        "X:1\nK:C\n" + "(" * 200_000,
        "X:1\nK:C\n" + "|:" * 100_000,
        "X:1\nK:C\n" + "{c" * 100_000,
        "X:1\nK:C\n" + "!a" * 100_000,
        "X:1\nK:C\nC256" * 1 + "C256" * 50_000,
        "X:1\nP:" + "(A9" * 1000 + ")9" * 1000 + "\nK:C\nP:A\nC|\n",
        "X:1\nK:C\n" + "C&\n" * 60_000,
        "X:1\nK:C\nC|\nw:" + "a-" * 100_000,
        "X:1\nK:C" + " ^c" * 60_000 + "\nC|\n",
        "X:1\nM:" + "1+" * 100_000 + "1/4\nK:C\nC|\n",
        "X:1\nK:C\n" + "%" * 200_000 + "\nC|\n",
        "X:1\nT:" + "\\'" * 100_000 + "&" * 100_000 + "\nK:C\nC|\n",
        "X:1\nK:C\n" + ("{c" * 9_000 + "\n") * 12,
        "X:1\nK:C\n" + ('"a' * 9_999 + "\n") * 12,
        "\n" * 200_000,
        "X:1\n" * 9_000,
        "X:1\nK:C\n" + "V:1\nC\nV:2\nD\n" * 8_000,
        "X:1\nK:C\nZ2000|\n" * 30,
    ],
    ids=range(20),
)
def test_long_repetitions_take_no_longer_than_their_length_allows(text):
    """Each of some hundred thousand signs is read or refused within seconds."""
    read_in_time(text, 8)
