"""Charts made of a few lines of text, unfolded."""

from fifthwise.chart import parse, unfold

__all__ = ["song"]


def song(body, *, key="G", **head):
    """A chart and its timeline, of its bars and the fields of its head."""
    fields = "".join(f"{field}: {text}\n" for field, text in head.items())
    chart = parse(f"---\ntitle: Net Loft\nkey: {key}\n{fields}---\n{body}\n")
    return chart, unfold(chart)
