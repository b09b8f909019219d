"""How the yarns of a row stand apart: a table of figures, and the fabric as colour-blind eyes see it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from wale.checks.colours import pairs
from wale.checks.used import motifs_worked
from wale.colour import ALIKE_BELOW, CLOSE_BELOW, SAME_BELOW, SIGHTS, Apart, apart, as_seen, lightness
from wale.pattern import Drawing, Drawings, Table
from wale.plan import Plan
from wale.spec import Spec

NOTE = (
    f"In grey: the difference of lightness L*, as in a photocopy; below {ALIKE_BELOW} two colours run together, below "
    f"{CLOSE_BELOW} they tell but faintly. Most eyes: CIEDE2000; the last three columns: the same, simulated for eyes "
    f"without red, green or blue cones; below {SAME_BELOW} two colours are hardly told apart. The limits are our "
    "choice, no source. The figures are of the colours that the spec gives; yarn in the hand may differ."
)

EYES_NOTE = (
    "The fabrics of the pieces, simulated for eyes without red, green or blue cones: Viénot, Brettel and Mollon 1999, "
    "and Brettel, Viénot and Mollon 1997 for the last."
)


def told_pairs(spec: Spec, plan: Plan, *, every: bool = False) -> tuple[tuple[str, str], ...]:
    """Give the yarns that meet in a row and are so close in lightness that their figures matter, or every such two.

    The others are well apart to all eyes, and the colour library takes longer to load than the words take to write.
    """
    found = []
    for first, second in pairs(motifs_worked(spec, plan)):
        lights = [lightness(spec.yarns[name].colour) for name in (first, second)]
        if every or abs(lights[0] - lights[1]) < CLOSE_BELOW:
            found.append((first, second))
    return tuple(found)


def colour_table(spec: Spec, plan: Plan, *, every: bool = False) -> tuple[Table, ...]:
    """Give the table of the `told_pairs`, none where there are none."""
    rows = []
    for first, second in told_pairs(spec, plan, every=every):
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
    return ", ".join(words) or "well apart"


def to_other_eyes(patches: Sequence[Drawing]) -> Drawings:
    """Give each patch of fabric as the three kinds of colour-blind eyes see it."""
    found = []
    for patch in patches:
        name = patch.caption.partition(":")[0]
        for sight, eyes in SIGHTS.items():
            colours = {colour for part in patch.parts for row in part.tile for colour in row}
            seen = {colour: as_seen(colour, sight) for colour in colours}
            parts = tuple(
                replace(part, tile=tuple(tuple(seen[colour] for colour in row) for row in part.tile))
                for part in patch.parts
            )
            found.append(Drawing(parts, f"{patch.words}, to {eyes} eyes", f"{name} to {eyes} eyes"))
    return Drawings("The fabrics to colour-blind eyes", EYES_NOTE, tuple(found))
