"""The panel *Staff* of a song: its tune as notes, in tonight's key, for whose page it is."""

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from fifthwise.chart import rekey
from fifthwise.page import PageView
from fifthwise.page.staff import engrave_staff, staff_of_chart, staff_svg
from fifthwise.theory import NoteName
from fifthwise.web.song_music import parsed
from fifthwise.web.song_wish import Wish, address

__all__ = ["StaffPanel"]

WIDE, NARROW = 112, 54  # staff spaces a system: on a laptop or tablet, on a telephone
CLEFS = {
    "treble": "treble clef",
    "treble-8": "treble clef, an octave down",
    "alto": "alto clef",
    "tenor": "tenor clef",
    "bass": "bass clef",
}


@dataclass(frozen=True, slots=True)
class Engraved:
    """A tune engraved for two widths of a screen, and what its reader has to know."""

    wide: Markup
    narrow: Markup
    told: tuple[str, ...]


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
    def engraved(self) -> Engraved | None:
        """The pictures; ``None`` where the song has no tune."""
        return _engraved(self.text, self.tonic, self.view)

    def at(self, *, staff: bool) -> str:
        """The address of the page with the staff or without."""
        return address(self.song_id, self.wish, staff=staff)

    @property
    def alone(self) -> str:
        """The address of this panel alone, shown."""
        return address(self.song_id, self.wish, "staff", staff=True)


@lru_cache(maxsize=32)  # about 50 kB each; an evening's songs are asked for again and again
def _engraved(text: str, tonic: NoteName, view: PageView) -> Engraved | None:
    staff = staff_of_chart(rekey(parsed(text), tonic), view)
    if staff is None:
        return None
    wide, narrow = (
        Markup(staff_svg(staff, engrave_staff(staff, spaces), name))
        for spaces, name in ((WIDE, "wide-"), (NARROW, "narrow-"))
    )
    return Engraved(wide, narrow, staff.told)
