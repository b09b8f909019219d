"""Two versions of a garment and all that differs between them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from msgspec import Struct

from wale.compare.cells import MotifChange, motif_changes
from wale.compare.numbers import Json, Number, compared, sizes_of
from wale.compare.renamed import renamed, renamings
from wale.compare.wordings import Wording, wordings
from wale.plan import Plan
from wale.spec import Spec


class Garment(Struct, frozen=True):
    """A spec with its plan."""

    spec: Spec
    plan: Plan


class Version(Struct, frozen=True):
    """One side of a comparison.

    Attributes:
        name: what it was called on the command line.
        plan: the solved plan as data, see docs/plan-json.md.
        garment: what the plan was written from, where a spec is at hand; None for a bare plan.
    """

    name: str
    plan: Json
    garment: Garment | None = None


class Told(Struct, frozen=True):
    """A warning, caution or note, or an assumption (without a code), that one version tells and the other does not.

    What is to be done about it, `help`, may differ where both tell it.
    """

    code: str
    severity: str
    message: str
    help: str
    size: str


class Comparison(Struct, frozen=True):
    """What differs between two versions.

    Attributes:
        sizes: the sizes that are compared, in the order of the new version; all values of `numbers` are in it.
        gone_sizes, new_sizes: names of sizes that only the old, only the new version has.
        gone_parts, new_parts: names of pieces and bands, likewise.
        renamed: old and new name of pieces and bands that were renamed; everything else is told by the new name.
        numbers: all numbers, those that stay too; of parts that came or went none.
        motifs: motifs that are not the same.
        wordings: all else that is said otherwise.
        lost, gained: what only the old, only the new version warns of, in its order.
        assumed_before, assumed_after: what only the one or the other takes for granted.
    """

    old: Version
    new: Version
    sizes: tuple[str, ...]
    gone_sizes: tuple[str, ...]
    new_sizes: tuple[str, ...]
    gone_parts: tuple[str, ...]
    new_parts: tuple[str, ...]
    renamed: tuple[tuple[str, str], ...]
    numbers: tuple[Number, ...]
    motifs: tuple[MotifChange, ...]
    wordings: tuple[Wording, ...]
    lost: tuple[Told, ...]
    gained: tuple[Told, ...]
    assumed_before: tuple[Told, ...]
    assumed_after: tuple[Told, ...]

    @property
    def changes(self) -> tuple[Number, ...]:
        """The numbers that differ."""
        return tuple(one for one in self.numbers if one.differs)

    @property
    def is_knit_alike(self) -> bool:
        """Whether the same is knitted: the same sizes, pieces, numbers, cells and ways, whatever else is said."""
        knitted = (one for one in self.changes if one.kind not in ("asked width", "asked length", "grams", "cost"))
        parts = (self.gone_sizes, self.new_sizes, self.gone_parts, self.new_parts, self.motifs)
        return not any(parts) and not any(knitted) and not any(one.is_knitting for one in self.wordings)

    @property
    def is_same(self) -> bool:
        """Whether nothing differs but the lines, layout and comments of the specs, and words for the same measures."""
        told = (self.lost, self.gained, self.assumed_before, self.assumed_after, self.renamed, self.wordings)
        return self.is_knit_alike and not self.changes and not any(told)


def compare(old: Version, new: Version, sizes: Sequence[str] = ()) -> Comparison:
    """Compare two versions.

    Args:
        sizes: names of the sizes to compare, none for all that both have.
    """
    names = renamings(old.plan, new.plan)
    before, after = renamed(old.plan, names), new.plan
    olds, news = sizes_of(before), sizes_of(after)
    both = tuple(one for one in news if one in olds and (not sizes or one in sizes))
    gone, came = (
        tuple(one["name"] for part in ("pieces", "bands") for one in plan[part] if one["name"] not in _parts(other))
        for plan, other in ((before, after), (after, before))
    )
    before, after = (_without(plan, (*gone, *came)) for plan in (before, after))
    assumed = [[Told("", "", one["text"], "", "") for one in plan["assumptions"]] for plan in (old.plan, new.plan)]
    warned = [
        [Told(one["code"], one["severity"], one["message"], one["help"], one["size"]) for one in plan["problems"]]
        for plan in (old.plan, new.plan)
    ]
    if sizes:
        warned = [[one for one in told if not one.size or one.size in sizes] for told in warned]
    words = wordings(before, after)
    motifs = motif_changes(before, after)
    numbers = compared(before, after, both)
    if not motifs and not any(one.is_knitting for one in words) and not any(one.differs for one in numbers):
        words = (*words, *_row_by_row(before, after, both))
    return Comparison(
        old,
        new,
        both,
        tuple(one for one in olds if one not in news and not sizes),
        tuple(one for one in news if one not in olds and not sizes),
        gone,
        came,
        tuple(names.items()),
        numbers,
        motifs,
        words,
        _only(warned[0], warned[1]),
        _only(warned[1], warned[0]),
        _only(assumed[0], assumed[1]),
        _only(assumed[1], assumed[0]),
    )


def _parts(plan: Json) -> set[str]:
    return {one["name"] for part in ("pieces", "bands") for one in plan[part]}


def _without(plan: Json, names: Sequence[str]) -> Json:
    """Give a plan without some pieces and bands."""
    kept = {part: [one for one in plan[part] if one["name"] not in names] for part in ("pieces", "bands")}
    return {**plan, **kept}


def _only(some: Sequence[Told], others: Sequence[Told]) -> tuple[Told, ...]:
    """Give what is in the first list and not in the second, as often as it is there more."""
    left, found = Counter(map(_message, others)), []
    for one in some:
        if left[_message(one)]:
            left[_message(one)] -= 1
        else:
            found.append(one)
    return tuple(found)


def _message(one: Told) -> tuple[str, str, str]:
    return one.code, one.message, one.size


def _row_by_row(before: Json, after: Json, sizes: Sequence[str]) -> tuple[Wording, ...]:
    """Say which pieces have other rows although each of their numbers stays."""
    found = []
    others = {piece["name"]: piece for piece in after["pieces"]}
    for one in before["pieces"]:
        tables = [{table["size"]: table for table in piece["rows"]} for piece in (one, others[one["name"]])]
        differ = [size for size in sizes if tables[0][size] != tables[1][size]]
        if differ:
            found.append(Wording(one["name"], "row by row", "", ", ".join(differ), True))
    return tuple(found)
