"""Make the README's pictures from the demo evening: ``.venv/bin/python tools/readme_pictures.py``."""

from pathlib import Path

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.page import book_pictures, lyric_sheet, lyrics_record, song_record
from fifthwise.stage import plan, player_view

ROOT = Path(__file__).resolve().parents[1]
PPI = 100


def main() -> None:
    """Draw the first song as the fiddle reads it, and its singer's sheet."""
    demo = ROOT / "demo"
    evening = read_evening((demo / "harbour-lamp.set.yaml").read_text("utf-8"))
    charts = {song.chart: parse((demo / song.chart).read_text("utf-8")) for song in evening.songs}
    first = plan(evening, charts).calls[0]
    fiddle = evening.players[0]
    singer = first.singer.name if first.singer else ""
    sheet = lyric_sheet(first.chart, singer=singer, one=first.fit.one if first.fit else None)
    pages = {
        "fiddle": song_record(first.chart, player_view(fiddle, first, evening.paper)),
        "singer": lyrics_record(sheet),
    }
    for name, record in pages.items():
        picture = book_pictures([record], paper=evening.paper, title=first.chart.title, ppi=PPI)[0]
        (ROOT / "docs" / "pictures" / f"{name}.png").write_bytes(picture)


if __name__ == "__main__":
    main()
