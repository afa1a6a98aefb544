"""A book out to plain files and in again: the same bytes, and every fault of a folder told."""

import os
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from fifthwise.book import (
    KeptSetSong,
    NameFault,
    SetOrder,
    add_player,
    add_set,
    add_singer,
    add_song,
    check_book,
    export_book,
    import_folder,
    open_book,
    players,
    record_sung,
    save_song,
    sets,
    singers,
    song,
    songs,
    sung_by,
    versions,
)
from fifthwise.evening import SHOWS, Player, part_names, part_of, read_evening
from fifthwise.files import MANIFEST, FileFault
from fifthwise.strings import LEVELS
from fifthwise.voice import read_singer
from tests.book.people import a_player, a_singer
from tests.book.texts import chart_texts, tune
from tests.strategies import keys

TODAY = date(2026, 12, 5)
# On SQLite alone: a new database for each example takes PostgreSQL too long.
LAW = settings(
    max_examples=15,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],  # a book takes too long to be made smaller
    deadline=None,
    suppress_health_check=[
        HealthCheck.too_slow,
        HealthCheck.data_too_large,
        HealthCheck.filter_too_much,
    ],
)
# Names that make the same file name, are numbers, or are kept for devices.
NAMES = st.sampled_from(["a", "A!", "á", "a 2", "a-2", "a-10", "con", "10", "!", "Ⅻ", "山" * 70]) | st.text(
    st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=8
).filter(lambda name: name.strip() and not name.startswith("\ufeff"))
COUNT = st.integers(0, 6)


def contents(folder):
    """Every file below a folder but the record of what was written."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.name != MANIFEST)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def put(folder, **files):
    """Write files by their names, with underscores for what a Python name cannot have."""
    for name, text in files.items():
        path = folder / (
            name.replace("__", "/") + (".set.yaml" if text.startswith("evening") else ".chart.md")
        )
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")


@pytest.fixture
def band(book):
    """A book with two songs, two singers, a player, a set, and what was sung."""
    first, second = add_song(book, tune("Keel", by="M. Strand")), add_song(book, tune())
    maren, tobias = add_singer(book, a_singer()), add_singer(book, a_singer("Tobias", turns="D4 F4"))
    ines = add_player(book, a_player(level="third"))
    placed = (KeptSetSong(second.id, maren.id, "A", "Ines", segue=True), KeptSetSong(first.id))
    add_set(book, SetOrder("Harbour night", "2026-12-05", "letter", (tobias.id,), (ines.id,), placed))
    record_sung(book, maren.id, second.id, song(book, second.id).row.key, TODAY)
    return book


def test_a_book_goes_out_as_plain_files(band, tmp_path):
    """Charts byte for byte, the set as an evening that names them, people, and what was sung."""
    assert export_book(band, tmp_path) == 6
    found = contents(tmp_path)
    assert found["songs/keel.chart.md"].decode() == tune("Keel", by="M. Strand")
    assert found["songs/slack-water.chart.md"].decode() == tune()
    evening = read_evening(found["sets/harbour-night.set.yaml"].decode())
    assert [each.chart for each in evening.songs] == [
        "../songs/slack-water.chart.md",
        "../songs/keel.chart.md",
    ]
    assert [each.name for each in evening.singers] == ["Tobias", "Maren"]
    assert found["sung.yaml"].decode() == (
        "sung:\n- {singer: Maren, song: songs/slack-water.chart.md, key: G, day: 2026-12-05}\n"
    )
    assert set(found) == {
        "songs/keel.chart.md", "songs/slack-water.chart.md", "sets/harbour-night.set.yaml",
        "singers.yaml", "players.yaml", "sung.yaml",
    }  # fmt: skip


def test_a_second_export_replaces_the_first(band, tmp_path):
    """What is gone from the book goes from the folder; notes of one's own stay; other folders are refused."""
    out, other = tmp_path / "out", tmp_path / "other"
    export_book(band, out)
    (out / "notes.txt").write_text("mine")
    (keel,) = [row for row in songs(band) if row.title == "Keel"]
    save_song(band, keel.id, tune("Hull"), 1)
    export_book(band, out)
    assert "songs/hull.chart.md" in contents(out)
    assert "songs/keel.chart.md" not in contents(out)
    assert contents(out)["notes.txt"] == b"mine"
    other.mkdir()
    (other / "thesis.txt").write_text("mine")
    with pytest.raises(FileFault, match="did not write"):
        export_book(band, other)
    assert contents(other) == {"thesis.txt": b"mine"}


