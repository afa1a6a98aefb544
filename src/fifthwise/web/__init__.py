"""The workbench in the browser: songs, singers, players and sets on pages.

A route reads what was asked, asks the rooms below, and shows a template: no theory, no SQL, no HTML in it.
Every page is whole without scripts; a fragment is a template that its page includes too.
"""

from fifthwise.web.app import make_app
from fifthwise.web.opening import open_workbench
from fifthwise.web.server import PortTaken, serve
from fifthwise.web.sharing import PASSWORD_FILE, NoPassword, Sharing, guarded, open_sharing

__all__ = [
    "PASSWORD_FILE",
    "NoPassword",
    "PortTaken",
    "Sharing",
    "guarded",
    "make_app",
    "open_sharing",
    "open_workbench",
    "serve",
]
