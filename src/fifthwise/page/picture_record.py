"""A singer's page as plain values, as ``picture.typ`` reads it."""

from collections.abc import Sequence
from typing import Any

from fifthwise.page.picture import profile_words, singer_picture
from fifthwise.page.picture_keys import keys_picture, keys_words
from fifthwise.voice import SungProfile

__all__ = ["voice_record"]


def voice_record(
    title: str, name: str, profile: SungProfile, others: Sequence[SungProfile] = ()
) -> dict[str, Any]:
    """Write why a key suits a singer, and how the same tune would sit in other keys.

    Parameters
    ----------
    title : str
        The song's.
    name : str
        The singer's.
    profile : SungProfile
        Tonight's key.
    others : sequence of SungProfile, optional
        The keys to compare, the best first.
    """
    ranking = [other.fit for other in others]
    return {
        "kind": "voice",
        "title": title,
        "picture": singer_picture(profile, name, ranking=ranking),
        "words": profile_words(profile, name, ranking),
        "others": keys_picture(others, name) if others else "",
        "others_words": keys_words(others) if others else "",
    }
