"""Lines of hems, ribs, textured edges, mitres, buttonholes and collars."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from wale.prove import words
from wale.prove.trees.node import Node, needed_fabric_of, schedule_of, stitches_of, yarn_of
from wale.prove.words import Stitches


def _even_row(node: Node) -> words.EvenRow:
    opening = node.one("crown_round")
    change, after = node.figures()
    return words.EvenRow(
        node.side(),
        opening.figures()[0] if opening is not None else 0,
        node.text("CHANGE") == "increase",
        change,
        stitches_of(node.one("stitches")),
        after,
        yarn_of(node),
    )


def _plain_rows(node: Node) -> words.PlainRows:
    in_round = node.text("ROWS").startswith("round")
    return words.PlainRows(
        node.text("PART"), node.figures()[0], in_round, needed_fabric_of(node), node.has("from_right")
    )


def _turned(node: Node) -> Stitches:
    stitches = node.one("stitches")
    return stitches_of(stitches) if stitches is not None else ()


def _rib_rows(node: Node) -> words.RibRows:
    knit, purl = (int(part) for part in node.text("RIB").split("x"))
    stitches = node.one("stitches")
    told = stitches_of(stitches) if stitches is not None else None
    kinds = bool(node.text("TWISTED")), bool(node.text("CORRUGATED"))
    return words.RibRows(node.figures()[0], knit, purl, told, yarn_of(node), node.side(), *kinds)


def _texture_rows(node: Node) -> words.TextureRows:
    rows, *cycle = node.figures()
    of, start = cycle or (1, 1)
    in_round = node.all("ROWS")[0].startswith("round")
    return words.TextureRows(node.text("TEXTURE"), rows, in_round, of, start, yarn_of(node))


def _hole_row(node: Node) -> words.HoleRow:
    first, after = node.figures()
    then: list[tuple[int, int]] = []
    for tree in node.within("hole", "holes"):
        one = tree if tree.data == "hole" else tree.one("hole")
        assert one is not None
        off, work = one.figures()
        then += [(off, work)] * (1 if tree is one else tree.figures()[0])
    return words.HoleRow(_held(node.text("IN_HELD")), node.side(), first, tuple(then), after)


def _held(words: str) -> str:
    """Give the texture that words name before their comma: `: in rib, cast on`."""
    return words.partition(",")[0].removeprefix(": in ")


def _collar_turns(node: Node) -> words.CollarTurns:
    first, second = node.sides()
    left, right = node.figures()
    more = tuple((rows, each) for rows, each in (one.figures() for one in node.within("farther", "more_rows")))
    return words.CollarTurns(node.text("HELD"), (first, second), (left, right), more)


def _mitre(node: Node) -> words.Mitre:
    *marked, fewer = node.figures()
    return words.Mitre(tuple(marked), fewer)


def _mitre_rounds(node: Node) -> words.MitreRounds:
    first, rounds, after = node.figures()
    return words.MitreRounds(schedule_of(node, first), rounds, after)


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "plain_rows": _plain_rows,
    "even_row": _even_row,
    "turning_row": lambda node: words.Turning(node.side(), _turned(node)),
    "turning_round": lambda node: words.Turning("", _turned(node)),
    "rib_row": lambda node: words.RibRow(node.side(), stitches_of(node.one("stitches"))),
    "rib_rows": _rib_rows,
    "rib_rounds": _rib_rows,
    "texture_row": lambda node: words.TextureRow(
        node.text("TEXTURE"), node.figures()[0], node.side(), stitches_of(node.one("stitches"))
    ),
    "texture_rows": _texture_rows,
    "mitre": _mitre,
    "mitre_rounds": _mitre_rounds,
    "hole_row": _hole_row,
    "hole_close": lambda node: words.HoleClose(_held(node.text("CAST_IN_HELD")), node.side(), *node.figures()),
    "collar_turns": _collar_turns,
    "collar_close": lambda node: words.CollarClose(node.figures()[0]),
}
"""By the name of the grammar's rule."""
