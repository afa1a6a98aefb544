"""A song as JSON, for programs of other people: everything that the chart says, and back again.

``docs/song.schema.json`` is the format; what comes in is held against it, word by word. Pure.
"""

from fifthwise.exchange.song_json.read import read_song_json
from fifthwise.exchange.song_json.schema import misfit, song_schema
from fifthwise.exchange.song_json.write import song_record, write_song_json

__all__ = ["misfit", "read_song_json", "song_record", "song_schema", "write_song_json"]
