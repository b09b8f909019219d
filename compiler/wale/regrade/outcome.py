"""What became of a garment: before and after, and what of it a knitter would look at."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from wale.compare.comparison import Garment
from wale.compare.numbers import Number, compared, told_once
from wale.problems.problem import Problem
from wale.regrade.change import Asked, Change
from wale.regrade.counted import as_they_are
from wale.regrade.fitting import Fitted, fitted
from wale.regrade.keeping import not_kept, other_repeats
from wale.spec import Spec


class Outcome(Struct, frozen=True):
    """A garment regraded.

    Attributes:
        refusals: why there is no new spec, else empty; `after` is then what the counts make, or None.
        news: problems that the new spec has and the old one has not, errors apart.
        fits: whom each size fits, where counts or repeats are kept.
    """

    asked: Asked
    change: Change
    before: Garment
    after: Garment | None
    refusals: tuple[Problem, ...] = ()
    news: tuple[Problem, ...] = ()
    fits: tuple[Fitted, ...] = ()


def numbers(before: Garment, after: Garment) -> tuple[Number, ...]:
    """Give all numbers of both garments for the sizes of the new one; what a piece takes over is told once."""
    from wale.outputs.plan_json import plan_dict

    old, new = (plan_dict(one.spec, one.plan, (), {}) for one in (before, after))
    return told_once(compared(old, new, after.plan.sizes))


def outcome(
    asked: Asked,
    change: Change,
    before: Garment,
    old: Sequence[Problem],
    after: Garment | None,
    new: Sequence[Problem],
) -> Outcome:
    """Hold what was made against what was asked.

    Args:
        before: the garment as it stands, with its problems `old`.
        after: that of the changed text, with its problems `new`; None where it is refused.
    """
    refusals = tuple(one for one in new if one.is_error)
    if not refusals and after is not None:
        lost = _not_kept(asked, change, before, after)
        refusals = () if lost is None else (lost,)
    same_motifs = all(_motif(before.spec, name) == take.motif for name, take in change.takes.items())
    if refusals:
        after = None
        if asked.keep == "counts" and change.takes and same_motifs:
            after = Garment(*as_they_are(before.spec, before.plan, change.takes))
    known = {(one.code, one.message) for one in old}
    news = () if refusals else tuple(one for one in new if not one.is_error and (one.code, one.message) not in known)
    fits = fitted(after.spec, after.plan) if after is not None and asked.keep != "lengths" else ()
    return Outcome(asked, change, before, after, refusals, news, fits)


def _not_kept(asked: Asked, change: Change, before: Garment, after: Garment) -> Problem | None:
    if asked.keep == "counts":
        return not_kept(before.plan, after.plan, change.takes)
    if asked.keep == "motif":
        return other_repeats(before.plan, after.plan, before.spec, change.takes)
    return None


def _motif(spec: Spec, swatch: str) -> object:
    name = spec.swatches[swatch].motif
    return spec.motifs[name] if name is not None else None
