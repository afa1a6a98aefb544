"""Standard MIDI Files: a lead sheet in, a chart played out.

Pure: bytes go in and come out as values. mido parses and writes the events; it is loaded when it is needed.
"""

from fifthwise.exchange.midi.choose import MidiPart
from fifthwise.exchange.midi.grid import Moved
from fifthwise.exchange.midi.hear_key import HeardKey
from fifthwise.exchange.midi.read_midi import ReadMidi, read_midi
from fifthwise.exchange.midi.write_midi import write_midi

__all__ = ["HeardKey", "MidiPart", "Moved", "ReadMidi", "read_midi", "write_midi"]
