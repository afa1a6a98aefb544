"""Songs kept: there and back, every version, and one winner where several save at once."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import FrozenInstanceError
from datetime import UTC, datetime
from itertools import groupby
from threading import Barrier

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import delete, update

from fifthwise.book import (
    DiffLine,
    NoSuchSong,
    SongConflict,
    add_song,
    compare,
    find_songs,
    restore,
    save_song,
    song,
    songs,
    versions,
)
from fifthwise.book.engine import writing
from fifthwise.book.tables import song as song_table
from fifthwise.book.tables import song_tag
from fifthwise.chart import ChartFaults
from fifthwise.theory import read_key
from tests.book.texts import chart_texts, tune

SAVERS = 8


@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[
        HealthCheck.too_slow,
        HealthCheck.data_too_large,
        HealthCheck.function_scoped_fixture,  # one book takes the songs of all examples
    ],
)
@given(texts=st.lists(chart_texts(), min_size=1, max_size=3), data=st.data())
def test_every_text_that_was_saved_is_read_again(book, texts, data):
    """Versions are all texts in order, once where one comes twice in a row; one restored is a new one."""
    row = add_song(book, texts[0])
    for text in texts[1:]:
        row = save_song(book, row.id, text, row.version)
    different = [text for text, _ in groupby(texts)]
    assert row.version == len(different)
    assert song(book, row.id).text == texts[-1]
    back = data.draw(st.integers(1, len(different)))
    restored = restore(book, row.id, back)
    kept = versions(book, row.id)
    wanted = [text for text, _ in groupby([*different, different[back - 1]])]
    assert [version.text for version in kept] == wanted
    assert [version.version for version in kept] == list(range(1, restored.version + 1))


@pytest.mark.parametrize("text", [tune().replace("\n", "\r\n"), tune("<script>א\U0001f3bb</script>")])
def test_a_text_is_kept_as_it_was_written(book, text):
    """Line ends, signs and writing systems stay."""
    assert song(book, add_song(book, text).id).text == text


def test_a_row_says_what_the_head_says(book):
    """What lists show comes from the chart; what the head is silent about is None."""
    row = add_song(book, tune("Keel", key="F# minor", tempo="92", feel="shuffle", tags="slow, dance "))
    assert (row.version, row.title, row.by, row.key) == (1, "Keel", None, read_key("F#m"))
    assert (row.tempo_bpm, row.feel, row.tags) == (92.0, "shuffle", ("slow", "dance"))
    assert (row.metre, row.sung, row.opening) == ("4/4", False, ("1", "4", "5", "1"))
    changed = save_song(book, row.id, tune("Keelson"), row.version)
    assert (changed.title, changed.tempo_bpm, changed.feel, changed.tags) == ("Keelson", None, None, ())
    assert changed in songs(book)
    with pytest.raises(FrozenInstanceError):
        row.title = "Hull"


def test_a_version_knows_when_it_was_saved(book):
    """The time is UTC and says so."""
    before = datetime.now(UTC)
    (version,) = versions(book, add_song(book, tune()).id)
    assert before <= version.saved_at <= datetime.now(UTC)


def test_a_save_over_an_older_version_is_refused_with_both_texts(book):
    """Nothing is lost: the book keeps theirs, the fault brings both."""
    row = add_song(book, tune())
    save_song(book, row.id, tune(bars="1 | 5"), 1)
    with pytest.raises(SongConflict, match="'Slack Water': the song has been changed meanwhile") as caught:
        save_song(book, row.id, tune(bars="1 | 4"), 1)
    conflict = caught.value
    assert (conflict.mine, conflict.theirs) == (tune(bars="1 | 4"), tune(bars="1 | 5"))
    assert save_song(book, row.id, conflict.mine, conflict.version).version == 3


def test_the_newest_text_saved_again_changes_nothing(book):
    """There is no new version and no conflict, whichever version the text was made from."""
    row = add_song(book, tune())
    newest = save_song(book, row.id, tune(bars="1 | 5"), 1)
    for version in (1, 2):
        assert save_song(book, row.id, tune(bars="1 | 5"), version) == newest
    assert restore(book, row.id, 2) == newest
    assert len(versions(book, row.id)) == 2


def test_the_newest_text_saved_again_mends_what_the_song_is_found_by(book):
    """A list that does not say what the text says is put right without a new version."""
    row = add_song(book, tune(tags="slow"))
    with writing(book) as connection:
        connection.execute(update(song_table).values(title="Wrong", families="", chords=""))
        connection.execute(delete(song_tag))
    assert save_song(book, row.id, tune(tags="slow"), 1) == row
    assert find_songs(book, tag="slow", progression="4 5").total == 1


def test_two_versions_stand_side_by_side(book):
    """What went and what came has its line in its own version."""
    row = add_song(book, tune(bars="1 | 4"))
    save_song(book, row.id, tune(bars="1 | 5"), 1)
    changed = [line for line in compare(book, row.id, 1, 2) if line.kind != "same"]
    assert changed == [DiffLine("less", "1 | 4", 5, None), DiffLine("more", "1 | 5", None, 5)]
    assert {line.kind for line in compare(book, row.id, 2, 2)} == {"same"}
    with pytest.raises(NoSuchSong, match=r"there is no version 3 of this song. Name one from 1 to 2"):
        compare(book, row.id, 1, 3)


def test_of_several_who_save_at_once_one_wins(book):
    """The others are each told, and only the winner's text is kept."""
    row = add_song(book, tune())
    start = Barrier(SAVERS)

    def save(number):
        start.wait()
        try:
            save_song(book, row.id, tune(tempo=100 + number), 1)
        except SongConflict as conflict:
            return conflict
        return number

    with ThreadPoolExecutor(SAVERS) as pool:
        results = list(pool.map(save, range(SAVERS)))
    (winner,) = [result for result in results if isinstance(result, int)]
    conflicts = [result for result in results if isinstance(result, SongConflict)]
    assert len(conflicts) == SAVERS - 1
    assert {conflict.theirs for conflict in conflicts} == {tune(tempo=100 + winner)}
    assert [version.text for version in versions(book, row.id)] == [tune(), tune(tempo=100 + winner)]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (tune(bars="8x"), "8x"),
        ("\ud800", "not UTF-8"),
        (tune("a\0b"), "NUL"),
        (tune(bars=" " * 1_000_001), "split it"),
    ],
)
def test_a_faulty_chart_is_refused(book, text, words):
    """Neither a new song nor a version is made of it."""
    row, count = add_song(book, tune()), len(songs(book))
    with pytest.raises(ChartFaults, match=words):
        add_song(book, text)
    with pytest.raises(ChartFaults, match=words):
        save_song(book, row.id, text, 1)
    assert len(songs(book)) == count
    assert len(versions(book, row.id)) == 1


def test_what_is_not_there_is_said(book):
    """A song or version that the book does not have is no programmer's slip."""
    row = add_song(book, tune())
    for ask in (song, versions, lambda b, i: save_song(b, i, tune(), 1), lambda b, i: restore(b, i, 1)):
        for number in (99999, 9999900000000000000000):
            with pytest.raises(NoSuchSong, match=f"there is no song {number}. Look for it in the list"):
                ask(book, number)
    with pytest.raises(SongConflict, match="it is now version 1"):
        save_song(book, row.id, tune(), 10**30)
    with pytest.raises(NoSuchSong, match=r"there is no version 2 of this song. Name one from 1 to 1"):
        restore(book, row.id, 2)
