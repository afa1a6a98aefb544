"""Packed MusicXML (``.mxl``): a zip whose ``META-INF/container.xml`` names the score.

Nothing is written anywhere, and only the container and the score are unpacked, both bounded.
"""

from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo
from zlib import error as ZlibError  # noqa: N812 - it is an exception

from fifthwise.exchange.errors import TooLarge, UnreadableFile
from fifthwise.exchange.musicxml.limits import LARGEST_FILE, MOST_MEMBERS, megabytes
from fifthwise.exchange.musicxml.tree import EXPORT_AGAIN, check_size, read_tree

__all__ = ["CONTAINER", "MEDIA_TYPE", "is_packed", "unpacked"]

CONTAINER = "META-INF/container.xml"
MEDIA_TYPE = "application/vnd.recordare.musicxml+xml"
LARGEST_CONTAINER = 100_000
ENTRY = b"PK\x01\x02"
# What zipfile and zlib raise where a file is broken, locked, or packed in a way that they do not know.
UNPACKABLE = (BadZipFile, ZlibError, EOFError, NotImplementedError, RuntimeError, OSError, ValueError)


def is_packed(data: bytes) -> bool:
    """Whether the bytes are a zip."""
    return data[:4] in (b"PK\x03\x04", b"PK\x05\x06")


def unpacked(data: bytes, file: str) -> bytes:
    """Take the score out of a packed file.

    Raises
    ------
    TooLarge
        It has too many members, or the score is too large when unpacked.
    UnreadableFile
        The zip is broken or locked, or names no score inside it.
    """
    check_size(data, file)
    if data.count(ENTRY) > MOST_MEMBERS:
        raise TooLarge(f"the zip has more than {MOST_MEMBERS} members", file, EXPORT_AGAIN)
    try:
        with ZipFile(BytesIO(data)) as archive:
            return _member(archive, _score_name(archive, file), LARGEST_FILE, file)
    except UNPACKABLE:
        raise UnreadableFile("the packed file is broken", file, EXPORT_AGAIN) from None


def _score_name(archive: ZipFile, file: str) -> str:
    names = archive.namelist()
    if CONTAINER not in names:
        return _lone_score(names, file)
    container = read_tree(_member(archive, CONTAINER, LARGEST_CONTAINER, file), f"{file}, {CONTAINER}")
    for element in container.iter():
        if element.tag == "rootfile" and element.get("media-type", MEDIA_TYPE) == MEDIA_TYPE:
            return _checked(element.get("full-path", ""), names, file)
    raise UnreadableFile(f"{CONTAINER} names no score", file, EXPORT_AGAIN)


def _lone_score(names: list[str], file: str) -> str:
    scores = [name for name in names if name.lower().endswith((".musicxml", ".xml"))]
    if len(scores) != 1:
        what = f"this ZIP is no packed MusicXML: it has no {CONTAINER}"
        raise UnreadableFile(what, file, "Unpack it, and bring in the files inside")
    return _checked(scores[0], names, file)


def _checked(name: str, names: list[str], file: str) -> str:
    """The name of a member; one that leads elsewhere is refused."""
    if name.startswith(("/", "\\")) or ".." in name.replace("\\", "/").split("/") or ":" in name:
        raise UnreadableFile(f"'{name[:80]}' lies outside the packed file", file, EXPORT_AGAIN)
    if name not in names:
        raise UnreadableFile(f"the zip has no '{name[:80]}', which should be its score", file, EXPORT_AGAIN)
    return name


def _member(archive: ZipFile, name: str, most: int, file: str) -> bytes:
    info: ZipInfo = archive.getinfo(name)
    if info.flag_bits & 1:
        raise UnreadableFile("the zip is locked with a password", file, "Save it without one")
    if info.compress_type not in (ZIP_STORED, ZIP_DEFLATED):  # others may ask for gigabytes to unpack
        raise UnreadableFile("the zip is packed in a way that MusicXML has not", file, EXPORT_AGAIN)
    with archive.open(info) as member:
        data = member.read(most + 1)
    if len(data) > most:
        what = f"'{name[:80]}' is larger than {megabytes(most) if most > 10**6 else '100 kB'} when unpacked"
        raise TooLarge(what, file, "Export the lead sheet, or the tune's part alone")
    return data
