"""Lines over a chart, each found by exact search, with its fingers.

Pure functions from a chart and its timeline to frozen values. ``weights`` holds what makes a line good.
"""

from fifthwise.strings.lines.bass_beats import BassStyle
from fifthwise.strings.lines.bass_line import bass_line
from fifthwise.strings.lines.changes import Change, changes_of, number_text
from fifthwise.strings.lines.comp import comp
from fifthwise.strings.lines.guide_line import guide_line
from fifthwise.strings.lines.harmony import Side, harmony
from fifthwise.strings.lines.pad import pad
from fifthwise.strings.lines.record import LineRow, line_record, line_rows, shift_rows
from fifthwise.strings.lines.result import ChartLine
from fifthwise.strings.lines.section import Section, section
from fifthwise.strings.lines.tones import Tone, chord_roles
from fifthwise.strings.lines.tune_line import FittedTune, fitted_tune, tune_line, tune_wheres
from fifthwise.strings.lines.voice import Register, sung_register
from fifthwise.strings.lines.voicings import Player
from fifthwise.strings.lines.weights import (
    BASS,
    COMP,
    GUIDE,
    HARMONY,
    PAD,
    SECTION,
    BassWeights,
    CompWeights,
    HarmonyWeights,
    SectionWeights,
    ToneWeights,
)

__all__ = [
    "BASS",
    "COMP",
    "GUIDE",
    "HARMONY",
    "PAD",
    "SECTION",
    "BassStyle",
    "BassWeights",
    "Change",
    "ChartLine",
    "CompWeights",
    "FittedTune",
    "HarmonyWeights",
    "LineRow",
    "Player",
    "Register",
    "Section",
    "SectionWeights",
    "Side",
    "Tone",
    "ToneWeights",
    "bass_line",
    "changes_of",
    "chord_roles",
    "comp",
    "fitted_tune",
    "guide_line",
    "harmony",
    "line_record",
    "line_rows",
    "number_text",
    "pad",
    "section",
    "shift_rows",
    "sung_register",
    "tune_line",
    "tune_wheres",
]
