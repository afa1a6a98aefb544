"""Lines over a chart, each found by exact search, with its fingers.

Pure functions from a chart and its timeline to frozen values.
"""

from fifthwise.strings.lines.tune_line import FittedTune, fitted_tune, one_pitch, tune_line, tune_wheres

__all__ = ["FittedTune", "fitted_tune", "one_pitch", "tune_line", "tune_wheres"]
