"""Made-up charts for the laws: one function a value type, each chart one that its text can say."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume
from hypothesis import strategies as st

from fifthwise.chart import (
    Bar,
    Chart,
    Cue,
    FormFault,
    FormItem,
    KeyShift,
    Line,
    RepeatEnd,
    ScopedMark,
    Section,
    Slot,
    TuneNote,
    TunePitch,
    playing_order,
    section_scopes,
)
from fifthwise.chart.scope import opening_scope
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Degree, Metre, NumberChord
from tests.strategies import every_quality, keys

METRES = [
    Metre(4, 4), Metre(3, 4), Metre(2, 2), Metre(6, 8), Metre(12, 8), Metre(2, 4), Metre(5, 4),
    Metre(7, 8, (2, 2, 3)), Metre(5, 8, (3, 2)), Metre(3, 8),
]  # fmt: skip
# How a felt beat may be divided: the shares of its parts.
DIVISIONS = [(1,), (1,), (1,), (1, 1), (2, 1), (1, 1, 1), (1, 3), (1, 1, 2), (1, 1, 1, 1, 1)]
NAMES = ["intro", "verse", "chorus", "bridge", "solo 2", "Tag, out", "x-ray", "Ölzeug"]
WORDS = st.text("abc ÅßΩ',.-#:", max_size=12).map(lambda text: " ".join(text.split()))
TITLES = st.text("ab\"<!->#: |,'é", min_size=1, max_size=12).map(str.strip).filter(bool)


def _sometimes(strategy, *, one_in=4):
    """Mostly nothing, now and then a value."""
    return st.sampled_from([False] * (one_in - 1) + [True]).flatmap(
        lambda given: strategy if given else st.none()
    )


def degrees_written():
    """Degrees that every numbering can write: natural numbering adds a sharp to some."""
    return st.builds(lambda step, alter: Degree(step + 7 * alter), st.integers(-1, 5), st.integers(-1, 1))


def tune_pitches():
    """Degrees of a tune within three octaves."""
    return st.builds(TunePitch, degrees_written(), st.integers(-2, 2))


def chord_marks():
    """Marks that do not contradict each other, in their order."""
    start, end = (
        st.sampled_from([(), (), ("push",), ("push16",), ("late",)]),
        st.sampled_from([(), (), ("hold",)]),
    )
    stop, accent = st.sampled_from([(), ("stop",)]), st.sampled_from([(), ("accent",)])
    return st.builds(lambda s, e, x, a: (*(e or x), *s, *a), start, end, stop, accent)


def scoped_marks():
    """A few marks of different kinds."""
    shifts = st.builds(KeyShift, st.sampled_from([-12, -3, -1, 1, 2, 6]))
    named = keys().map(lambda key: KeyShift(key=key))
    tempos = st.fractions(20, 400, max_denominator=20)
    return st.lists(
        st.one_of(
            st.builds(ScopedMark, key=shifts | named),
            st.builds(ScopedMark, metre=st.sampled_from(METRES)),
            st.builds(ScopedMark, tempo=tempos),
            st.builds(ScopedMark, feel=st.sampled_from(["shuffle", "slow swing"])),
        ),
        max_size=2,
        unique_by=lambda m: (m.key is None, m.metre is None, m.tempo is None, m.feel is None),
    ).map(tuple)


@st.composite
def onsets(draw, beats):
    """Lengths of what stands in a bar of some felt beats, and whether the first goes on from before."""
    lengths = []
    for index, beat in enumerate(beats):
        shares = draw(st.sampled_from(DIVISIONS))
        parts = [beat * share / sum(shares) for share in shares]
        goes_on = draw(st.booleans())
        if goes_on and index:
            lengths[-1] += parts.pop(0)
        lengths += parts
    return lengths, draw(st.sampled_from([False, False, False, True]))


def beats_of(bar):
    """The felt beats of a bar, a pickup's part first."""
    count = bar.length / bar.metre.beat
    part = count - int(count)
    return ([part * bar.metre.beat] if part else []) + [bar.metre.beat] * int(count)


