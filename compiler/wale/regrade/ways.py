"""What a garment is regraded to, and what is kept of it."""

from __future__ import annotations

import re
from typing import Literal, get_args

from msgspec import Struct

from wale.materials import Gauge
from wale.parse.parser import parse
from wale.parse.tree import Block
from wale.problems.problem import Problem
from wale.resolve.context import Context
from wale.resolve.swatches import LINES, gauge
from wale.source import Source, Span

Keep = Literal["lengths", "counts", "motif"]
KEEPS: tuple[Keep, ...] = get_args(Keep)
EXAMPLE = "27 sts, 36 rows in 10 cm"
_COMMA = re.compile(r"\s*,\s*")


class NewGauge(Struct, frozen=True):
    """A gauge as it stands after `washed`, and what it says."""

    words: str
    gauge: Gauge


def read_gauge(text: str) -> NewGauge | Problem:
    """Read a gauge: `27 sts, 36 rows in 10 cm`, or anything that a `washed` line takes; else a problem E311."""
    words = " ".join(text.split())
    if "=" not in words:
        words = _COMMA.sub(" and ", words, count=1)
    words = words.removeprefix("washed ")
    source = Source("--gauge", f"wale 1\n\nswatch asked, worked flat\n    washed {words}\n")
    tree, problems = parse(source)
    context = Context(problems=list(problems))
    context.add_source(tree)
    block = next((part for part in tree.parts if isinstance(part, Block)), None)
    statement = block.body[0] if block is not None and len(block.body) == 1 and not problems else None
    line = context.read(statement, {"washed": LINES["washed"]}, "a swatch") if statement is not None else None
    found = gauge(context, line) if line is not None else None
    if statement is None or found is None or any(one.is_error for one in context.problems):
        wrong = next((one for one in context.problems if one.is_error), None)
        why = wrong.message if wrong is not None else "it does not read like a gauge"
        way_out = f"{wrong.help} " if wrong is not None and wrong.help else ""
        return Problem(
            "E311",
            f"`{text}` is no gauge: {why}",
            help=f'{way_out}Write stitches and rows and over what they were counted, such as `--gauge "{EXAMPLE}"` or '
            '`--gauge "40 sts = 13.6 cm, 40 rows = 12.2 cm"`; half a stitch is told over twice the length.',
        )
    place = Span(source.name, statement.items[0].span.start, statement.span.end)
    return NewGauge(source.cut(place), found)
