"""From what is asked for to the edits of a spec's text.

Input: the spec with its trees and plan, and the `Asked`. Output: a `Change`, or the problem that stands in the way.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from msgspec import Struct

from wale.materials import Swatch
from wale.parse.tree import Tree
from wale.plan import Plan
from wale.problems.nearest import there_are
from wale.problems.problem import Edit, Problem, problem, with_makes
from wale.regrade.fabrics import exchanged
from wale.regrade.gauges import BEFORE, is_same, regauged
from wale.regrade.keeping import Take, kept_counts, kept_repeats
from wale.regrade.sizing import for_body, resized
from wale.regrade.text import blocks, commented
from wale.regrade.ways import Keep, read_gauge
from wale.regrade.yarns import recoloured, takers
from wale.source import Span
from wale.spec import Spec
from wale.swatching.compare import main_swatch, why_not

Kind = Literal["gauge", "swatch", "yarn", "sizes", "body"]


class Asked(Struct, frozen=True):
    """What a garment is regraded to.

    Attributes:
        kind, words: the way, and what stands after its option.
        of: with a gauge, the swatch that it is of; "" for that of the main fabric.
        keep: what stays the same.
    """

    kind: Kind
    words: str
    of: str = ""
    keep: Keep = "lengths"


class Change(Struct, frozen=True):
    """The edits that a spec takes.

    Attributes:
        takes: by the old name of a swatch, what it becomes.
        remarks: in words, what else had to change, and what does not hold any longer.
    """

    edits: tuple[Edit, ...]
    takes: Mapping[str, Take]
    remarks: tuple[str, ...] = ()


def change(tree: Tree, used: Sequence[Tree], spec: Spec, plan: Plan, asked: Asked) -> Change | Problem:
    """Give the edits that regrade a spec.

    Args:
        tree: of the spec's own file, all of whose lines can be read; `used` are those of the files that it uses.
        plan: of the spec as it stands.

    Returns:
        The change, without an edit where nothing is different; or a problem: E211, E212, E305 a name that is not
        there, E311 no gauge, E312 a swatch or yarn that cannot take the place, E313 sizes that a list lacks.
    """
    if asked.kind in ("sizes", "body"):
        edits = resized(tree, spec, asked.words) if asked.kind == "sizes" else for_body(tree, spec, asked.words)
        return edits if isinstance(edits, Problem) else Change(tuple(edits), {})
    main = main_swatch(spec, plan)
    found = _gauge(tree, used, spec, main, asked) if asked.kind == "gauge" else _swatches(tree, spec, main, asked)
    if isinstance(found, Problem) or not found.takes:
        return found
    knits = _test_knits(tree, spec, plan, found.takes)
    more = ("test knits were of the swatch before: their lines stand as comments",) if knits else ()
    found = Change((*found.edits, *knits), found.takes, (*found.remarks, *more))
    if asked.keep == "lengths":
        return found
    if asked.keep == "motif" and all(spec.swatches[name].motif is None for name in found.takes):
        return Problem(
            "E312", f"`{main.name}` is plain, so there are no repeats to keep", help="Keep lengths or counts."
        )
    keep = kept_counts if asked.keep == "counts" else kept_repeats
    kept = keep(tree, spec, plan, found.takes)
    return _of_many(kept) or Change((*found.edits, *kept), found.takes, found.remarks)


def _of_many(edits: Sequence[Edit]) -> Problem | None:
    """Say that a line of a construction would be changed: it is read for each `make` line, and for other files."""
    first = next((edit for edit in edits if edit.span.made_at), None)
    if first is None:
        return None
    help = "Keep the lengths, or write the construction's blocks into the pattern in the place of its `make` block."
    what = "what was to be kept stands in the lines of a construction"
    wrong = problem("E314", what, first.span, "asks for it", help=help)
    return with_makes([wrong])[0]


def _test_knits(tree: Tree, spec: Spec, plan: Plan, takes: Mapping[str, Take]) -> list[Edit]:
    """Turn the test knits of pieces and bands in the fabrics that change into comments."""

    def place(span: Span) -> tuple[str, int]:
        return span.file, span.start

    names = {piece.name for piece in plan.pieces if any(level.swatch in takes for level in piece.levels)}
    changed = {place(piece.span) for piece in spec.pieces if piece.name in names}
    changed |= {place(band.span) for band in spec.bands if band.swatch in takes}
    edits = []
    for block in blocks(tree, "piece", "band"):
        if place(block.head.span) in changed:
            for statement in block.body:
                if statement.keyword.text == "knitted":
                    edits += commented(tree.source, statement, BEFORE)
    return edits


def unknown(code: str, what: str, name: str, known: Sequence[str]) -> Problem:
    """Give the problem of a name that is not there, with near ones."""
    return Problem(code, f"there is no {what} named `{name}`", help=there_are(name, known))


def _gauge(tree: Tree, used: Sequence[Tree], spec: Spec, main: Swatch, asked: Asked) -> Change | Problem:
    if asked.of and asked.of not in spec.swatches:
        return unknown("E212", "swatch", asked.of, list(spec.swatches))
    swatch = spec.swatches[asked.of] if asked.of else main
    new = read_gauge(asked.words)
    if isinstance(new, Problem):
        return new
    edits, name, lost = regauged(tree, used, spec, swatch, new)
    if not edits:
        return Change((), {})
    motif = spec.motifs[swatch.motif] if swatch.motif is not None else None
    remarks = []
    where = "the old lines stand as comments"
    if name != swatch.name:
        remarks.append(f"the swatch {swatch.name} stands in a file that others may use, so {name} is added to this one")
        where = f"the old figures are of {swatch.name}"
    if lost:
        remarks.append(f"measure anew on the new swatch: {', '.join(lost)}; {where}")
    return Change(tuple(edits), {swatch.name: Take(name, new.gauge, motif)}, tuple(remarks))


def _swatches(tree: Tree, spec: Spec, main: Swatch, asked: Asked) -> Change | Problem:
    """Put another swatch in the main one's place, or those of another yarn in the place of all in the main yarn."""
    colours: list[Edit] = []
    stays: list[str] = []
    if asked.kind == "swatch":
        if asked.words not in spec.swatches:
            return unknown("E212", "swatch", asked.words, list(spec.swatches))
        other = spec.swatches[asked.words]
        why = "" if other == main else why_not(spec, main, other)
        if why:
            return Problem(
                "E312",
                f"`{other.name}` cannot take the place of `{main.name}`: {why}",
                help="`wale swatches` tells which swatches can.",
            )
        found = {main.name: other}
    else:
        if asked.words not in spec.yarns:
            return unknown("E211", "yarn", asked.words, list(spec.yarns))
        if asked.words == main.yarns[0]:
            return Change((), {})
        taken = takers(spec, main, asked.words)
        if isinstance(taken, Problem):
            return taken
        found, stays = taken
        colours = recoloured(tree, main.yarns[0], asked.words)
    edits, remarks = exchanged(tree, spec, found)
    takes = {
        name: Take(other.name, other.washed, spec.motifs[other.motif] if other.motif is not None else None)
        for name, other in found.items()
        if other.name != name
    }
    same = [name for name, take in takes.items() if is_same(spec.swatches[name].washed, take.gauge)]
    remarks += [f"the swatch {takes[name].name} has the gauge of {name}" for name in same]
    return Change((*edits, *colours), takes, (*remarks, *stays))
