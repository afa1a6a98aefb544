"""An evening printed by worker processes: the same bytes, progress, a second print, and what fails."""

import os
import signal
from dataclasses import replace
from functools import partial

import pytest

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.jobs import JobsCancelled
from fifthwise.page.sheet import song_text
from fifthwise.stage import PrintFault, books, plan, print_books
from tests.cli.evenings import EVENING, SECOND, SONG


@pytest.fixture(scope="module")
def tonight():
    """The small evening, planned."""
    charts = {"rope.chart.md": parse(SONG), "bell.chart.md": parse(SECOND)}
    return plan(read_evening(EVENING, "small"), charts)


@pytest.fixture(scope="module")
def in_turn(tonight):
    """Every file as ``make`` gives it, by path."""
    return {output.path: output.make() for output in books(tonight)}


@pytest.mark.parametrize("workers", [1, 2])
def test_print_gives_the_bytes_that_make_gives(tonight, in_turn, workers):
    """All files, in their order, whoever makes them; each is told once."""
    told = []
    outputs = books(tonight)
    printed = print_books(outputs, workers=workers, on_done=told.append)
    assert list(printed) == [output.path for output in outputs]
    assert printed == in_turn
    assert sorted(told) == sorted(output.label for output in outputs)


def test_a_second_print_after_a_key_change_is_that_of_a_fresh_process(tonight):
    """What the standing workers kept of the first print does not show in the second."""
    first, *others = tonight.evening.songs
    evening = replace(tonight.evening, songs=(replace(first, key="E"), *others))
    charts = {"rope.chart.md": parse(SONG), "bell.chart.md": parse(SECOND)}
    print_books(books(tonight), workers=2)
    changed = books(plan(evening, charts))
    assert print_books(changed, workers=2) == {output.path: output.make() for output in changed}


def test_a_key_change_lays_out_its_song_alone(tonight):
    """Three players' pages of the one song; the other song's are kept."""
    first, *others = tonight.evening.songs
    evening = replace(tonight.evening, songs=(replace(first, key="Ab"), *others))
    charts = {"rope.chart.md": parse(SONG), "bell.chart.md": parse(SECOND)}
    print_books(books(tonight), workers=1)
    before = song_text.cache_info().misses
    print_books(books(plan(evening, charts)), workers=1)
    assert song_text.cache_info().misses - before == 3


def test_some_of_the_files_can_be_printed(tonight, in_turn):
    """One player's book alone."""
    output = books(tonight)[0]
    assert print_books([output]) == {output.path: in_turn[output.path]}
    assert print_books([]) == {}


def test_a_print_that_is_not_wanted_makes_nothing(tonight):
    """It says so at once."""
    with pytest.raises(JobsCancelled):
        print_books(books(tonight), workers=1, cancelled=lambda: True)


def kill_worker(parent, tonight):
    """Ends the process that works on it, unless that is the tests' own."""
    assert os.getpid() != parent
    os.kill(os.getpid(), signal.SIGKILL)


def test_a_killed_process_is_told_with_the_book_that_it_made(tonight):
    """The fault names the file; every other file was made."""
    told = []
    outputs = books(tonight)
    broken = replace(outputs[1], work=partial(kill_worker, os.getpid()))
    with pytest.raises(PrintFault, match=rf"^{outputs[1].path}: the process that made it was ended"):
        print_books([outputs[0], broken, *outputs[2:]], workers=2, on_done=told.append)
    assert len(told) == len(outputs)
