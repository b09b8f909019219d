"""The proof of a finished pattern: its printed words are knitted and held against the plan before it is written."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from wale import __version__
from wale.pattern import Pattern
from wale.plan import Plan
from wale.prove.fabric import Finding
from wale.prove.facts import Facts, PieceFacts, Printed
from wale.prove.proof import Outcome, prove_all
from wale.prove.remarks import is_length
from wale.spec import Spec
from wale.write.facts import facts, printed

CHECKED = (
    "stitches after every row",
    "right and wrong sides",
    "chart row, start column and colour of each stitch",
    "needles and yarns",
    "leans of decreases and increases, mirrored",
    "mirror symmetry of centred pieces",
    "stitches held, bound off or drawn together at the end",
    "rows and stitches of joined edges",
    "lists of starts after shaping rows, sheets row by row, charts of every stitch",
    "finished widths and lengths by the gauge: tables, schematics and lengths on the way",
    "stitches of each yarn, and the table of yarn reckoned from them",
)
NOT_CHECKED = (
    "notes that the designer wrote",
    "making up, and which rings go on",
    "the words of charts of every stitch",
    "grams of a stitch, of ends and of swatches",
)


class Unproven(Exception):
    """The printed words do not make what was planned: a defect of the compiler, never of the file."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        first = findings[0]
        where = f"{first.piece}, size {first.size}, row {first.row}"
        super().__init__(f"{where}: {first.message}" + (f" ({first.line})" if first.line else ""))
        self.findings = tuple(findings)


class Proof(Struct, frozen=True):
    """What was knitted from the printed words and agreed with the plan."""

    title: str
    printed: Printed
    facts: Facts
    outcome: Outcome

    @property
    def stitches(self) -> int:
        """Stitches knitted over all pieces and sizes."""
        return sum(row.stitches for piece in self.facts.pieces for row in piece.rows)

    def record(self) -> dict[str, Any]:
        """Give the full record as plain data for JSON."""
        return {
            "compiler": f"wale {__version__}",
            "title": self.title,
            "sizes": list(self.printed.sizes),
            "hand": self.printed.hand,
            "checked": list(CHECKED),
            "not_checked": list(NOT_CHECKED),
            "stitches": self.stitches,
            "pieces": [_piece(piece) for piece in self.facts.pieces],
            "joins": [{"edge": join.edge, "pieces": list(join.pieces)} for join in self.facts.joins],
            "measured": [
                {
                    "piece": one.piece,
                    "size": one.size,
                    "what": one.name,
                    "printed": one.told,
                    "cm": f"{float(one.found):.4f}",
                }
                for one in self.outcome.measured
            ],
            "yarn": [
                {
                    "size": size,
                    "yarn": yarn,
                    "stitches": {
                        piece: count
                        for (piece, of), found in self.outcome.stitches.items()
                        if of == size and (count := found.get(yarn, 0))
                    },
                    "grams": None if need.takes is None else [f"{float(grams):.2f}" for grams in need.takes],
                    "ready": need.ready,
                }
                for size, needs in self.outcome.needs.items()
                for yarn, need in needs.items()
            ],
            "yarn_figures": self.outcome.yarn_figures,
            "unproven_lines": [
                {"piece": piece.name, "step": piece.first + number, "text": remark}
                for piece in self.printed.pieces
                for number, remark in enumerate(piece.remarks)
                if remark and not is_length(remark)
            ],
        }


def prove_pattern(spec: Spec, plan: Plan, pattern: Pattern, sizes: Sequence[int]) -> Proof:
    """Prove a pattern.

    Raises:
        Unproven: the words make another fabric than was planned, or cannot be worked.
    """
    page, known = printed(spec, plan, pattern, sizes), facts(spec, plan, sizes)
    outcome = prove_all(page, known)
    if outcome.findings:
        raise Unproven(outcome.findings)
    return Proof(pattern.title, page, known, outcome)


def _piece(piece: PieceFacts) -> dict[str, Any]:
    return {
        "piece": piece.piece,
        "size": piece.size,
        "cast_on": piece.cast_on,
        "rows": len(piece.rows),
        "stitches": [row.stitches for row in piece.rows],
        "chart_rows": [row.chart_row for row in piece.rows],
        "mirrors": piece.mirrors,
        "held": list(piece.held),
        "bound_off": piece.bound_off,
        "drawn_together": piece.drawn,
        "live": piece.live,
    }
