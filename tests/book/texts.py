"""Short charts for the book's tests."""

__all__ = ["tune"]


def tune(title="Slack Water", bars="1 4 | 5 1", **fields):
    """A chart's text; fields go into its head."""
    head = "".join(f"{name}: {text}\n" for name, text in {"key": "G", **fields}.items())
    return f"---\ntitle: {title}\n{head}---\n{bars}\n"
