"""The bytes of a MusicXML file as a tree of elements: bounded, and without entities."""

from xml.etree.ElementTree import Element, ParseError, TreeBuilder

from fifthwise.exchange.errors import TooLarge, UnreadableFile
from fifthwise.exchange.musicxml.limits import LARGEST_FILE, MOST_DEPTH, MOST_ELEMENTS, megabytes

__all__ = ["check_size", "read_tree"]

EXPORT_AGAIN = "Export it again as MusicXML"
# What other files begin with.
OTHERS = {
    b"MThd": "a MIDI file",
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"X:": "an ABC tune",
    b"{": "a JSON file",
    b"---": "a text",
}


def check_size(data: bytes, file: str) -> None:
    """Refuse what is too large to be read.

    Raises
    ------
    TooLarge
        It is.
    """
    if len(data) > LARGEST_FILE:
        what = f"the file has {megabytes(len(data))}; {megabytes(LARGEST_FILE)} are read"
        raise TooLarge(what, file, "Export the lead sheet, or the tune's part alone")


def read_tree(data: bytes, file: str) -> Element:
    """Parse a file.

    Raises
    ------
    TooLarge
        It is larger, deeper or fuller than ``limits`` says.
    UnreadableFile
        It is not XML, declares entities, or breaks off.
    """
    from defusedxml import DefusedXmlException  # type: ignore[import-untyped]  # it comes without types
    from defusedxml.ElementTree import DefusedXMLParser  # type: ignore[import-untyped]

    check_size(data, file)
    if not data.strip(b" \t\r\n\0\xef\xbb\xbf\xff\xfe"):
        raise UnreadableFile("the file is empty", file, EXPORT_AGAIN)
    _check_kind(data, file)
    parser = DefusedXMLParser(target=_Builder(file))
    try:
        parser.feed(data)
        root: Element = parser.close()
    except DefusedXmlException:
        fix = f"{EXPORT_AGAIN}, without a DOCTYPE that declares any"
        raise UnreadableFile("the file declares entities, which are not read", file, fix) from None
    except ParseError as error:
        raise _broken(error, file) from None
    except (LookupError, ValueError, UnicodeError):
        what = "the file's encoding is unknown"
        raise UnreadableFile(what, file, "Save it as UTF-8, and say so in its first line") from None
    return root


def _check_kind(data: bytes, file: str) -> None:
    start = data.lstrip()[:8]
    for sign, name in OTHERS.items():
        if start.startswith(sign):
            raise UnreadableFile(f"the file is {name}, not MusicXML", file, EXPORT_AGAIN)


def _broken(error: ParseError, file: str) -> UnreadableFile:
    line, column = error.position
    said = str(error).partition(":")[0]
    where = f"{file}, line {line}, column {column + 1}"
    if said in ("no element found", "unclosed token"):
        return UnreadableFile("the file breaks off", where, EXPORT_AGAIN)
    if "invalid token" in said or "encoding" in said:
        fix = "Save it in the encoding that its first line says, or as UTF-8"
        return UnreadableFile("the text is not XML in the encoding that it claims", where, fix)
    return UnreadableFile(f"the XML is broken: {said}", where, EXPORT_AGAIN)


class _Builder(TreeBuilder):
    """Builds the tree, and stops where it grows too large."""

    def __init__(self, file: str) -> None:
        super().__init__()
        self.file = file
        self.elements = self.depth = 0

    def start(self, tag: str, attrs: dict[str, str], /) -> Element:
        self.elements += 1
        self.depth += 1
        if self.elements > MOST_ELEMENTS:
            what = f"the file has more than {MOST_ELEMENTS} elements"
            raise TooLarge(what, self.file, "Export the lead sheet, or the tune's part alone")
        if self.depth > MOST_DEPTH:
            raise TooLarge(f"the file nests elements {MOST_DEPTH} deep", self.file, EXPORT_AGAIN)
        return super().start(tag.rpartition("}")[2], attrs)

    def end(self, tag: str, /) -> Element:
        self.depth -= 1
        return super().end(tag.rpartition("}")[2])
