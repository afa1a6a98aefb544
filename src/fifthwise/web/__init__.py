"""The workbench in the browser: songs, singers, players and sets on pages.

A route reads what was asked, asks the rooms below, and shows a template: no theory, no SQL, no HTML in it.
Every page is whole without scripts; a fragment is a template that its page includes too.
"""

from fifthwise.web.app import make_app

__all__ = ["make_app"]
