"""Rounds that lose a stitch in each of eight segments, of `knit` stitches beside it, down to `total`."""

from __future__ import annotations

from wale.course import Passage, rounds

_MADE = rounds("{total}", "1")
LOSE = Passage("lose", "(k{knit}, k2tog) 8 times. {total!sts}.", "Next round", _MADE, when="{knit}")
LAST = Passage("last", "k2tog 8 times. {total!sts}.", "Next round", _MADE, when="1 - {knit}")