def test_importing_what_was_exported_changes_nothing(band, tmp_path):
    """Every file is unchanged, and no song gets a version."""
    export_book(band, tmp_path)
    told = []
    report = import_folder(band, tmp_path, lambda path, count: told.append((path, count)))
    assert (report.kept, report.failed) == ((), ())
    assert sorted(report.unchanged) == sorted(contents(tmp_path))
    assert sorted(told) == [(path, 6) for path in sorted(contents(tmp_path))]
    assert [row.version for row in songs(band)] == [1, 1]
    assert len(sets(band)) == len(players(band)) == 1


def test_a_band_that_went_out_and_in_goes_out_the_same(band, empty_place, tmp_path):
    """On both databases, with everything that a book has."""
    export_book(band, tmp_path / "one")
    with empty_place() as place, open_book(place) as other:
        assert import_folder(other, tmp_path / "one").failed == ()
        export_book(other, tmp_path / "two")
        assert check_book(other) == ()
    assert contents(tmp_path / "two") == contents(tmp_path / "one")


def test_a_changed_file_is_a_new_version(band, tmp_path):
    """Of the song with its title and author, of the singer with that name, of the set of that day."""
    export_book(band, tmp_path)
    for name, old, new in (
        ("songs/keel.chart.md", "1 4 | 5 1", "1 4 | 5 5"),
        ("singers.yaml", "A3-Bb4", "A3-A4"),
        ("sets/harbour-night.set.yaml", "key: A", "key: Bb"),
        ("sung.yaml", "key: G", "key: F"),
    ):
        path = tmp_path / name
        assert old in path.read_text()
        path.write_text(path.read_text().replace(old, new))
    report = import_folder(band, tmp_path)
    assert report.failed == ()
    assert len(report.kept) == 4
    (keel,) = [row for row in songs(band) if row.title == "Keel"]
    assert [version.text for version in versions(band, keel.id)] == [
        tune("Keel", by="M. Strand"),
        tune("Keel", "1 4 | 5 5", by="M. Strand"),
    ]
    (maren,) = [each for each in singers(band) if each.singer.name == "Maren"]
    assert str(maren.singer.comfort.high) == "A4"
    assert [str(each.key) for each in sung_by(band, maren.id)] == ["F"]
    assert len(sets(band)) == 1


def test_two_songs_of_one_title_are_not_taken_for_one(book, tmp_path):
    """Case and accents do not matter, the author does; a second one of the same folder is new."""
    kept = add_song(book, tune("Älv", by="M. Strand"))
    put(
        tmp_path,
        a=tune("ALV", "5 | 1", by="m. strand"),
        b=tune("Alv", "4 | 1", by="M. Strand"),
        c=tune("Alv", "1 | 1", by="J. Kvist"),
    )
    report = import_folder(book, tmp_path)
    assert report.kept == ("a.chart.md", "b.chart.md", "c.chart.md")
    assert song(book, kept.id).text == tune("ALV", "5 | 1", by="m. strand")
    assert song(book, kept.id).row.version == 2
    assert len(songs(book)) == 3


def test_of_songs_alike_each_file_finds_its_own(book, tmp_path):
    """A file that was changed is not taken for the song that another file still is."""
    for bars in ("1 | 1", "4 | 4", "5 | 5"):
        add_song(book, tune(bars=bars))
    export_book(book, tmp_path)
    first = tmp_path / "songs" / "slack-water.chart.md"
    assert first.read_text() == tune(bars="1 | 1")
    first.write_text(tune(bars="6- | 6-"))
    assert import_folder(book, tmp_path).kept == ("songs/slack-water.chart.md",)
    kept = {row.id: [version.text for version in versions(book, row.id)] for row in songs(book)}
    assert sorted(map(len, kept.values())) == [1, 1, 2]
    assert [tune(bars="1 | 1"), tune(bars="6- | 6-")] in kept.values()


