"""How a document is set: for a screen or a paper, in common or in large print.

Large print: no text smaller than 18 point, no serifs, no slanted letters, flush left in one column. Source: American
Council of the Blind, Large Print Guidelines (Board of Publications, 2022), https://acb.org/node/173: "Arial, not bold,
18pt", one column, no emphasis by italics. Our margins stay at 20 mm, narrower than the inch named there, for charts.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Medium = Literal["screen", "a4", "letter"]
LARGE_PT = 18
"""Points of the smallest text in large print."""
LARGE_MM = 6.35
"""The same in mm: a point is 127/360 mm."""


class Setting(Struct, frozen=True):
    """The medium, and whether the print is large."""

    medium: Medium
    is_large: bool = False

    @property
    def is_paper(self) -> bool:
        """Whether it is set for paper."""
        return self.medium != "screen"
