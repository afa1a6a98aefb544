"""Faults of the singer's side.

FifthwiseError
└── VoiceError
    ├── SingerFault   a singer's ranges or change-over notes that are missing or cannot be right
    └── NoTune        a song without anything to sing
"""

from fifthwise.errors import FifthwiseError

__all__ = ["NoTune", "SingerFault", "VoiceError"]


class VoiceError(FifthwiseError):
    """A fault in a singer or in what there is to sing."""


class SingerFault(VoiceError):
    """A singer's ranges or change-over notes that are missing or cannot be right."""


class NoTune(VoiceError):
    """A song without anything to sing."""
