"""The web page: one file that holds its styles, fonts and pictures, made for phones and screen readers as for desks."""

from __future__ import annotations

from wale.outputs import document, fonts
from wale.outputs.setting import Setting
from wale.pattern import Pattern


def render(pattern: Pattern, *, is_large: bool = False) -> str:
    """The pattern as one self-contained HTML file without scripts.

    It has landmarks, a skip link, a table of contents, headings in order, header cells with scope, and a name for each
    picture. Tables and charts wider than the screen scroll in boxes of their own. `is_large` is for readers with low
    vision.
    """
    style = document.read_style("base.css") + document.read_style("screen.css")
    if is_large:
        style += document.read_style("large.css") + document.read_style("large-screen.css")
    page = document.render(pattern, Setting("screen", is_large), "")
    return page.replace("<style></style>", f"<style>{fonts.css(page)}\n{style}</style>", 1)