def test_what_is_good_is_kept_and_every_fault_is_told(book, tmp_path):
    """Charts at fault with all their faults; sets that name them; people and lines of lists."""
    put(
        tmp_path,
        good=tune(),
        bad=tune(bars="8x | 1 | 9y"),
        evening__one="evening: One\nsongs:\n- {chart: ../good.chart.md}\n",
        evening__two="evening: Two\nsongs:\n- {chart: ../good.chart.md}\n- {chart: ../bad.chart.md}\n",
    )
    (tmp_path / "singers.yaml").write_text("Maren: {usable: F3-D5, comfort: A3-Bb4}\nTobias: {}\n")
    (tmp_path / "players.yaml").write_text("Ines: {instrument: fiddle}\n")
    (tmp_path / "sung.yaml").write_text(
        "sung:\n- {singer: Ines, song: good.chart.md, key: G, day: 2026-12-05}\n"
        "- {singer: Nobody, song: bad.chart.md, key: H, day: 2026-02-30}\n"
    )
    report = import_folder(book, tmp_path)
    assert report.kept == ("evening/one.set.yaml", "good.chart.md", "players.yaml")
    faults = {failed.path: [fault.what for fault in failed.faults] for failed in report.failed}
    assert list(faults) == ["bad.chart.md", "evening/two.set.yaml", "singers.yaml", "sung.yaml"]
    assert len(faults["bad.chart.md"]) == 2
    assert faults["evening/two.set.yaml"] == ["there is no sound chart ../bad.chart.md in this folder"]
    assert {fault.line for failed in report.failed for fault in failed.faults} >= {2, 3, 4}
    assert "'H' is no key" in str(faults["sung.yaml"])
    assert "there is no day '2026-02-30'" in faults["sung.yaml"]
    assert [row.title for row in songs(book)] == ["Slack Water"]
    assert check_book(book) == ()


def test_a_set_brings_its_people_and_leaves_those_who_are_there(book, tmp_path):
    """A folder made by hand has charts beside the evening, and everyone in it."""
    add_singer(book, a_singer(comfort="A3-A4"))
    people = "singers:\n  Maren: {usable: F3-D5, comfort: A3-Bb4}\n  Jo: {usable: F3-D5, comfort: A3-Bb4}\n"
    put(tmp_path, x=tune(), night=f"evening: Night\n{people}songs:\n- {{chart: x.chart.md, singer: Jo}}\n")
    report = import_folder(book, tmp_path)
    assert report.kept == ("night.set.yaml", "x.chart.md")
    assert [str(each.singer.comfort.high) for each in singers(book)] == ["Bb4", "A4"]


def test_files_that_cannot_be_read_are_told(book, tmp_path):
    """Too large, binary, not UTF-8, links out, links to nothing, a pipe, a name that is no text."""
    folder, outside = tmp_path / "in", tmp_path / "outside"
    folder.mkdir()
    outside.mkdir()
    put(outside, secret=tune("Secret"))
    put(folder, good=tune())
    (folder / "large.chart.md").write_bytes(b"x" * 1_000_001)
    (folder / "binary.chart.md").write_bytes(b"\x7fELF\0\0")
    (folder / "latin.chart.md").write_bytes("title: Älv".encode("latin-1"))
    (folder / "out.chart.md").symlink_to(outside / "secret.chart.md")
    (folder / "folder").symlink_to(outside)
    (folder / "gone.chart.md").symlink_to(folder / "nothing")
    (folder / "loop.chart.md").symlink_to(folder / "loop.chart.md")
    os.mkfifo(folder / "pipe.chart.md")
    Path(os.fsdecode(os.fsencode(folder) + b"/name\xff.chart.md")).write_text(tune())
    (folder / ".hidden.chart.md").write_text("not looked at")
    (folder / "readme.txt").write_text("not looked at")
    report = import_folder(book, folder)
    assert report.kept == ("good.chart.md",)
    told = {failed.path: failed.faults[0].what for failed in report.failed}
    for name, words in {
        "large.chart.md": "the file has 1.0 MB",
        "binary.chart.md": "the file holds NUL bytes",
        "latin.chart.md": "the file is not UTF-8 text",
        "out.chart.md": "this is a link out of the folder",
        "folder": "this is a link out of the folder",
        "gone.chart.md": "this is a link to what is not there",
        "loop.chart.md": "this is a link to what is not there",
        "pipe.chart.md": "this is no file with a text",
        "name\\udcff.chart.md": "the name is not UTF-8",
    }.items():
        assert told.pop(name) == words
    assert told == {}
    assert [row.title for row in songs(book)] == ["Slack Water"]


