"""From the parse tree of a line to its record, one builder for each kind of line."""

from wale.prove.trees import crowns, edges, ends, rows, tops
from wale.prove.trees.node import Node

BUILDERS = ends.BUILDERS | edges.BUILDERS | rows.BUILDERS | tops.BUILDERS | crowns.BUILDERS
"""By the name of the grammar's rule."""

__all__ = ["BUILDERS", "Node"]
