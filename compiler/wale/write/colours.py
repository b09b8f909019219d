"""The table of how the yarns of a row stand apart: in grey, to most eyes, to colour-blind ones."""

from __future__ import annotations

from wale.checks.colours import pairs
from wale.checks.used import motifs_worked
from wale.colour import ALIKE_BELOW, CLOSE_BELOW, SAME_BELOW, SIGHTS, Apart, apart
from wale.pattern import Table
from wale.plan import Plan
from wale.spec import Spec

NOTE = (
    f"In grey: the difference of lightness L*, as in a photocopy; below {ALIKE_BELOW} two colours run together, below "
    f"{CLOSE_BELOW} they tell but faintly. Most eyes: CIEDE2000; the last three columns: the same, simulated for eyes "
    f"without red, green or blue cones; below {SAME_BELOW} two colours are hardly told apart. The limits are our "
    "choice, no source. The figures are of the colours that the spec gives; yarn in the hand may differ."
)


def colour_table(spec: Spec, plan: Plan) -> tuple[Table, ...]:
    """Give the table, none where no two yarns meet in a row."""
    rows = []
    for first, second in pairs(motifs_worked(spec, plan)):
        one, other = spec.yarns[first].colour, spec.yarns[second].colour
        found = apart(one, other)
        figures = (found.grey, found.difference, *found.seen)
        names = f"{first} ({one}) and {second} ({other})"
        rows.append((names, *(f"{figure:.0f}" for figure in figures), verdict(found)))
    header = ("", "in grey", "most eyes", *SIGHTS.values(), "in words")
    return (Table("How the colours stand apart", header, tuple(rows), NOTE),) if rows else ()


def verdict(found: Apart) -> str:
    """Say in words who tells two colours apart."""
    if found.difference < SAME_BELOW:
        return "hardly different"
    words = ["run together in grey"] if found.grey < ALIKE_BELOW else []
    if ALIKE_BELOW <= found.grey < CLOSE_BELOW:
        words.append("faint in grey")
    if found.blind:
        words.append(f"alike to {' and '.join(found.blind)} eyes")
    return ", ".join(words) or "well apart to all eyes, in grey too"