def test_a_folder_without_charts_is_told(book, tmp_path):
    """Nothing in it, not there, or a file."""
    (tmp_path / "file").write_text("x")
    for folder, words in (
        (tmp_path, "there are no charts and no sets in this folder"),
        (tmp_path / "nowhere", "there is no such folder"),
        (tmp_path / "file", "this is a file, not a folder"),
    ):
        with pytest.raises(FileFault, match=words):
            import_folder(book, folder)


@pytest.mark.parametrize("empty_place", ["sqlite"], indirect=True)
@LAW
@given(
    texts=st.lists(
        chart_texts() | st.sampled_from([tune().replace("\n", "\r\n"), "\ufeff" * 3 + tune()]), max_size=2
    )
)
def test_every_text_comes_back_the_same(empty_place, tmp_path_factory, texts):
    """Through saving, export and import into another book."""
    folder = tmp_path_factory.mktemp("out")
    with empty_place() as first, empty_place() as second, open_book(first) as one, open_book(second) as other:
        for text in texts:
            add_song(one, text)
        export_book(one, folder)
        assert import_folder(other, folder).failed == ()
        kept = sorted(song(one, row.id).text for row in songs(one))
        assert sorted(song(other, row.id).text for row in songs(other)) == kept


@pytest.mark.parametrize("empty_place", ["sqlite"], indirect=True)
@LAW
@given(data=st.data())
def test_a_book_that_went_out_and_in_goes_out_the_same(empty_place, tmp_path_factory, data):
    """Any songs, singers, players, sets and what was sung: the second export has the first one's bytes."""
    first_out, second_out = tmp_path_factory.mktemp("one"), tmp_path_factory.mktemp("two")
    with empty_place() as first, empty_place() as second, open_book(first) as one, open_book(second) as other:
        fill(one, data.draw)
        export_book(one, first_out)
        assert import_folder(other, first_out).failed == ()
        export_book(other, second_out)
        assert contents(second_out) == contents(first_out)
        assert check_book(other) == ()


def fill(book, draw):
    """Put made-up things into a book."""
    titles, bars = st.lists(NAMES, max_size=6), st.sampled_from(["1 | 4", "5 | 1"])
    numbers = [add_song(book, tune(title, draw(bars))).id for title in draw(titles)]
    who, what = ([*draw(st.lists(NAMES, max_size=4, unique_by=str.casefold))] for _ in range(2))
    sang, play = [], []
    for name in who:
        singer = read_singer(name, usable="F3-D5", comfort="A3-Bb4", turns=draw(st.none() | st.just("Bb4")))
        sang += _kept(lambda singer=singer: add_singer(book, singer).id)
    for name in what:
        part = part_of(draw(st.sampled_from(part_names())))
        level, show = draw(st.none() | st.sampled_from(LEVELS)), draw(st.sampled_from(SHOWS))
        player = Player(name, part, level, show, part.capo and draw(st.booleans()))
        play += _kept(lambda player=player: add_player(book, player).id)
    some = lambda ids: st.sampled_from(ids) if ids else st.none()  # noqa: E731 - a strategy, not a step
    for name in draw(st.lists(NAMES, max_size=3)):
        placed = tuple(
            KeptSetSong(
                draw(some(numbers)), draw(st.none() | some(sang)), draw(st.none() | keys().map(str)),
                draw(st.none() | NAMES), draw(st.booleans()),
            )
            for _ in range(draw(COUNT) if numbers else 0)
        )  # fmt: skip
        day = draw(st.none() | st.sampled_from(["2026-12-05", "next Friday", "no", "10"]))
        there = tuple(draw(st.lists(some(sang), unique=True))) if sang else ()
        playing = tuple(draw(st.lists(some(play), unique=True))) if play else ()
        add_set(book, SetOrder(name, day, draw(st.sampled_from(["a4", "letter"])), there, playing, placed))
    for _ in range(draw(COUNT) if sang and numbers else 0):
        on = TODAY + timedelta(days=draw(COUNT))
        record_sung(book, draw(some(sang)), draw(some(numbers)), draw(keys()), on)


def _kept(add):
    """The number of what was added; none where another has that name."""
    try:
        return [add()]
    except NameFault:
        return []
