"""The song as written: chart text, model, form, timeline and re-keying.

Pure: no file, clock, network or chance. ``parse`` reads a text, ``write_chart`` writes it in its settled
layout, ``unfold`` plays it out to a timeline, ``rekey`` moves it to another key.
"""

from fifthwise.chart.errors import ChartError, ChartFaults, Fault, FormFault, TextFaults
from fifthwise.chart.feel import FEELS, groove, late_by, push_by, swings
from fifthwise.chart.model import (
    MARKS,
    Bar,
    Chart,
    Cue,
    FormItem,
    JumpKind,
    KeyShift,
    Line,
    Mark,
    RepeatEnd,
    ScopedMark,
    Section,
    Slot,
    SlotKind,
    TuneNote,
    TunePitch,
)
from fifthwise.chart.one_pitch import one_pitch
from fifthwise.chart.order import MOST_BARS, Step, playing_order
from fifthwise.chart.phrase import phrase_chart
from fifthwise.chart.read import Reading, parse, read_chart
from fifthwise.chart.rekey import rekey, renumber
from fifthwise.chart.scope import DEFAULT_TEMPO, Scope, opening_scope, section_scopes, shifted_key
from fifthwise.chart.source import LARGEST_TEXT, chart_text
from fifthwise.chart.structure import Ending, RepeatGroup, repeat_groups
from fifthwise.chart.timeline import Entry, NoteEvent, PlayedBar, Timeline
from fifthwise.chart.tune_range import TuneRange, tune_range
from fifthwise.chart.tune_text import read_tune_pitch
from fifthwise.chart.tune_write import tune_bar_text, tune_note_text, tune_pitch_text
from fifthwise.chart.unfold import unfold
from fifthwise.chart.write import write_chart
from fifthwise.chart.written import WrittenPlace, written_places

__all__ = [
    "DEFAULT_TEMPO",
    "FEELS",
    "LARGEST_TEXT",
    "MARKS",
    "MOST_BARS",
    "Bar",
    "Chart",
    "ChartError",
    "ChartFaults",
    "Cue",
    "Ending",
    "Entry",
    "Fault",
    "FormFault",
    "FormItem",
    "JumpKind",
    "KeyShift",
    "Line",
    "Mark",
    "NoteEvent",
    "PlayedBar",
    "Reading",
    "RepeatEnd",
    "RepeatGroup",
    "Scope",
    "ScopedMark",
    "Section",
    "Slot",
    "SlotKind",
    "Step",
    "TextFaults",
    "Timeline",
    "TuneNote",
    "TunePitch",
    "TuneRange",
    "WrittenPlace",
    "chart_text",
    "groove",
    "late_by",
    "one_pitch",
    "opening_scope",
    "parse",
    "phrase_chart",
    "playing_order",
    "push_by",
    "read_chart",
    "read_tune_pitch",
    "rekey",
    "renumber",
    "repeat_groups",
    "section_scopes",
    "shifted_key",
    "swings",
    "tune_bar_text",
    "tune_note_text",
    "tune_pitch_text",
    "tune_range",
    "unfold",
    "write_chart",
    "written_places",
]
