"""Abbreviations: those that occur in a pattern, each with its meaning.

Source: the abbreviations in common use as listed by the Craft Yarn Council, meanings in our words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

MEANINGS = {
    "cm": "centimetre",
    "garter": "knit every row; in the round knit and purl rounds alternate",
    "k": "knit",
    "k2tog": "knit 2 together: one stitch fewer, leans right",
    "m1": "make one: lift the bar between two stitches and knit it through the back: one stitch more",
    "m1L": "make one leaning left: lift the bar from the front, knit it through the back",
    "m1R": "make one leaning right: lift the bar from the back, knit it through the front",
    "m1p": "make one purlwise: lift the bar between two stitches and purl it through the back",
    "mm": "millimetre",
    "p": "purl",
    "p2tog": "purl 2 together: one stitch fewer",
    "RS": "right side, the side that shows",
    "ssp": "slip 2 stitches knitwise one by one, purl them together through the back: one fewer, leans left",
    "ssk": "slip 2 stitches knitwise one by one, knit them together through the back: one fewer, leans left",
    "st": "stitch",
    "sts": "stitches",
    "stockinette": "knit RS rows and purl WS rows; in the round knit every round",
    "WS": "wrong side, the inside",
}
_WORD = re.compile(r"[A-Za-z][A-Za-z0-9]*")


def abbreviations(texts: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Give the abbreviations that occur in texts, with meanings, in alphabetical order."""
    found = set()
    for text in texts:
        for word in _WORD.findall(text):
            stem = re.sub(r"^([kp])\d+$", r"\1", word)
            if stem in MEANINGS:
                found.add(stem)
    return tuple((word, MEANINGS[word]) for word in sorted(found, key=lambda word: (word.lower(), word)))
