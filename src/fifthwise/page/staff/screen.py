"""A staff for a screen: engraved for a wide one and for a telephone, of which the style sheet shows one."""

from markupsafe import Markup

from fifthwise.page.staff.engrave import engrave_staff, natural_widths
from fifthwise.page.staff.model import Staff
from fifthwise.page.staff.picture import staff_svg

__all__ = ["staff_html", "staff_picture"]

WIDE, NARROW = 112, 54  # staff spaces a system
PICTURES = Markup('<div class="wide staff-picture">{}</div><div class="narrow staff-picture">{}</div>')
TOLD = Markup('<p class="staff-told">{}.</p>')


def staff_html(staff: Staff) -> Markup:
    """A tune's pictures and what its reader has to know, for a page with ``screen_style``; once a page."""
    widths = natural_widths(staff)
    wide, narrow = (
        Markup(staff_svg(staff, engrave_staff(staff, spaces, widths), name))
        for spaces, name in ((WIDE, "wide-"), (NARROW, "narrow-"))
    )
    told = Markup("").join(TOLD.format(each) for each in staff.told)
    return PICTURES.format(wide, narrow) + told


def staff_picture(staff: Staff, spaces: int = WIDE) -> str:
    """A tune's picture as a file of its own, on its own paper, light or dark as the viewer is."""
    return staff_svg(staff, engrave_staff(staff, spaces), alone=True)
