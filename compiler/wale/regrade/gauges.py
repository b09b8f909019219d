"""A new gauge for a swatch: in its own block, or, where that stands in a used file, in a new block of the spec.

What else was measured on the old swatch (off the needle, its weight, its stretch) does not hold for the new one and
becomes a comment. A used file is never changed, for other garments may rest on it.
"""

from __future__ import annotations

from collections.abc import Sequence

from wale.materials import Gauge, Swatch
from wale.parse.lines import comment_start
from wale.parse.tree import Block, Tree
from wale.problems.problem import Edit
from wale.regrade.fabrics import renamed
from wale.regrade.text import block_of, blocks, commented, end_of_line, line, line_end, margin, rewritten
from wale.regrade.ways import NewGauge
from wale.source import Source, Span
from wale.spec import Spec

MEASURED = ("counted", "weight", "stretch")
"""What is measured on a swatch beside its gauge."""
BEFORE = "of the swatch before"


def is_same(one: Gauge, other: Gauge) -> bool:
    """Say whether two gauges are equal, however they are written."""
    return (one.stitches, one.rows) == (other.stitches, other.rows)


def regauged(
    tree: Tree, used: Sequence[Tree], spec: Spec, swatch: Swatch, new: NewGauge
) -> tuple[list[Edit], str, tuple[str, ...]]:
    """Give a swatch another gauge.

    Args:
        tree: the spec's own file; `used` are those that it uses.
        swatch: one of the spec's.

    Returns:
        The edits of the spec's file, the name of the swatch from then on, and the keywords of lines that no longer
        hold; nothing to do where the gauge is the same.
    """
    if is_same(swatch.washed, new.gauge):
        return [], swatch.name, ()
    own = block_of(tree, "swatch", swatch.name)
    if own is not None:
        edits, lost = _measured(tree, own, new)
        return edits, swatch.name, lost
    home, block = next((one, found) for one in used if (found := block_of(one, "swatch", swatch.name)) is not None)
    name = free_name(swatch.name, spec)
    lost = tuple(keyword for keyword in MEASURED if line(block, keyword) is not None)
    told = f"-- {swatch.name} of {home.source.name.rsplit('/', 1)[-1]} at another gauge"
    lines = ["", "", told, *_copied(home.source, block, name, new)]
    added = Edit(_below_pattern(tree), line_end(tree.source).join(lines))
    return [added, *renamed(tree, swatch.name, name)], name, lost


def _copied(source: Source, block: Block, name: str, new: NewGauge) -> list[str]:
    """Give the lines of a swatch under another name and at another gauge, without what was measured beside it."""
    head = " ".join([block.head.keyword.text, name])
    options = ["", *(_plain(source, part[0].span.to(part[-1].span)) for part in block.head.options)]
    kept = {one.keyword.text: one for one in block.body if one.keyword.text not in (*MEASURED, "washed")}
    said = {
        keyword: _plain(source, Span(source.name, one.items[0].span.start, one.span.end))
        for keyword, one in kept.items()
    }
    said["washed"] = new.words
    width = max(map(len, said))
    return [head + ", ".join(options), *(f"    {keyword:{width}} {words}" for keyword, words in said.items())]


def _plain(source: Source, span: Span) -> str:
    """Give the words under a span on one line, without the comments between its lines."""
    lines = source.cut(span).split("\n")
    return " ".join(" ".join(one[: comment_start(one)] for one in lines).split())


def free_name(name: str, spec: Spec) -> str:
    """Give a name for a new swatch that no other has."""
    number = 2
    while f"{name}-{number}" in spec.swatches:
        number += 1
    return f"{name}-{number}"


def _below_pattern(tree: Tree) -> Span:
    """Give the place right below the `pattern` block, where blocks of a file usually begin."""
    place = end_of_line(tree.source, blocks(tree, "pattern")[0].span.end)
    return Span(tree.source.name, place, place)


def _measured(tree: Tree, block: Block, new: NewGauge) -> tuple[list[Edit], tuple[str, ...]]:
    source = tree.source
    washed = line(block, "washed")
    edits: list[Edit] = []
    lost = []
    for keyword in MEASURED:
        statement = line(block, keyword)
        if statement is None:
            continue
        if washed is None and keyword == "counted":
            gap = margin(source, statement)
            place = Span(source.name, statement.span.start, statement.span.start)
            edits.append(Edit(place, f"washed {new.words}{line_end(source)}{gap}"))
        edits += commented(source, statement, BEFORE)
        lost.append(keyword)
    if washed is not None:
        edits.append(rewritten(source, washed, new.words))
    return edits, tuple(lost)
