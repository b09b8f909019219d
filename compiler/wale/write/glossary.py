"""Abbreviations: those that occur in a pattern, each with its meaning.

Source: the abbreviations in common use as listed by the Craft Yarn Council, meanings in our words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

MEANINGS = {
    "band st": "a stitch of the front band, worked as its line says",
    "bind off": "knit 2 stitches, lift the first over the second, knit the next, and so on; the stitch that is left "
    "after so many belongs to those that follow",
    "bind off with a cord": "knit a narrow cord onto the stitches: its last stitch takes the next one in, then its "
    "stitches go back to the needle they came from, and are knitted again with the yarn drawn behind them",
    "cable left": "as many sts as the number says, half of them crossed over the other half: slip half of them to a "
    "cable needle and hold it in front, knit the other half, then knit those of the cable needle; leans left",
    "cable right": "as many sts as the number says, half of them crossed behind the other half: slip half of them to a "
    "cable needle and hold it behind the work, knit the other half, then knit those of the cable needle; leans right",
    "closed cast-on": "a cast-on onto two needles side by side, a stitch on each by turns, half of them on either; the "
    "round runs along the one needle and back along the other, and nothing is left open",
    "cm": "centimetre",
    "corrugated rib": "a rib in two yarns: all knit columns in the one, all purl columns in the other",
    "ds": "double stitch: slip the first stitch after the turn purlwise, the yarn in front, and pull the yarn over the "
    "needle to the back until both legs of the stitch lie on it; it counts as one, and its legs are worked as one",
    "edge st": "the outermost stitch of a row: knit it on RS rows, purl it on WS rows (in a border of "
    "garter knit it there, too)",
    "garter": "knit every row; in the round knit and purl rounds alternate",
    "graft": "hold both rows of stitches parallel and sew them together with a strand that runs as a row of knitting",
    "k": "knit",
    "k2tog": "knit 2 together: one stitch fewer, leans right",
    "k3tog": "knit 3 together: two stitches fewer, leans right",
    "m1": "make one: lift the bar between two stitches and knit it through the back: one stitch more",
    "m1L": "make one leaning left: lift the bar from the front, knit it through the back",
    "m1R": "make one leaning right: lift the bar from the back, knit it through the front",
    "m1p": "make one purlwise: lift the bar between two stitches and purl it through the back",
    "mattress stitch": "sew from the right side, edges side by side: take up the bar beside the edge stitch on the one "
    "side, then on the other, and so on",
    "mm": "millimetre",
    "p": "purl",
    "p2tog": "purl 2 together: one stitch fewer",
    "p3tog": "purl 3 together: two stitches fewer",
    "pick up and knit": "put the needle into the edge, draw the yarn through as a stitch, so many along the edge",
    "provisional cast-on": "a cast-on over waste yarn, which comes out later and leaves the stitches live",
    "RS": "right side, the side that shows",
    "s2kp": "slip 2 stitches knitwise together, knit 1, pass the slipped ones over it: two stitches fewer, the middle "
    "one on top",
    "sl": "slip purlwise: pass the stitch over unworked, the yarn on the wrong side",
    "ssp": "slip 2 stitches knitwise one by one, purl them together through the back: one fewer, leans left",
    "ssk": "slip 2 stitches knitwise one by one, knit them together through the back: one fewer, leans left",
    "sssk": "slip 3 stitches knitwise one by one, knit them together through the back: two fewer, leans left",
    "st": "stitch",
    "sts": "stitches",
    "stockinette": "knit RS rows and purl WS rows; in the round knit every round",
    "tbl": "through the back loop: put the needle into the back of the stitch, which twists it",
    "three-needle bind-off": "hold two needles side by side; with a third knit a stitch of each together, and lift "
    "each stitch made so over the next",
    "turn": "leave the other stitches unworked, turn the work, and go on with the next row",
    "WS": "wrong side, the inside",
    "yo": "yarn over: lay the yarn over the needle as a stitch: one stitch more, and a hole",
}
_PHRASES = tuple(term for term in MEANINGS if " " in term)
_CABLE = re.compile(r"cable [0-9]+ (left|right)")
_WORD = re.compile(r"[A-Za-z][A-Za-z0-9]*")


def abbreviations(texts: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Give the abbreviations that occur in texts, with meanings, in alphabetical order."""
    found: set[str] = set()
    for text in texts:
        found.update(phrase for phrase in _PHRASES if phrase in text.lower())
        found.update(f"cable {hand}" for hand in _CABLE.findall(text))
        for word in _WORD.findall(text):
            stem = re.sub(r"^(k|p|sl)\d+$", r"\1", word)
            stem = stem.lower() if stem.lower() in ("graft", "turn") else stem
            if stem in MEANINGS:
                found.add(stem)
    return tuple((word, MEANINGS[word]) for word in sorted(found, key=lambda word: (word.lower(), word)))
