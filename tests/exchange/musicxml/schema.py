"""The schema of MusicXML 4.0 from the packages that carry it, with nothing fetched."""

from functools import cache
from pathlib import Path

import musicxml
import xmlschema
from lxml import etree

SCHEMA = Path(musicxml.__file__).parent / "generate_classes" / "musicxml_4_0.xsd"
BESIDE = Path(xmlschema.__file__).parent / "schemas"


class Beside(etree.Resolver):
    """Finds what the schema imports from the web in a package."""

    def resolve(self, url, public, context):
        """The file for an address."""
        name = url.rpartition("/")[2]
        folder = {"xml.xsd": "XML", "xlink.xsd": "XLINK"}[name] if name != SCHEMA.name else None
        path = SCHEMA if folder is None else BESIDE / folder / name
        return self.resolve_filename(str(path), context)


@cache
def schema():
    """The schema, read once."""
    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(Beside())
    return etree.XMLSchema(etree.parse(str(SCHEMA), parser))


def faults(data):
    """What the schema says against a file."""
    checked = schema()
    checked.validate(etree.fromstring(data))
    return [str(fault) for fault in checked.error_log]
