"""Files that are broken, unsafe or too large: each is refused with what, where and how to mend it."""

import struct
import time
import tracemalloc
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_LZMA, ZipFile

import pytest

from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.errors import EmptyScore, TooLarge, UnreadableFile
from fifthwise.exchange.musicxml import read_musicxml
from fifthwise.exchange.musicxml.limits import LARGEST_FILE, MOST_BARS, MOST_ELEMENTS
from tests.exchange.musicxml.scores import (
    CONTAINER,
    attributes,
    bar,
    harmony,
    note,
    packed,
    read,
    score,
    sheet,
)

SOUND = score(bar(attributes(), harmony("C"), note("C5", 4)))
BOMB = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))


def zipped(**members):
    """A zip of members by name, their dots written as two underscores."""
    file = BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as archive:
        for name, text in members.items():
            archive.writestr(name.replace("__", "."), text)
    return file.getvalue()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "the file is empty"),
        (b" \n\t ", "the file is empty"),
        (b"MThd\0\0\0\6", "the file is a MIDI file, not MusicXML"),
        (b"%PDF-1.7", "the file is a PDF, not MusicXML"),
        (b"X:1\nT:a\nK:C\n", "the file is an ABC tune, not MusicXML"),
        (b'{"a": 1}', "the file is a JSON file, not MusicXML"),
        (b"just words", "the XML is broken: syntax error"),
        (b"<html><body/></html>", "the file is no score: it begins with <html>, not <score-partwise>"),
        (SOUND[:200].encode(), "the file breaks off"),
        (SOUND[:-20].encode(), "the file breaks off"),
        (SOUND.replace("</key>", "</kye>").encode(), "the XML is broken: mismatched tag"),
        (b"<?xml version='1.0' encoding='no-such'?>" + SOUND.encode(), "the file's encoding is unknown"),
        (SOUND.replace("Tune", "L\xe9ger").encode("latin-1"),
         "the text is not XML in the encoding that it claims"),
        (b"PK\x03\x04 and no more", "the packed file is broken"),
        (zipped(a__txt="x"), "this ZIP is no packed MusicXML: it has no META-INF/container.xml"),
        (packed(SOUND, container=CONTAINER.replace("{name}", "../score.xml")),
         "'../score.xml' lies outside the packed file"),
        (packed(SOUND, container=CONTAINER.replace("{name}", "C:\\score.xml")),
         "'C:\\score.xml' lies outside the packed file"),
        (packed(SOUND, container=CONTAINER.replace("{name}", "other.xml")),
         "the zip has no 'other.xml', which should be its score"),
        (packed(SOUND, container="<container/>"), "META-INF/container.xml names no score"),
        (packed(SOUND)[:-30], "the packed file is broken"),
    ],
)  # fmt: skip
def test_what_is_no_score_is_refused(data, what):
    """Each fault names the file, says what it is instead, and how to get one that can be read."""
    with pytest.raises(UnreadableFile) as caught:
        read_musicxml(data, "song.xml")
    assert caught.value.what == what
    assert caught.value.where.startswith("song.xml")
    assert caught.value.fix


@pytest.mark.parametrize(
    "doctype",
    [
        f'<!DOCTYPE a [<!ENTITY l0 "x">{BOMB}]>',
        '<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/hostname">]>',
        '<!DOCTYPE a [<!ENTITY % x SYSTEM "http://localhost/x.dtd"> %x;]>',
    ],
)
def test_entities_are_not_read(doctype):
    """Neither those that grow when they are expanded, nor those that fetch something."""
    text = SOUND.replace("Tune", "&l9;" if "l9" in doctype else "&x;")
    with pytest.raises(UnreadableFile, match="the file declares entities, which are not read"):
        read(doctype + text)


