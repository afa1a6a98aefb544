"""ABC 2.1: the tunes of a file in, each as a lead sheet.

Pure: text goes in and comes out as values. The standard (December 2011) is written from memory.
"""

from fifthwise.exchange.abc.read_file import ReadTunes, read_abc
from fifthwise.exchange.abc.read_tune import ReadTune, TuneVoice

__all__ = ["ReadTune", "ReadTunes", "TuneVoice", "read_abc"]
