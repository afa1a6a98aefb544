"""ABC 2.1: the tunes of a file in, each as a lead sheet; a chart out.

Pure: text goes in and comes out as values. The standard (December 2011) is written from memory.
"""

from fifthwise.exchange.abc.read_file import ReadTunes, read_abc
from fifthwise.exchange.abc.read_tune import ReadTune, TuneVoice
from fifthwise.exchange.abc.write_tune import write_abc

__all__ = ["ReadTune", "ReadTunes", "TuneVoice", "read_abc", "write_abc"]