def test_the_doctype_of_the_standard_is_not_fetched():
    """Most files name the standard's DTD; it is passed over."""
    doctype = (
        '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 3.1 Partwise//EN"'
        ' "http://www.musicxml.org/dtds/partwise.dtd">'
    )
    assert read(doctype + SOUND).sheet == read(SOUND).sheet


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "latin-1", "cp1252"])
def test_an_encoding_that_the_file_names_is_read(encoding):
    """Its first line says in what it is written."""
    name = encoding.removesuffix("-sig")
    text = f"<?xml version='1.0' encoding='{name}'?>" + SOUND.replace("Tune", "L\xe9ger")
    assert read(text.encode(encoding)).chosen.name == "L\xe9ger"


def test_two_bytes_a_letter_need_no_name():
    """A mark at the start says it."""
    assert read(SOUND.encode("utf-16")).sheet == read(SOUND).sheet


@pytest.mark.parametrize(
    ("named", "written"), [("utf-16", "utf-8"), ("utf-8", "utf-16-le"), ("utf-8", "cp1252")]
)
def test_an_encoding_that_is_another_is_told(named, written):
    """The first line says one, the letters are in another."""
    text = f"<?xml version='1.0' encoding='{named}'?>" + SOUND.replace("Tune", "L\xe9ger")
    with pytest.raises(UnreadableFile, match=r"song\.musicxml.*encoding"):
        read(text.encode(written))


@pytest.mark.parametrize(
    ("wrong", "what"),
    [
        (("<duration>48<", "<duration>many<"), "'many' is no duration"),
        (("<duration>48<", "<duration>-48<"), "'-48' is no duration"),
        (("<duration>48<", "<duration>1e999999999<"), "'1e999999999' is no duration"),
        (("<divisions>12<", "<divisions>0<"), "a quarter has no divisions"),
        (("<octave>5<", "<octave>99<"), "'99' is no octave from 0 to 9"),
        (("<step>C<", "<step>H<"), "'H' is no letter of a note"),
        (("<root-step>C<", "<root-step>do<"), "'do' is no letter of a note"),
        (("<fifths>0<", "<fifths>99<"), "'99' is no key signature from -14 to 14"),
        (("<beats>4<", "<beats>four<"), "'four' is no number of beats"),
        (("<beat-type>4<", "<beat-type>0<"), "'0' is no beat type from 1 to 64"),
    ],
)
def test_a_number_that_is_none_is_told_with_its_bar(wrong, what):
    """The fault names the file, the part and the bar."""
    with pytest.raises(UnreadableFile) as caught:
        read(SOUND.replace(*wrong))
    assert (caught.value.what, caught.value.where) == (what, "song.musicxml, part P1, bar 1")


def test_a_score_without_bars_is_told():
    """There is nothing that a song could be made of."""
    with pytest.raises(EmptyScore, match=r"song.musicxml: the score has no bars."):
        read(score())


def test_a_score_without_chords_has_its_tune():
    """That it has none is told."""
    found = read(score(bar(attributes(), note("C5", 4)))).sheet
    assert found.left_out == ("the score has no chord symbols",)
    assert len(found.bars[0].notes) == 1


def bounded(data, *, most_seconds, most_bytes):
    """The fault of a file, within a time and a memory."""
    tracemalloc.start()
    start = time.process_time()
    with pytest.raises(TooLarge) as caught:
        read_musicxml(data, "big.xml")
    seconds, peak = time.process_time() - start, tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert seconds < most_seconds
    assert peak < most_bytes
    return caught.value.what


def test_a_hundred_megabytes_are_refused_before_they_are_read():
    """Neither time nor memory is spent on them."""
    what = bounded(b"<" * 100_000_000, most_seconds=0.5, most_bytes=1_000_000)
    assert what == "the file has 100 MB; 24 MB are read"


def test_a_zip_that_grows_is_refused_at_the_limit():
    """A gigabyte of blanks packs to a megabyte; no more of it is unpacked than would be read."""
    file = BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as archive:
        archive.writestr("META-INF/container.xml", CONTAINER.format(name="score.xml"))
        with archive.open("score.xml", "w", force_zip64=True) as member:
            for _ in range(100):
                member.write(b" " * 1_000_000)
    what = bounded(file.getvalue(), most_seconds=5, most_bytes=3 * LARGEST_FILE)
    assert what == "'score.xml' is larger than 24 MB when unpacked"


