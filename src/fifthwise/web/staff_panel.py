"""The panel *Staff* of a song: its tune as notes, in tonight's key, for whose page it is."""

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from fifthwise.chart import rekey
from fifthwise.page import PageView
from fifthwise.page.staff import staff_html, staff_of_chart
from fifthwise.theory import NoteName
from fifthwise.web.song_music import parsed
from fifthwise.web.song_wish import Wish, address

__all__ = ["StaffPanel"]

CLEFS = {
    "treble": "treble clef",
    "treble-8": "treble clef, an octave down",
    "alto": "alto clef",
    "tenor": "tenor clef",
    "bass": "bass clef",
}


@dataclass(frozen=True, slots=True)
class StaffPanel:
    """A staff as it is asked for.

    Attributes
    ----------
    text : str
        The song's, as it is kept.
    tonic : NoteName
        Of tonight's key.
    view : PageView
        Whose page it is.
    key : str
        As that page reads it.
    """

    song_id: int
    wish: Wish
    text: str
    tonic: NoteName
    view: PageView
    key: str

    @property
    def open(self) -> bool:
        """Whether it is shown; only then it is engraved."""
        return self.wish.staff

    @property
    def clef(self) -> str:
        """The clef, in words."""
        return CLEFS[self.view.part.clef]

    @property
    def engraved(self) -> Markup | None:
        """The pictures, and what their reader has to know; ``None`` where the song has no tune."""
        return _engraved(self.text, self.tonic, self.view)

    def at(self, *, staff: bool) -> str:
        """The address of the page with the staff or without."""
        return address(self.song_id, self.wish, staff=staff)

    def file(self, name: str) -> str:
        """The address of a file of it."""
        return address(self.song_id, self.wish, name, staff=False)

    @property
    def alone(self) -> str:
        """The address of this panel alone, shown."""
        return address(self.song_id, self.wish, "staff", staff=True)


@lru_cache(maxsize=32)  # about 50 kB each; an evening's songs are asked for again and again
def _engraved(text: str, tonic: NoteName, view: PageView) -> Markup | None:
    staff = staff_of_chart(rekey(parsed(text), tonic), view)
    return None if staff is None else staff_html(staff)
