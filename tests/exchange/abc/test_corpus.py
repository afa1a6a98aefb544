"""Melodies of music21's corpus: read as music21 reads them, but for its faults, which are named."""

import random
from collections import Counter

import pytest

from tests.exchange.abc.corpus import CARRIED, COLLECTIONS, REASONS, SAME, tune_texts, why

SEED = 3
SAMPLED = 75


@pytest.mark.filterwarnings("ignore")
def test_melodies_are_read_as_music21_reads_them():
    """Pitches, lengths, signatures and metres are the same, and where not a known reason takes it away.

    Source: music21's corpus (ryansMammoth, oneills1850, airdsAirs), read by music21 where it lies.
    """
    found = Counter(why(text) for _, text in random.Random(SEED).sample(tune_texts(), SAMPLED))
    assert set(found) <= {SAME, CARRIED, *REASONS}
    assert found[SAME] > SAMPLED / 2


def test_every_tune_of_the_corpus_is_found():
    """The sample is taken from all 4,248 tunes of three collections."""
    assert len(tune_texts()) == 4248
    assert len(COLLECTIONS) == 3
