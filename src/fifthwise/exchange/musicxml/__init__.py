"""MusicXML 3.1 and 4.0, plain and packed: a lead sheet in, a chart out.

Pure: bytes go in and come out as values; nothing is fetched, no entity is expanded, nothing is unpacked to
disk.
"""

from fifthwise.exchange.musicxml.choose import ScorePart
from fifthwise.exchange.musicxml.read_score import ReadScore, read_musicxml
from fifthwise.exchange.musicxml.write_score import pack_musicxml, write_musicxml

__all__ = ["ReadScore", "ScorePart", "pack_musicxml", "read_musicxml", "write_musicxml"]
