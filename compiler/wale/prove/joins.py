"""Joined edges of knitted pieces held against each other: shoulders, sides, and sleeves in their armholes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from wale.prove.fabric import PURL, Contradiction, Fabric, Finding
from wale.prove.facts import Facts, Gauge
from wale.prove.ruler import Ruler


def compare_joins(facts: Facts, fabrics: Mapping[tuple[str, str], Fabric], sizes: Sequence[str]) -> Iterator[Finding]:
    """See that joined shoulders have the same stitches, and joined sides the same rows from the fold on."""
    makes = {fact.piece: fact.make for fact in facts.pieces}
    for join in facts.joins:
        for size in sizes:
            if join.edge == "held" and all((name, size) in fabrics for name in join.pieces):
                yield from _held([fabrics[name, size] for name in join.pieces], makes)
                continue
            ends = [(name, fabrics[name, size]) for name in join.pieces if (name, size) in fabrics]
            for name, fabric in ends[1:]:
                other = ends[0][1]
                if join.edge == "shoulders":
                    same = len({*fabric.held, *other.held}) == 1
                    message = f"its shoulders hold {fabric.held} sts, those of {ends[0][0]} {other.held}"
                elif join.edge == "sides":
                    same = side_rows(fabric) == side_rows(other)
                    message = f"its side has {side_rows(fabric)} rows, that of {ends[0][0]} {side_rows(other)}"
                else:
                    continue
                if not same:
                    yield Finding(name, size, 0, "", message)


def _held(fabrics: Sequence[Fabric], makes: Mapping[str, int]) -> Iterator[Finding]:
    """See that a piece takes all that the others hold but their underarms, and that those match two by two."""
    joined, *others = fabrics
    for other in others:
        held = Counter(other.waiting * makes[other.piece])
        taken = Counter(count for count, piece in joined.joined if piece == other.piece)
        left = held - taken
        if taken - held or left != Counter(other.underarms * makes[other.piece]):
            told = sorted(held.elements())
            message = f"it takes {sorted(taken.elements())} sts of the {other.piece}, which holds {told}"
            yield Finding(joined.piece, joined.size, 0, "", message)
    body, *sleeves = (other.underarms * makes[other.piece] for other in others)
    grafted = sorted(count for sleeve in sleeves for count in sleeve)
    if sorted(body) != grafted:
        message = f"its underarms have {sorted(body)} sts, those that are grafted to them {grafted}"
        yield Finding(others[0].piece, joined.size, 0, "", message)


def side_rows(fabric: Fabric) -> int:
    """Give the rows of a side edge, counted from the fold of a hem where there is one."""
    folds = [row.number for row in fabric.rows if row.ops == bytes((PURL,)) * len(row.ops)]
    return max((row.number for row in fabric.rows), default=0) - (folds[-1] if folds else 0)


def compare_armholes(facts: Facts, rulers: Mapping[tuple[str, str], Ruler], sizes: Sequence[str]) -> Iterator[Finding]:
    """See that a sleeve's top is twice as wide as the armhole edge of each piece, but for a stitch and a row."""
    for sleeve, *bodies in (join.pieces for join in facts.joins if join.edge == "armholes"):
        for size, body in ((size, body) for size in sizes for body in bodies):
            if (sleeve, size) not in rulers or (body, size) not in rulers:
                continue
            top, edge = rulers[sleeve, size], rulers[body, size]
            try:
                gauge, beside = top.gauge(top.rows), edge.gauge(edge.rows)
                width = (top.stitches(top.rows) - top.fact.seams) / gauge.stitches
                if abs(2 * edge.armhole() - width) > _slack(gauge, beside):
                    told = f"its top is {float(width):.2f} cm wide, twice the armhole edge of the {body} is "
                    yield Finding(sleeve, size, top.rows, "", f"{told}{float(2 * edge.armhole()):.2f} cm")
            except Contradiction as error:
                yield Finding(sleeve, size, 0, "", str(error))


def _slack(sleeve: Gauge, body: Gauge) -> Fraction:
    return 1 / sleeve.stitches + 1 / body.rows
