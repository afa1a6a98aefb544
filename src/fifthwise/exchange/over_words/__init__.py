"""Sheets with chords over the words, or among them in square brackets, without bar lines."""

from fifthwise.exchange.over_words.lines import is_words_sheet
from fifthwise.exchange.over_words.read import read_words_sheet

__all__ = ["is_words_sheet", "read_words_sheet"]
