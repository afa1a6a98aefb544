"""An element of MEI as text."""

from xml.sax.saxutils import escape, quoteattr

__all__ = ["element", "fit_for_xml"]

# Characters that XML 1.0 cannot hold, whatever is done to them.
UNFIT = {code: None for code in range(32) if code not in (9, 10, 13)} | {0xFFFE: None, 0xFFFF: None}


def element(tag: str, content: str = "", /, **attributes: str | int) -> str:
    """An element; ``xml_id`` is written ``xml:id`` and ``clef_shape`` ``clef.shape``.

    Parameters
    ----------
    content : str
        Markup; of a ``syl`` it is text.
    """
    named = "".join(
        f" {_name(name)}={quoteattr(fit_for_xml(str(value)))}" for name, value in attributes.items()
    )
    inside = escape(fit_for_xml(content)) if tag == "syl" else content
    return f"<{tag}{named}>{inside}</{tag}>" if inside else f"<{tag}{named}/>"


def _name(name: str) -> str:
    return "xml:id" if name == "xml_id" else name.replace("_", ".")


def fit_for_xml(text: str) -> str:
    """A text without the characters that XML cannot hold."""
    return text.translate(UNFIT)