def test_a_zip_of_many_members_is_refused_before_its_list_is_read():
    """A list of a million names would fill the memory."""
    entry = b"PK\x01\x02" + bytes(42)
    data = b"PK\x03\x04" + entry * 100_000
    data += b"PK\x05\x06" + struct.pack("<HHHHIIH", 0, 0, 65535, 65535, len(entry) * 100_000, 4, 0)
    assert bounded(data, most_seconds=1, most_bytes=1_000_000) == "the zip has more than 1000 members"


def test_a_zip_packed_in_another_way_is_refused():
    """Some ways ask for gigabytes to unpack."""
    file = BytesIO()
    with ZipFile(file, "w", ZIP_LZMA) as archive:
        archive.writestr("score.xml", SOUND)
    with pytest.raises(UnreadableFile, match="packed in a way that MusicXML has not"):
        read(file.getvalue())


def test_a_locked_zip_is_refused():
    """It asks for a password that nobody gives."""
    data = bytearray(packed(SOUND, container=""))
    data[6] |= 1  # in the member's head and in the list
    data[data.index(b"PK\x01\x02") + 8] |= 1
    with pytest.raises(UnreadableFile, match="locked with a password"):
        read(bytes(data))


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("<a>" * 100_000, "the file nests elements 64 deep"),
        ("<a>" + "<b/>" * (MOST_ELEMENTS + 1), f"the file has more than {MOST_ELEMENTS} elements"),
    ],
)
def test_a_tree_that_grows_too_large_is_cut(text, what):
    """Deep or full, it is refused while it is read."""
    start = time.process_time()
    with pytest.raises(TooLarge) as caught:
        read(text)
    assert caught.value.what == what
    assert time.process_time() - start < 20


def test_too_many_bars_are_refused():
    """A book of songs is no song."""
    with pytest.raises(TooLarge, match=f"the score has {MOST_BARS + 1} bars; {MOST_BARS} are read"):
        read(score(*[bar() for _ in range(MOST_BARS + 1)]))


def test_forty_voices_are_listed_and_one_is_chosen():
    """Time stays in proportion, and those left out are told in a few sentences."""
    back = "<backup><duration>48</duration></backup>"
    voices = back.join(note("C5" if n == 7 else "C4", 4, voice=str(n)) for n in range(40))
    start = time.process_time()
    found = read(score(*[bar(attributes(), voices) for _ in range(50)]))
    assert time.process_time() - start < 5
    assert (len(found.parts), found.chosen.key) == (40, "P1/7")
    assert found.sheet.left_out[8] == "31 more lines are left out"


CHANGE = (
    "<divisions>12</divisions><key><fifths>{}</fifths></key>"
    "<time><beats>{}</beats><beat-type>4</beat-type></time>"
)
FERMATA = note("C5", 1 / 12, notations="<fermata/>")
PUSH = "<direction><direction-type><words>push</words></direction-type></direction>"
GRACE = note("D5", 0, before="<grace/>")


@pytest.mark.parametrize(
    "bars",
    [
        [bar(attributes(), (harmony("C") + FERMATA) * 10_000)],
        [bar(attributes(), harmony("C") * 10_000, PUSH * 10_000, note("C5", 4))],
        [bar(attributes(held=CHANGE.format(n % 7, 3 + n % 2)), note("C5", 4)) for n in range(MOST_BARS)],
        [bar(attributes(), harmony("C"), GRACE * 20_000, note("C5", 4))],
    ],
    ids=["fermatas", "marks", "changes", "graces"],
)  # fmt: skip
def test_much_of_one_kind_takes_no_more_time_than_it_should(bars):
    """Time grows with the file: none of these is compared with all the others."""
    start = time.process_time()
    assert chart_of_sheet(sheet(*bars)).chart.sections
    assert time.process_time() - start < 15
