"""Tonight: each song of an evening in its key, and why that key."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fifthwise.chart import Chart, Fault, Timeline, rekey, unfold
from fifthwise.evening import Evening, EveningFaults, SetSong
from fifthwise.theory import Key, KeyFault, NoteFault, SpelledPitch, read_key, read_note
from fifthwise.voice import KeyFit, NoTune, Singer, SungTune, rank_keys, sung_tune

__all__ = ["Call", "Tonight", "best_names", "call_song", "key_as_called", "plan", "tune_of"]

BEST_KEYS = 3


@dataclass(frozen=True, slots=True)
class Call:
    """One song as it is called tonight.

    Attributes
    ----------
    number : int
        Place in the running order, from 1.
    chart : Chart
        The song in tonight's key.
    timeline : Timeline
        Tonight's, unfolded.
    singer : Singer or None
        Who sings it.
    tune : SungTune or None
        What is sung; ``None`` where the song has no tune.
    fits : dict of str to tuple of KeyFit
        Every singer's ranking of the keys; empty where the song has no tune.
    fit : KeyFit or None
        How tonight's key sits for its singer.
    why : str
        One sentence.
    """

    number: int
    song: SetSong
    chart: Chart
    timeline: Timeline
    singer: Singer | None
    tune: SungTune | None
    fits: Mapping[str, tuple[KeyFit, ...]]
    fit: KeyFit | None
    why: str


@dataclass(frozen=True, slots=True)
class Tonight:
    """An evening with every song in its key."""

    evening: Evening
    calls: tuple[Call, ...]


def plan(evening: Evening, charts: Mapping[str, Chart], file: str = "evening") -> Tonight:
    """Choose every song's key: the one called, else the one that suits its singer, else its own.

    Parameters
    ----------
    charts : mapping of str to Chart
        By the name under which the evening's songs name them.

    Raises
    ------
    EveningFaults
        A called key does not fit its song.
    """
    faults: list[Fault] = []
    calls = []
    for number, song in enumerate(evening.songs, start=1):
        chart = charts[song.chart]
        try:
            key = key_as_called(song.key, chart) if song.key else None
        except KeyFault as fault:
            faults.append(Fault(fault.what, fault.fix, song.line, 1, 1, song.chart, file))
            continue
        calls.append(_call(number, song, chart, key, evening))
    if faults:
        raise EveningFaults(tuple(faults))
    return Tonight(evening, tuple(calls))


def key_as_called(text: str, chart: Chart) -> Key:
    """The key that a caller means: a bare note takes the song's own mode.

    Raises
    ------
    KeyFault
        It is no key, has more than seven sharps or flats, or is of another mode than the song.
    """
    try:
        key = read_key(f"{read_note(text)} {chart.key.mode}")
    except NoteFault:
        key = read_key(text)
    if key.mode != chart.key.mode:
        raise KeyFault(
            f"'{text}' is {key.mode}, but '{chart.title}' is in {chart.key}",
            "key",
            f"Call it as in '{key.tonic}'",
        )
    return key


def _call(number: int, song: SetSong, written: Chart, called: Key | None, evening: Evening) -> Call:
    singer = evening.singer(song.singer) if song.singer else None
    tune = tune_of(written) if singer else None
    fits = {each.name: rank_keys(tune, each) for each in evening.singers} if tune else {}
    return call_song(written, singer, called, tune, fits, number=number, song=song)


def call_song(
    written: Chart,
    singer: Singer | None,
    called: Key | None,
    tune: SungTune | None,
    fits: Mapping[str, tuple[KeyFit, ...]],
    *,
    number: int = 1,
    song: SetSong = SetSong(""),  # noqa: B008 - frozen
) -> Call:
    """Put one song into its key: the one called, else the one that suits its singer, else its own.

    Parameters
    ----------
    tune : SungTune or None
        What is sung in it, as `tune_of` finds it.
    fits : mapping of str to tuple of KeyFit
        The rankings of the keys that are known, by the singer's name.
    """
    ranking = fits.get(singer.name, ()) if singer else ()
    key = called or (ranking[0].key if ranking else written.key)
    fit = next((f for f in ranking if f.key == key or f.also == key or _sounds_as(f.key, key)), None)
    chart = _sung_at(rekey(written, key.tonic), fit)
    why = _why(singer, called, fit, key, ranking)
    return Call(number, song, chart, unfold(chart), singer, tune, fits, fit, why)


def tune_of(chart: Chart) -> SungTune | None:
    """What is sung in a song; ``None`` where it has no tune."""
    try:
        return sung_tune(chart, unfold(chart))
    except NoTune:
        return None


def _sung_at(chart: Chart, fit: KeyFit | None) -> Chart:
    """The chart with its tune in the singer's octave."""
    if fit is None or chart.octave is None:
        return chart
    one = chart.numbering.one(chart.key)
    octaves = (fit.one.octave - 1, fit.one.octave, fit.one.octave + 1)
    return replace(chart, octave=next(o for o in octaves if SpelledPitch(one.fifths, o).midi == fit.one.midi))


def _sounds_as(one: Key, other: Key) -> bool:
    return one.tonic.pitch_class == other.tonic.pitch_class


def best_names(ranking: tuple[KeyFit, ...]) -> tuple[str, ...]:
    """The keys that sit best, by name."""
    return tuple(fit.key.short for fit in ranking[:BEST_KEYS])


def _why(
    singer: Singer | None, called: Key | None, fit: KeyFit | None, key: Key, ranking: tuple[KeyFit, ...]
) -> str:
    if singer is None:
        return f"{key.short} was called" if called else f"{key.short} as written; nobody sings"
    if fit is None:
        return f"{key.short} as written; the chart has no tune to try against {singer.name}'s voice"
    if called is not None:
        best = ", ".join(best_names(ranking))
        return f"{key.short} was called; best for {singer.name}: {best}. {fit.reasons[0]}"
    return fit.reasons[0]
