"""The lines of a spec that name a swatch, and what they become when another takes its place."""

from __future__ import annotations

from collections.abc import Mapping

from wale.draft.repeats import matching_axes
from wale.materials import Swatch
from wale.parse.tree import Item, Name, Small, Statement, Tree
from wale.problems.problem import Edit
from wale.regrade.given import given, worked
from wale.regrade.text import parts_of, rewritten
from wale.source import Span
from wale.spec import Spec

_NAMING = ("cast", "hem", "work", "pick")


def named_swatch(part: tuple[Item, ...]) -> Name | None:
    """Give the swatch that a part of a line ends with: `in easy`, `on easy`."""
    if len(part) > 1 and isinstance(part[-1], Name) and isinstance(part[-2], Small) and part[-2].text in ("in", "on"):
        return part[-1]
    return None


def naming(tree: Tree) -> list[tuple[Statement, Name]]:
    """Give each line of pieces and bands that names a swatch, with the word that does."""
    found = []
    for statement, taken in worked(tree, "piece", "band"):
        if statement.keyword.text in _NAMING:
            names = [name for part in parts_of(statement) if (name := named_swatch(part)) is not None]
            found += [(statement, name) for name in names[-1:] if name.text not in taken]
    return found


def renamed(tree: Tree, old: str, new: str) -> list[Edit]:
    """Name another swatch wherever one is named."""
    names = [*(name for _, name in naming(tree)), *given(tree)]
    return [Edit(name.span, new) for name in names if name.text == old]


def exchanged(tree: Tree, spec: Spec, takes: Mapping[str, Swatch]) -> tuple[list[Edit], list[str]]:
    """Put other swatches in the place of some, with their motifs.

    Args:
        takes: by the name of a swatch, the one that takes its place.

    Returns:
        The edits, and in words what else had to change.
    """
    edits: list[Edit] = []
    remarks: dict[str, None] = {}
    for statement, name in naming(tree):
        other = takes.get(name.text)
        if other is None or other.name == name.text:
            continue
        old = spec.swatches[name.text]
        is_work = statement.keyword.text == "work"
        if is_work and old.motif != other.motif:
            edits += _work(tree, spec, statement, other, remarks)
        elif statement.keyword.text == "hem" and other.motif is not None:
            remarks[f"a hem's front stays on {old.name}, for {other.name} is in a motif"] = None
        else:
            edits.append(Edit(name.span, other.name))
    for name in given(tree):
        other = takes.get(name.text)
        if other is not None and other.name != name.text:
            if spec.swatches[name.text].motif != other.motif:
                remarks[f"{other.name} is in another motif, and what else its construction is given stays"] = None
            edits.append(Edit(name.span, other.name))
    return edits, list(remarks)


def _work(tree: Tree, spec: Spec, statement: Statement, other: Swatch, remarks: dict[str, None]) -> list[Edit]:
    """Give the edits of a `work in` line that goes on in another motif, or in none."""
    source = tree.source
    if other.motif is None:
        if statement.options:
            remarks[f"the swatch {other.name} is plain, so how the motif was placed is left out"] = None
        return [rewritten(source, statement, f"in {other.name}")]
    motif = spec.motifs[other.motif]
    items = statement.items
    first, last = items[1], items[-1]
    if len(items) == 2:  # `in SWATCH`
        centred = ", centred" if motif.axes() else ""
        remarks[f"the motif {motif.name} is placed{' centred' if centred else ''}, as the file places no motif"] = None
        return [rewritten(source, statement, f"in {motif.name} on {other.name}{centred}")]
    edits = [Edit(first.span, motif.name), Edit(last.span, other.name)]
    for part in statement.options:
        words = [getattr(item, "text", "") for item in part]
        axis = words[3] if words[:3] == ["centred", "on", "the"] else None
        if axis in ("stitch", "gap", "first") and not matching_axes(motif, axis):
            remarks[f"the motif {motif.name} has no mirror axis on the {axis}, so it is placed without"] = None
            edits.append(Edit(Span(source.name, part[0].span.end, part[-1].span.end), ""))
    return edits
