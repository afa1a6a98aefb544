"""The page *Import*: files taken in, and one chart pasted and seen as numbers before it is kept."""

import re
import threading
import time
from html import unescape

import pytest
from starlette.testclient import TestClient

from fifthwise.book import add_song, open_book, song, songs
from fifthwise.web import guarded, make_app
from fifthwise.web.import_runs import MOST_RUNS, ImportRuns
from tests.web.conftest import DEMO

WAIT_S = 60
FRAGMENT = {"HX-Request": "true"}
LETTERS = "Paper Boat\nKey: G\n\n[Verse]\n| G | C D | Em7 | D/F# |\n"
NUMBERS = "---\ntitle: Paper Boat\nkey: G\n---\n\n# Verse\n1 | 4 5 | 6-7 | 5/7\n"
BLACK_BUOY = (DEMO / "black-buoy.chart.md").read_bytes()


def words(html):
    """What is read, as one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def send(client, *files):
    """Send files as a browser does."""
    return client.post("/songs/import", files=[("files", file) for file in files])


def look(client, text, headers=FRAGMENT, **fields):
    """What a pasted text says."""
    return client.post("/songs/import/look", data={"text": text, **fields}, headers=headers)


def count(book):
    """How many songs there are."""
    return len(songs(book))


def test_files_are_kept_and_named(client, book):
    """Chart text and letters become songs; each is a link."""
    text = NUMBERS.replace("Paper", "Wax").encode()
    answer = send(client, ("wax.chart.md", text), ("paper.txt", LETTERS.encode()))
    assert answer.url.path.startswith("/songs/import/")
    assert "2 kept." in words(answer.text)
    links = {
        title: int(number) for number, title in re.findall(r'/songs/(\d+)"><bdi>(.*?)</bdi>', answer.text)
    }
    assert song(book, links["Wax Boat"]).text == text.decode()
    assert song(book, links["Paper Boat"]).text == NUMBERS


def test_a_file_at_fault_tells_everything_and_the_rest_is_kept(client, book):
    """File, line, what and mend, for each fault of each file."""
    before = count(book)
    bad = NUMBERS.replace("6-7", "8").replace("4 5", "4 H")
    answer = send(
        client,
        ("bad.chart.md", bad.encode()),
        ("nokey.txt", LETTERS.replace("Key: G\n", "").encode()),
        ("good.txt", LETTERS.encode()),
        ("photo.jpg", b"\xff\xd8\xff\xe0\x00"),
        ("binary.txt", b"\xff\xfe\x00"),
    )
    said = words(answer.text)
    assert count(book) == before + 1  # without its key the letters are the same chart
    assert "3 at fault." in said
    assert "bad.chart.md Line 7: 'H' is no chord" in said
    assert re.search(r"Line 7: '8' is no chord number\. Write 1 to 7", said)
    assert "1 in the book already" in said
    assert "photo.jpg This is a picture" in said
    assert "binary.txt The file" in said


def test_the_same_text_is_not_kept_twice(client, book):
    """What the book has word for word is said to be there; another text of the title stands beside it."""
    before = count(book)
    answer = send(client, ("a.chart.md", BLACK_BUOY), ("b.chart.md", BLACK_BUOY + b"\n<!-- slower -->\n"))
    assert count(book) == before + 1
    assert "1 kept, 1 in the book already." in words(answer.text)
    assert "beside another song of this title" in words(answer.text)


def test_no_file_is_told(client):
    """A form without a file says what to do."""
    answer = client.post("/songs/import", files=[("files", ("", b""))])
    assert answer.status_code == 422
    assert "Choose files, or drop them on the page" in words(answer.text)


def test_too_many_files_are_told(client, monkeypatch):
    """More than the most are refused whole."""
    monkeypatch.setattr("fifthwise.web.import_page.MOST_FILES", 3)
    answer = send(client, *((f"{number}.txt", b"x") for number in range(4)))
    assert answer.status_code == 422
    assert "Send at most 3 files at once" in words(answer.text)


def test_many_files_are_taken_in_while_the_browser_looks_on(client, book):
    """The page counts what is done and asks again until the end; then it does not."""
    before = count(book)
    files = [(f"{n}.txt", LETTERS.replace("Paper", f"Paper {n}").encode()) for n in range(60)]
    answer = client.post("/songs/import", files=[("files", file) for file in files], follow_redirects=False)
    assert answer.status_code == 303
    until = time.monotonic() + WAIT_S
    while "hx-trigger" in (done := client.get(answer.headers["location"], headers=FRAGMENT)).text:
        assert time.monotonic() < until
    assert count(book) == before + 60
    assert "60 kept." in words(done.text)


def test_an_import_under_way_says_how_far_it_is(client):
    """How many of how many, and it is asked for again; without a script there is a link."""
    runs = client.app.state.imports
    run = runs.new(1000)
    run.done = 412
    answer = client.get(f"/songs/import/{run.id}", headers=FRAGMENT)
    assert "412 of 1000" in words(answer.text)
    assert 'hx-trigger="every 1s"' in answer.text
    assert "Look again" in answer.text


def test_an_import_that_broke_off_says_so(client):
    """What is not done with is told."""
    run = client.app.state.imports.new(9)
    run.ended = True
    assert "broke off after 0 of 9 files" in words(client.get(f"/songs/import/{run.id}").text)


def test_closing_breaks_off_what_goes_on(book):
    """What was taken in stays; the rest is not, and the page says so."""
    runs, begun = ImportRuns(), threading.Event()

    class Files(list):
        def __iter__(self):
            for file in super().__iter__():
                yield file
                begun.set()

    run = runs.new(5000)
    runs.start(run, book, Files([("wax.md", NUMBERS.encode())] * 5000))
    assert begun.wait(WAIT_S)
    runs.close()
    assert run.ended
    assert 0 < run.done < 5000


def test_an_error_of_ours_in_an_import_is_logged_without_its_words(book, caplog):
    """Where it rose and of which class; the words may quote a song."""
    runs = ImportRuns()
    run = runs.new(1)

    class Broken(list):
        def __iter__(self):
            raise ZeroDivisionError("Paper Boat")

    runs.start(run, book, Broken())
    runs.close()
    assert run.ended
    assert "ZeroDivisionError at " in caplog.text
    assert "Paper Boat" not in caplog.text


def test_the_oldest_imports_are_forgotten_but_none_under_way():
    """Only so many are known, and one that goes on stays."""
    runs = ImportRuns()
    going = runs.new(1)
    over = [runs.new(1) for _ in range(MOST_RUNS + 5)]
    for run in over:
        run.ended = True
    last = runs.new(1)
    assert runs.get(going.id) is going
    assert runs.get(last.id) is last
    assert runs.get(over[0].id) is None
    assert sum(runs.get(run.id) is not None for run in over) == MOST_RUNS - 2


def test_an_import_that_is_not_known_is_no_page(client):
    """Its address leads nowhere."""
    assert client.get("/songs/import/unknown").status_code == 404


def test_letters_become_numbers_before_anything_is_kept(client, book):
    """The chart is drawn in numbers, its title and key are said."""
    before = count(book)
    answer = look(client, LETTERS)
    assert "<html" not in answer.text
    assert "Paper Boat , G" in words(answer.text)
    assert 'class="chart' in answer.text
    assert count(book) == before


@pytest.mark.parametrize(
    ("text", "fields", "told"),
    [
        (LETTERS.replace("Key: G\n", ""), {}, "the key is not said; by its chords it is G"),
        ("Paper Boat\n| H |\n", {}, "does not say its key. Choose the key"),
        (LETTERS.replace("C D", "C H"), {}, "Line 5: 'H' is no chord"),
        (LETTERS, {"key": "H"}, "is no key"),
        ("| 1 | 4 |", {}, "this is number text: its chords are numbers. Write it as a new song"),
        ("nul\0", {}, "NUL"),
        (LETTERS + "\n<!-- a remark -->\n", {}, "this remark is left out"),
        ("x" * 100_001, {}, "too long to be read while you write"),
        ("", {}, "Nothing is kept until you save"),
    ],
)
def test_what_a_paste_lacks_is_told_beside_it(client, text, fields, told):
    """Faults and notices, each with its mend."""
    assert told in words(look(client, text, **fields).text)


@pytest.mark.parametrize(
    ("fields", "kept"),
    [
        ({"key": "Em"}, "6- | 1 | 4"),
        ({"key": "Em", "minor": "from-one"}, "1- | b3 | b6"),
        ({"key": "Em", "minor": "natural"}, "1- | 3 | 6"),
        ({"key": "Em", "minor": "nonsense", "plain": "diatonic"}, "6 | 1 | 4"),
    ],
)
def test_the_ways_of_counting_hold(client, book, fields, kept):
    """What the form says is what is kept."""
    text = "Tide\n\n[Verse]\n| Em | G | C |\n"
    answer = client.post("/songs/import/paste", data={"text": text, "title": "Ebb", **fields})
    number = int(re.fullmatch(r"/songs/(\d+)", answer.url.path)[1])
    assert song(book, number).row.title == "Ebb"
    assert kept in re.sub(" +", " ", song(book, number).text)


def test_chart_text_can_be_pasted_too(client, book):
    """It is kept as it is, without a word changed."""
    text = NUMBERS.replace("# Verse", "<!-- mine -->\n# Verse")
    answer = client.post("/songs/import/paste", data={"text": text.replace("\n", "\r\n")})
    assert song(book, int(answer.url.path.rpartition("/")[2])).text == text


def test_a_paste_at_fault_is_not_kept_and_stays_in_the_form(client, book):
    """The text comes back with its faults."""
    before = count(book)
    text = LETTERS.replace("C D", "C H <")
    answer = client.post("/songs/import/paste", data={"text": text})
    assert answer.status_code == 422
    assert count(book) == before
    assert "C H &lt;" in answer.text
    assert "Not saved." in words(answer.text)
    assert client.post("/songs/import/paste", data={"text": " "}).status_code == 422


def test_a_song_of_the_same_title_is_told_before_saving(client, book):
    """With a link to it, whatever the case."""
    number = add_song(book, NUMBERS.replace("Paper Boat", "PAPER boat")).id
    answer = look(client, LETTERS)
    assert "There is a song of this title already" in words(answer.text)
    assert f'href="/songs/{number}"' in answer.text


def test_without_a_script_looking_gives_the_whole_page(client):
    """The text stays in the form, its numbers beside it."""
    answer = look(client, LETTERS, headers={})
    assert "<html" in answer.text
    assert "| Em7 |" in answer.text
    assert "Paper Boat , G" in words(answer.text)


def test_many_charts_pass_the_guard_and_more_do_not(tmp_path):
    """Files up to 64 MB are taken in, a longer body is refused before it is read."""
    with open_book(tmp_path / "guarded.sqlite") as book:
        base = "http://127.0.0.1:5151"
        app = guarded(make_app(book))
        with TestClient(app, base_url=base, client=("127.0.0.1", 50000), headers={"origin": base}) as client:
            large = NUMBERS.encode() + b"<!-- " + b"x" * 900_000 + b" -->\n"
            answer = send(client, *((f"{number}.chart.md", large + b"\n" * number) for number in range(4)))
            assert "4 kept." in words(answer.text)
            told = {"content-length": "64000001", "content-type": "multipart/form-data; boundary=x"}
            assert client.post("/songs/import", headers=told, content=b"").status_code == 413


OVER_WORDS = b"Net Loft\n\n[Verse]\nC        F\nUp in the loft\nC       F\nthe nets hang dry\n"


def test_what_was_guessed_waits_until_it_is_settled(client, book):
    """Two chords leave the key open: nothing is kept before it is chosen, then it is kept so."""
    before = count(book)
    run = send(client, ("loft.txt", OVER_WORDS), ("paper.txt", LETTERS.encode()))
    assert "1 kept, 1 to settle." in words(run.text)
    assert count(book) == before + 1
    address = re.search(r'href="(/songs/import/[^"]+/0)"', run.text)[1]
    page = client.get(address)
    assert "Which key is it in?" in words(page.text)
    live = client.get(address, params={"settle-key": "F", "settle-bars": "2"}, headers=FRAGMENT)
    assert "Net Loft , F" in words(live.text)
    assert 'value="C"' in live.text  # it can be chosen anew
    kept = client.post(address, data={"settle-key": "F", "settle-bars": "2"})
    assert "2 kept." in words(kept.text)
    row = next(row for row in songs(book) if row.title == "Net Loft")
    assert "key: F" in song(book, row.id).text
    again = client.post(address, data={"settle-key": "C"})
    assert (again.status_code, count(book)) == (200, before + 2)


def test_a_paste_says_what_was_guessed_and_takes_what_is_chosen(client, book):
    """The questions stand beside the numbers; the choice goes with the paste."""
    text = OVER_WORDS.decode()
    page = look(client, text)
    assert "Which key is it in?" in words(page.text)
    answer = client.post("/songs/import/paste", data={"text": text, "settle-key": "F"})
    number = int(answer.url.path.rsplit("/", 1)[1])
    assert "key: F" in song(book, number).text


@pytest.mark.parametrize(
    ("name", "raw", "told"),
    [
        (
            "bomb.musicxml",
            b'<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><score-partwise>&b;',
            "bomb",
        ),
        ("../../etc/passwd.mxl", b"PK\x03\x04nonsense", "passwd.mxl"),
        ("cut.mid", b"MThd\x00\x00\x00\x06\x00\x01", "cut.mid"),
        ("empty.txt", b"", "empty.txt"),
        ("song.musicxml", b"%PDF-1.7", "is a PDF"),
    ],
)
def test_hostile_files_are_told_and_nothing_is_kept(client, book, name, raw, told):
    """The page says what is wrong with the file; the book is as before."""
    before = count(book)
    answer = send(client, (name, raw))
    assert answer.status_code == 200
    assert "1 at fault." in words(answer.text)
    assert told in words(answer.text)
    assert count(book) == before


def test_a_latin_1_sheet_is_read_with_a_word_about_it(client, book):
    """An old encoding is no fault; it is told."""
    answer = send(client, ("ete.txt", LETTERS.replace("Paper Boat", "Bateau d'été").encode("latin-1")))
    assert "Bateau d'été" in words(answer.text)
    assert "Windows-1252" in words(answer.text)


def test_a_typed_number_sheet_is_seen_and_settled(client, book):
    """What a plain 6 means is asked with what follows from it, and kept as it is chosen."""
    text = "Boat\nKey: G\nVerse\n1 4 2 5\n1 6 2 1\n"
    page = look(client, text)
    assert "2 is Am" in words(page.text)
    answer = client.post("/songs/import/paste", data={"text": text, "settle-numbers-plain": "major"})
    number = int(answer.url.path.rsplit("/", 1)[1])
    assert "1 | 6 | 2 | 1" in song(book, number).text
