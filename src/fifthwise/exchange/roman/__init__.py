"""Sheets typed in Roman numerals."""

from fifthwise.exchange.roman.read import is_roman_sheet, read_roman_sheet

__all__ = ["is_roman_sheet", "read_roman_sheet"]