@st.composite
def slots(draw, bar, *, may_hold):
    """What fills a bar."""
    lengths, goes_on = draw(onsets(beats_of(bar)))
    made = []
    for index, length in enumerate(lengths):
        kind = draw(st.sampled_from(["chord"] * 5 + ["rest", "nc"]))
        if index == 0 and goes_on and may_hold:
            kind = "hold"
        if kind == "chord":
            quality = draw(st.sampled_from(every_quality(0)) | st.sampled_from(every_quality(1)))
            chord = NumberChord(draw(degrees_written()), quality, draw(_sometimes(degrees_written())))
            made.append(Slot("chord", length, chord, draw(chord_marks())))
        else:
            made.append(Slot(kind, length))
    return tuple(made)


@st.composite
def tune_notes(draw, bar, *, may_hold):
    """The tune over a bar."""
    lengths, goes_on = draw(onsets(beats_of(bar)))
    made = []
    for index, length in enumerate(lengths):
        kind = draw(st.sampled_from(["note"] * 4 + ["rest", "chop"]))
        if index == 0 and goes_on and may_hold:
            kind = "hold"
        if kind != "note":
            made.append(TuneNote(kind, length))
            continue
        pitches = tuple(draw(st.lists(tune_pitches(), min_size=1, max_size=2)))
        fingers = draw(st.sampled_from([(), ("A2", "E0")]))[: len(pitches)]
        grace = tuple(draw(st.lists(tune_pitches(), max_size=2)))
        slide = draw(st.sampled_from(["", "", "/", "\\"]))
        made.append(TuneNote("note", length, pitches, draw(st.booleans()), grace, slide, fingers))
    return tuple(made)


@st.composite
def cues(draw, bar):
    """Cues at felt beats, in order; only at the ends of a copy or a pickup."""
    places = [Fraction(0), bar.length]
    if bar.pickup is None and not bar.copied:
        places += [bar.metre.beat * beat for beat in range(1, bar.metre.beats)]
    at = sorted(draw(st.lists(st.sampled_from(places), max_size=2)))
    return tuple(Cue(draw(WORDS), draw(st.sampled_from([None, "all", "fiddle"])), place) for place in at)


@st.composite
def shapes(draw):
    """The bar lines of a section: bars with repeats and endings that are sound."""
    made, first = [], True
    for _ in range(draw(st.integers(1, 2))):
        kind = draw(st.sampled_from(["plain", "repeat", "endings"]))
        body = [{} for _ in range(draw(st.integers(1, 3)))]
        if kind != "plain":
            body[0]["repeat_start"] = not (first and draw(st.booleans()))
            first = False
        if kind == "repeat":
            ends = [RepeatEnd(), RepeatEnd(3), RepeatEnd(4, "till cue"), RepeatEnd(4, "")]
            body[-1]["repeat_end"] = draw(st.sampled_from(ends))
        if kind == "endings":
            body += draw(ending_shapes())
        elif draw(st.booleans()):
            body[-1]["double_bar"] = True
        made += body
    return made


@st.composite
def ending_shapes(draw):
    """A set of endings, the last closed by a double bar."""
    made = []
    for numbers in draw(st.sampled_from([[(1,), (2,)], [(1, 2), (3,)], [(1,), (2,), (3,)]])):
        bars = [{} for _ in range(draw(st.integers(1, 2)))]
        bars[0]["endings"] = numbers
        bars[-1]["repeat_end"] = RepeatEnd()
        made += bars
    made[-1]["repeat_end"] = draw(st.sampled_from([RepeatEnd(), None]))
    made[-1]["double_bar"] = True
    return made


@st.composite
def sections(draw, name, head, *, opens):
    """One section of a chart with this head; ``opens`` where nothing has sounded before."""
    shaped = draw(shapes())
    marked = [{**shape, "marks": draw(_sometimes(scoped_marks())) or ()} for shape in shaped]
    bare = tuple(Bar((), head.metre, **shape) for shape in marked)
    scopes = section_scopes(Section(name, (Line(bare),)), opening_scope(head), head.key)
    bars = []
    for bar, scope in zip(bare, scopes, strict=True):
        bars.append(draw(_filled(replace(bar, metre=scope.metre), bars, may_hold=bool(bars) or not opens)))
    lines, at = [], 0
    while at < len(bars):
        line = tuple(bars[at : at + draw(st.integers(1, 4))])
        at += len(line)
        if draw(st.booleans()):
            line = tuple(
                replace(bar, tune=draw(tune_notes(bar, may_hold=i > 0))) for i, bar in enumerate(line)
            )
        lines.append(Line(line, tuple(draw(st.lists(WORDS, max_size=2)))))
    heard = tuple(Cue(draw(WORDS), None) for _ in range(draw(st.integers(0, 1)))) if name else ()
    return Section(name, tuple(lines), draw(st.integers(1, 3)) if name else 1, heard)


