"""The web page: one file that holds its styles, fonts and pictures, made for phones and screen readers as for desks."""

from __future__ import annotations

from wale.outputs import document, fonts
from wale.pattern import Pattern


def render(pattern: Pattern) -> str:
    """The pattern as one self-contained HTML file without scripts.

    It has landmarks, a skip link, a table of contents, headings in order, header cells with scope, and a name for each
    picture. Tables and charts wider than the screen scroll in boxes of their own.
    """
    style = document.read_style("base.css") + document.read_style("screen.css")
    page = document.render(pattern, "screen", "")
    return page.replace("<style></style>", f"<style>{fonts.css(page)}\n{style}</style>", 1)
