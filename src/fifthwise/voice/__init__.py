"""The singer's key: which keys suit a voice, why, and what they give the band.

A singer is asked for ranges as notes; a song gives what is sung; ``rank_keys`` tells how it sits in all
twelve keys. Everything is a frozen value with functions beside it, and nothing here reads a file.
"""

from fifthwise.voice.band import BandTerms, HornKey, band_terms, strings_in_key
from fifthwise.voice.errors import NoTune, SingerFault, VoiceError
from fifthwise.voice.profile import Ease, PitchTime, SungProfile, sung_profile
from fifthwise.voice.ranking import KeyFit, best_key, rank_keys
from fifthwise.voice.record import fit_record
from fifthwise.voice.score import CostParts, Sitting, sit
from fifthwise.voice.singer import Range, Singer, read_singer, write_singer
from fifthwise.voice.tune import SungNote, SungTune, sung_pitch, sung_tune
from fifthwise.voice.weights import WEIGHTS, Weights

__all__ = [
    "WEIGHTS",
    "BandTerms",
    "CostParts",
    "Ease",
    "HornKey",
    "KeyFit",
    "NoTune",
    "PitchTime",
    "Range",
    "Singer",
    "SingerFault",
    "Sitting",
    "SungNote",
    "SungProfile",
    "SungTune",
    "VoiceError",
    "Weights",
    "band_terms",
    "best_key",
    "fit_record",
    "rank_keys",
    "read_singer",
    "sit",
    "strings_in_key",
    "sung_pitch",
    "sung_profile",
    "sung_tune",
    "write_singer",
]
