"""Who sang what when, taken from a folder's lists into a book."""

from sqlalchemy import insert, select

from fifthwise.book.coming import Coming
from fifthwise.book.engine import writing
from fifthwise.book.folded import fold
from fifthwise.book.folder_files import as_faults, read_file
from fifthwise.book.import_sets import absent_chart, beside
from fifthwise.book.people_tables import singer, sung
from fifthwise.chart import Fault
from fifthwise.errors import FifthwiseError
from fifthwise.evening import SungLine, read_sung

__all__ = ["import_sung"]


def import_sung(coming: Coming, songs: dict[str, int]) -> None:
    """Take ``sung.yaml`` and those that go on from it in; what was noted of a day before holds no longer."""
    for path in coming.files.lists:
        if not path.startswith("sung"):
            continue
        try:
            lines = read_sung(read_file(coming.files, path), path)
        except FifthwiseError as error:
            coming.failed_by(path, as_faults(error, path))
            continue
        changed, faults = _keep(coming, path, lines, songs)
        if faults:
            coming.failed_by(path, faults)
        else:
            coming.done(path, changed=changed)


def _keep(
    coming: Coming, path: str, lines: tuple[SungLine, ...], songs: dict[str, int]
) -> tuple[bool, list[Fault]]:
    """Keep each line whose singer and song are there; tells whether one was new, and what is wrong."""
    faults = []
    changed = False
    with writing(coming.book) as connection:
        singers = {row.folded_name: row.id for row in connection.execute(select(singer))}
        there = {
            (row.singer_id, row.song_id, row.sung_on): row.key for row in connection.execute(select(sung))
        }
        for line in lines:
            fault = _fault(line, path, singers, songs)
            if fault:
                faults.append(fault)
                continue
            which = (singers[fold(line.singer)], songs[beside(path, line.song)], line.on)
            if there.get(which) == str(line.key):
                continue
            changed = True
            values = dict(zip(("singer_id", "song_id", "sung_on"), which, strict=True))
            if which in there:
                of_day = [sung.c[name] == value for name, value in values.items()]
                connection.execute(sung.update().where(*of_day).values(key=str(line.key)))
            else:
                connection.execute(insert(sung).values(key=str(line.key), **values))
            there[which] = str(line.key)
    return changed, faults


def _fault(line: SungLine, path: str, singers: dict[str, int], songs: dict[str, int]) -> Fault | None:
    if fold(line.singer) not in singers:
        fix = "Add the singer to singers.yaml, or check the name"
        return Fault(f"no singer is named '{line.singer}'", fix, line.line, 1, 1, "", path)
    if beside(path, line.song) not in songs:
        return absent_chart(line.song, line.line, path)
    return None
