"""A fit as plain values, ready for JSON."""

from typing import Any

from fifthwise.voice.band import BandTerms
from fifthwise.voice.ranking import KeyFit

__all__ = ["fit_record"]


def fit_record(fit: KeyFit) -> dict[str, Any]:
    """Write a fit as text, numbers, lists and nested dicts.

    Costs, shares and the cycle dose are rounded to three places; ``None`` stays ``None``.
    """
    sitting = fit.sitting
    return {
        "key": fit.key.short,
        "also": None if fit.also is None else fit.also.short,
        "tonic": str(fit.tonic),
        "one": str(fit.one),
        "octave_shift": fit.octave_shift,
        "cost": round(fit.cost, 3),
        "in_comfort": round(sitting.in_comfort, 3),
        "upper_reserve": sitting.upper_reserve,
        "lower_reserve": sitting.lower_reserve,
        "tessitura_shift": sitting.tessitura_shift,
        "in_turns_beats": round(float(sitting.in_turns_beats), 3),
        "cycle_dose": None if sitting.cycle_dose is None else round(sitting.cycle_dose, 3),
        "top": str(fit.top),
        "bottom": str(fit.bottom),
        "reasons": list(fit.reasons),
        "band": _band_record(fit.band),
    }


def _band_record(band: BandTerms) -> dict[str, Any]:
    return {
        "open_strings": [str(note) for note in band.open_strings],
        "capo": band.capo,
        "shape": band.shape,
        "horns": {
            horn.instrument: {"key": horn.key.short, "accidentals": horn.accidentals} for horn in band.horns
        },
    }
