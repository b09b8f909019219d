"""The band at the front edge of a half piece on the machine: where it stands, and how each side's rows look there."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, PURL, insist
from wale.prove.needle import Needles

_UNITS = {
    "garter": (bytes((KNIT,)), bytes((PURL,))),
    "1x1 rib": (bytes((KNIT, PURL)), bytes((KNIT, PURL))),
    "seed stitch": (bytes((KNIT, PURL)), bytes((PURL, KNIT))),
}
"""What a band's RS and WS rows repeat from the front edge on, as seen from the right side."""


def begin_band(needles: Needles, line: words.FrontBand) -> None:
    """Set the stitches at one end apart, as the words work them on both sides."""
    insist(not needles.in_round and not needles.done, "a front band is told below the cast-on of flat work")
    insist(not any(needles.apart), "a border or band is told already")
    insist(set(line.ends) == {"first", "last"}, "the band is at the same end of RS and WS rows")
    insist(line.counts[0] == line.counts[1], "the band has another number of sts on WS rows")
    count = line.counts[0]
    insist(0 < count < needles.count, "there are only sts of the band")
    at_right = line.ends[0] == "first"
    found = []
    for side, stitches, unit in zip(("RS", "WS"), (line.right, line.wrong), _UNITS[line.texture], strict=True):
        look = needles.spell(stitches, side, count)
        planned = (unit * count)[:count]
        insist(look == (planned if at_right else planned[::-1]), f"the words do not make {line.texture}")
        found.append((look, b"") if at_right else (b"", look))
    needles.apart = (count, 0) if at_right else (0, count)
    needles.looks = {"RS": found[0], "WS": found[1]}
    needles.has_band = True


def begin_holes(needles: Needles, line: words.BandHoles) -> None:
    """Take the rows on which buttonholes are worked in the band."""
    insist(needles.has_band and not needles.hole_rows, "there is no front band to button, or it is buttoned already")
    insist(line.off == line.on > 0, f"{line.off} sts are bound off, and {line.on} cast on")
    width = line.before + line.off + line.after
    insist(width == sum(needles.apart), f"the band has {sum(needles.apart)} sts, not {width}")
    insist(line.before > 0 < line.after, "a buttonhole lies at the edge of the band")
    needles.hole_rows, needles.band_hole = line.schedule.rows(), (line.before, line.off)
