"""The yarns and swatches of a file, whatever else stands in it: for commands that make something for a spec."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from wale.materials import Swatch, Yarn
from wale.parse.tree import Tree
from wale.problems.problem import Problem
from wale.resolve.context import Context
from wale.resolve.imports import Load, gather
from wale.resolve.motifs import read_motifs
from wale.resolve.swatches import read_swatches
from wale.resolve.yarns import read_yarns


class Stock(Struct, frozen=True):
    """The yarns and swatches that could be read, those of used files among them; broken ones are left out."""

    yarns: Mapping[str, Yarn]
    swatches: Mapping[str, Swatch]


def stock(tree: Tree, load: Load) -> tuple[Stock, list[Problem]]:
    """Give the yarns and swatches of a file, and the problems met on the way; arguments as for `resolve`."""
    context = Context()
    gather(context, tree, load)
    yarns = read_yarns(context, context.blocks.get("yarn", {}))
    motifs = read_motifs(context, context.blocks.get("motif", {}), yarns)
    return Stock(yarns, read_swatches(context, context.blocks.get("swatch", {}), yarns, motifs)), context.problems