@st.composite
def _filled(draw, bar, before, *, may_hold):
    """A bar with its length settled, and filled."""
    way = draw(st.sampled_from(["as it is"] * 5 + ["once", "copied", "pickup"]))
    last = before[-1] if before else None
    if way == "pickup" and not before:
        bar = replace(
            bar,
            pickup=draw(st.fractions(Fraction(1, 6), Fraction(bar.metre.beats) * 3 / 4, max_denominator=6)),
        )
    if way == "once":
        bar = replace(bar, metre=draw(st.sampled_from(METRES)), metre_once=True)
    if way == "copied" and last and not (bar.endings or last.pickup) and bar.metre == last.metre:
        bar = replace(bar, slots=last.slots, copied=True, metre_once=last.metre_once)
    else:
        bar = replace(bar, slots=draw(slots(bar, may_hold=may_hold)))
    return replace(bar, cues=draw(cues(bar)))


@st.composite
def charts(draw):
    """Whole charts: heads, sections, forms or navigation."""
    low, high = sorted(draw(st.tuples(tune_pitches(), tune_pitches())), key=_height)
    head = Chart(
        title=draw(TITLES),
        key=draw(keys()),
        sections=(),
        by=draw(_sometimes(TITLES)),
        metre=draw(st.sampled_from(METRES)),
        tempo=draw(_sometimes(st.fractions(20, 400, max_denominator=20))),
        feel=draw(_sometimes(st.sampled_from(["swing", "straight, light"]))),
        tags=draw(_sometimes(TITLES)),
        octave=draw(_sometimes(st.integers(0, 8))),
        lowest=low if draw(st.booleans()) else None,
        highest=high if draw(st.booleans()) else None,
        minor=draw(st.sampled_from(MINOR_WAYS)),
        plain=draw(st.sampled_from(PLAIN_WAYS)),
    )
    names = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True))
    if draw(st.booleans()):
        names[0] = None
    made = tuple(draw(sections(name, head, opens=index == 0)) for index, name in enumerate(names))
    chart = replace(head, sections=made)
    named = [i for i, name in enumerate(names) if name and "," not in name]
    if named and names[0] and 0 in named and draw(st.booleans()):
        chart = replace(chart, form=draw(forms(made, named)))
    else:
        chart = draw(navigated(chart))
    assume(_leaves_room_for_pickups(chart))
    return chart


def _leaves_room_for_pickups(chart):
    """Whether no pickup is longer than the bar that its playing order puts before it."""
    try:
        playing_order(chart)
    except FormFault as fault:
        if "pickup" in fault.what:
            return False
    return True


def _height(pitch):
    return pitch.degree.semitones + 12 * pitch.octave


@st.composite
def forms(draw, made, named):
    """A playing order that begins with the first section."""
    items = [FormItem(0)]
    for _ in range(draw(st.integers(0, 4))):
        if draw(st.integers(0, 3)) == 0:
            items.append(FormItem(shift=KeyShift(draw(st.sampled_from([-2, 1, 2, 3])))))
            continue
        section = draw(st.sampled_from(named))
        verses = max(len(line.words) for line in made[section].lines)
        verse = draw(st.none() | st.integers(1, verses)) if verses else None
        items.append(FormItem(section, verse, draw(st.integers(1, 2))))
    return tuple(items)


@st.composite
def navigated(draw, chart):
    """A chart whose last section may send back to its first bar, and stop or leave at its first."""
    sign = draw(st.sampled_from([None, None, "dc al fine", "ds al fine", "dc al coda", "ds al coda"]))
    if sign is None:
        return chart
    names = {section.name for section in chart.sections}
    free = next(name for name in NAMES if name not in names)
    plain = Bar((Slot("chord", chart.metre.length, NumberChord(Degree(0))),), chart.metre)
    first = replace(
        plain, segno=sign.startswith("ds"), to_coda=sign.endswith("coda"), fine=sign.endswith("fine")
    )
    made = [Section(None, (Line((first,)),)), *chart.sections]
    if chart.sections[0].name is None:
        made[1] = replace(chart.sections[0], name=free)
    last = replace(plain, jump=sign)
    coda = (replace(plain, coda=True),) if sign.endswith("coda") else ()
    return replace(chart, sections=(*made, Section("end", (Line((last, *coda)),))))
