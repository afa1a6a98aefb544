"""A song's JSON as a chart: held against the schema, then against what a chart can say."""

import json
from collections.abc import Callable
from fractions import Fraction
from typing import Any, TypeVar

from fifthwise.chart import (
    Bar,
    Chart,
    Cue,
    FormItem,
    KeyShift,
    Line,
    RepeatEnd,
    ScopedMark,
    Section,
    Slot,
    TuneNote,
    TunePitch,
    read_chart,
    write_chart,
)
from fifthwise.errors import FifthwiseError
from fifthwise.exchange.errors import TooLarge, UnreadableFile
from fifthwise.exchange.song_json.schema import misfit
from fifthwise.exchange.song_json.write import FLAGS, FORMAT, USUAL_METRE, VERSION
from fifthwise.theory import Metre, read_degree, read_key, read_metre, read_number_chord

__all__ = ["LARGEST_JSON", "read_song_json"]

LARGEST_JSON = 8_000_000  # signs
AS_SAID = "Write it as docs/song.schema.json says"
Value = TypeVar("Value")


def read_song_json(text: str, file: str) -> Chart:
    """Read a song's JSON.

    Raises
    ------
    TooLarge
        It is longer than is read.
    UnreadableFile
        It is no JSON, does not fit the schema, or says what no chart can hold; tells where.
    """
    if len(text) > LARGEST_JSON:
        what = f"the file has {len(text) / 1e6:.1f} MB; {LARGEST_JSON / 1e6:.0f} MB of JSON are read"
        raise TooLarge(what, file, "Bring in one song alone")
    record = _parsed(text, file)
    _check_format(record, file)
    found = misfit(record)
    if found:
        raise UnreadableFile(found[1], f"{file}, {found[0] or '/'}", AS_SAID)
    chart = _Reader(file, record).chart()
    _check_sound(chart, file)
    return chart


def _parsed(text: str, file: str) -> Any:
    try:
        return json.loads(text.removeprefix("\ufeff"), parse_float=_whole, parse_constant=lambda name: name)
    except json.JSONDecodeError as error:
        where = f"{file}, line {error.lineno}, column {error.colno}"
        raise UnreadableFile(f"this is no JSON ({error.msg.lower()})", where, AS_SAID) from None
    except (ValueError, RecursionError):
        raise UnreadableFile(
            "the JSON is nested too deeply, or has too long a number", file, AS_SAID
        ) from None


def _whole(text: str) -> int | float:
    """A number; 1.0 is a whole one (JSON Schema 2020-12, 6.1.1)."""
    number = float(text)
    return int(number) if number.is_integer() else number


def _check_format(record: Any, file: str) -> None:
    if not isinstance(record, dict) or record.get("format") != FORMAT:
        raise UnreadableFile(f"this JSON is no song of ours: its 'format' is not '{FORMAT}'", file, AS_SAID)
    version = record.get("version")
    if isinstance(version, int) and version > VERSION:
        what = f"it is written in version {version} of the format; {VERSION} is read"
        raise UnreadableFile(what, file, "Bring it in with a newer fifthwise")


def _check_sound(chart: Chart, file: str) -> None:
    """Whether the chart is one that can be written: its text, read, has to be the same chart."""
    try:
        reading = read_chart(write_chart(chart), file)
    except (ValueError, LookupError, ArithmeticError, AssertionError, TypeError):
        raise UnreadableFile("its bars do not hold together", file, AS_SAID) from None
    if reading.faults:
        fault = reading.faults[0]
        raise UnreadableFile(f"as a chart it is at fault: {fault.what}", file, fault.fix)
    if reading.chart != chart:
        raise UnreadableFile("it says what no chart can hold", file, AS_SAID)


