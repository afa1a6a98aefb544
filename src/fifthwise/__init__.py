"""fifthwise: number charts, keys and pages for string players on amplified stages."""

__version__ = "0.1.0"