class _Reader:
    """Makes the values of a record that fits the schema."""

    def __init__(self, file: str, record: dict[str, Any]) -> None:
        self.file, self.record = file, record
        self.metre = USUAL_METRE

    def made(self, make: Callable[[str], Value], text: str, at: str) -> Value:
        """A value of the theory; its fault is told at its place."""
        try:
            return make(text)
        except FifthwiseError as fault:
            raise UnreadableFile(fault.what, f"{self.file}, {at}", fault.fix) from None

    def chart(self) -> Chart:
        """The whole."""
        record = self.record
        self.metre = self._metre(record, "") or USUAL_METRE
        return Chart(
            record["title"],
            self.made(read_key, record["key"], "/key"),
            tuple(self._section(each, f"/sections/{at}") for at, each in enumerate(record["sections"])),
            record.get("by"),
            self.metre,
            _fraction(record.get("tempo")),
            record.get("feel"),
            tuple(self._form_item(each, f"/form/{at}") for at, each in enumerate(record.get("form", []))),
            record.get("tags"),
            record.get("octave"),
            _pitch(record["lowest"]) if "lowest" in record else None,
            _pitch(record["highest"]) if "highest" in record else None,
            record.get("minor", "from-six"),
            record.get("plain", "explicit"),
        )

    def _metre(self, record: dict[str, Any], at: str) -> Metre | None:
        return self.made(read_metre, record["metre"], f"{at}/metre") if "metre" in record else None

    def _section(self, record: dict[str, Any], at: str) -> Section:
        lines = []
        for place, line in enumerate(record["lines"]):
            here = f"{at}/lines/{place}/bars"
            bars = tuple(self._bar(bar, f"{here}/{number}") for number, bar in enumerate(line["bars"]))
            lines.append(Line(bars, tuple(line.get("words", ()))))
        return Section(record.get("name"), tuple(lines), record.get("times", 1), _cues(record))

    def _bar(self, record: dict[str, Any], at: str) -> Bar:
        end = record.get("repeat_end")
        bar = Bar(
            tuple(self._slot(each, f"{at}/slots/{place}") for place, each in enumerate(record["slots"])),
            self._metre(record, at) or self.metre,
            pickup=_fraction(record.get("pickup")),
            tune=tuple(_note(note) for note in record["tune"]) if "tune" in record else None,
            marks=tuple(self._mark(each, at) for each in record.get("marks", ())),
            cues=_cues(record),
            repeat_end=RepeatEnd(end["times"], end.get("vamp")) if end else None,
            endings=tuple(record.get("endings", ())),
            jump=record.get("jump"),
            **{flag: True for flag in FLAGS if flag in record},
        )
        for named, parts in (("chords", bar.slots), ("tune", bar.tune)):
            filled = sum((part.length for part in parts or ()), Fraction(0))
            if parts is not None and filled != bar.length:
                what = f"the {named} last {filled} quarters; the bar has {bar.length}"
                raise UnreadableFile(what, f"{self.file}, {at}", "Let them fill the bar")
        return bar

    def _slot(self, record: dict[str, Any], at: str) -> Slot:
        chord = None
        if (record["kind"] == "chord") != ("number" in record):
            raise UnreadableFile("a chord has a number, and nothing else has", f"{self.file}, {at}", AS_SAID)
        if "number" in record:
            chord = self.made(read_number_chord, record["number"], f"{at}/number")
        return Slot(record["kind"], Fraction(record["length"]), chord, tuple(record.get("marks", ())))

    def _mark(self, record: dict[str, Any], at: str) -> ScopedMark:
        return ScopedMark(
            self._shift(record["key"], at) if "key" in record else None,
            self._metre(record, at),
            _fraction(record.get("tempo")),
            record.get("feel"),
        )

    def _shift(self, record: dict[str, Any], at: str) -> KeyShift:
        if "to" in record:
            return KeyShift(key=self.made(read_key, record["to"], f"{at}/key/to"))
        return KeyShift(record["semitones"])

    def _form_item(self, record: dict[str, Any], at: str) -> FormItem:
        if "key" in record:
            return FormItem(shift=self._shift(record["key"], at))
        if record["section"] >= len(self.record["sections"]):
            raise UnreadableFile(
                "there is no such section", f"{self.file}, {at}/section", "They count from 0"
            )
        return FormItem(record["section"], record.get("verse"), record.get("times", 1))


def _fraction(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text)


def _pitch(record: dict[str, Any]) -> TunePitch:
    return TunePitch(read_degree(record["degree"]), record.get("octave", 0))


def _note(record: dict[str, Any]) -> TuneNote:
    return TuneNote(
        record["kind"],
        Fraction(record["length"]),
        tuple(_pitch(each) for each in record.get("pitches", ())),
        record.get("slur", False),
        tuple(_pitch(each) for each in record.get("grace", ())),
        record.get("slide", ""),
        tuple(record.get("fingers", ())),
    )


def _cues(record: dict[str, Any]) -> tuple[Cue, ...]:
    return tuple(
        Cue(each["text"], each.get("player"), Fraction(each.get("at", "0")))
        for each in record.get("cues", ())
    )
