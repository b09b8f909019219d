"""Why each number of a plan is what it is: formula, inputs, rules, and what its neighbours would cost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from wale.actions import Rib
from wale.explain.bands import band_reasons
from wale.explain.book import Book, Draft, Units, counts_of, layouts_of, reason_of
from wale.explain.candidates import Models, models_of, weigh
from wale.explain.caps import cap_reasons, pocket_reasons
from wale.explain.counts import count_reasons
from wale.explain.courses import course_reasons
from wale.explain.crowns import crown_reasons
from wale.explain.details import begins, hem_details, make_detail, piece_details, rib_details
from wale.explain.even import even_reasons, rib_reasons
from wale.explain.joining import joining_reasons
from wale.explain.lengths import length_reasons
from wale.explain.reason import Candidate, Input, Reason
from wale.explain.rows import row_reasons
from wale.explain.tops import top_reasons
from wale.plan import COURSED, Plan
from wale.source import Source
from wale.spec import Spec
from wale.write.context import Context

__all__ = ["Candidate", "Input", "Reason", "drafted", "explained", "reasons", "told", "weigh"]


def reasons(spec: Spec, plan: Plan, sources: Mapping[str, Source] | None = None) -> tuple[Reason, ...]:
    """Give a reason for every number of the plan, by address in knitting order, sizes in order.

    Args:
        sources: the files by the name in their spans; with them the body measures inside `let` lines are found too.

    Returns:
        Reasons without candidates, which `weigh` adds to those that are asked for.
    """
    return explained(spec, plan, sources)[0]


def explained(
    spec: Spec, plan: Plan, sources: Mapping[str, Source] | None = None, sizes: Sequence[int] | None = None
) -> tuple[tuple[Reason, ...], Models]:
    """Give the reasons of some sizes (None: all), and the models that `weigh` solves anew."""
    drafts, models = drafted(spec, plan, sources, sizes)
    return told(drafts, models, spec.units), models


def drafted(
    spec: Spec,
    plan: Plan,
    sources: Mapping[str, Source] | None = None,
    sizes: Sequence[int] | None = None,
    owner: str = "",
    extra: Iterable[tuple[int, str]] = (),
    *,
    charts_in_words: bool = True,
) -> tuple[tuple[Draft, ...], Models]:
    """Give all reasons as drafts, which cost little, in the order of `reasons`; `told` puts those wanted into words.

    Args:
        owner: the piece or band whose numbers are wanted; empty: all.
        extra: (size, piece or band) whose numbers are wanted too.
        charts_in_words: whether the figures of chart rows are wanted, of which there are many.
    """
    layouts = layouts_of(spec)
    book = Book(spec, plan, sources or {}, layouts, range(len(plan.sizes)) if sizes is None else sizes)
    for size, name in (*((size, owner) for size in book.sizes), *extra):
        _size(book, size, name)
    _page(book, owner)
    if charts_in_words and owner in ("", "chart"):
        from wale.explain.charting import word_reasons

        word_reasons(book)
    order = {address: place for place, address in enumerate(_order(book.drafts))}
    models = models_of(plan, counts_of(plan, layouts))
    return tuple(sorted(book.drafts, key=lambda one: order[one.address])), models


def told(drafts: Sequence[Draft], models: Models, units: Units = "cm") -> tuple[Reason, ...]:
    """Put drafts into words; `units` are those of the pattern's lengths."""
    why = models.why({one.unknown for one in drafts if one.unknown})
    return tuple(reason_of(one, why, units, models.modulus(one.unknown)) for one in drafts)


def _order(found: Sequence[Draft]) -> list[str]:
    """Give the addresses of all sizes in knitting order: one that a size has alone follows the one before it."""
    following: dict[str, list[str]] = {}
    known: set[str] = set()
    before = ""
    for reason in found:
        if reason.address not in known:
            known.add(reason.address)
            following.setdefault(before, []).insert(0, reason.address)
        before = reason.address
    order, waiting = [], following.get("", [])
    while waiting:
        order.append(waiting.pop())
        waiting += following.get(order[-1], [])
    return order


def _size(book: Book, size: int, owner: str) -> None:
    for piece in book.plan.pieces:
        if owner not in ("", piece.name):
            continue
        at = Context(book.spec, book.plan, piece, size)
        count_reasons(book, piece, size)
        for index, section in enumerate(piece.sections):
            first, last = piece.levels[section.first], piece.levels[section.last]
            before, after = (first.address, first.counts[size]), (last.address, last.counts[size])
            span = section.step.action.span
            if isinstance(section.step.action, Rib) and section.step.action.multiple is not None:
                rib_reasons(book, at, section.address, before, section.step.action.multiple, at.edge, span)
            if section.even_change is not None and section.even_change[size]:
                even_reasons(book, at, f"{section.address}.even", before, after, span)
            if section.even_start is not None and section.even_start[size]:
                below = piece.levels[piece.sections[index - 1].last]
                even_reasons(book, at, f"{section.address}.evened", (below.address, below.counts[size]), before, span)
            begins(book, section, size)
            row_reasons(book, at, section, index)
            if section.kind == "crown":
                crown_reasons(book, at, section)
            elif section.kind in COURSED:
                course_reasons(book, at, section)
        joining_reasons(book, piece, size)
        if piece.top is not None:
            top_reasons(book, at)
        length_reasons(book, at)
        cap_reasons(book, piece.name, size)
        pocket_reasons(book, piece, size)
        hem_details(book, piece, size)
    for band, planned in zip(book.spec.bands, book.plan.bands, strict=True):
        if owner in ("", band.name):
            band_reasons(book, Context(book.spec, book.plan, book.plan.pieces[0], size), band, planned)


def _page(book: Book, owner: str) -> None:
    """Tell what the pattern prints beside its pieces' and bands' lines; and their small numbers, alike in all sizes."""
    for piece in book.plan.pieces:
        if owner in ("", piece.name):
            piece_details(book, piece)
    for band, planned in zip(book.spec.bands, book.plan.bands, strict=True):
        if owner in ("", band.name):
            rib_details(book, f"{planned.name}.rib", band.rib, in_round=True)
            make_detail(book, planned)
    from wale.explain.bodies import body_reasons
    from wale.explain.charting import chart_reasons, strand_reasons
    from wale.explain.colours import colour_reasons
    from wale.explain.crown_floats import crown_float_reasons
    from wale.explain.gauges import gauge_reasons
    from wale.explain.notes import note_reasons
    from wale.explain.rings import ring_reasons
    from wale.explain.yarns import yarn_reasons

    for heads, reasons_of in (
        (("body",), body_reasons),
        (("ring",), ring_reasons),
        (("yarn",), yarn_reasons),
        (("gauge", "needles", "swatch"), gauge_reasons),
        (("chart", "floats"), chart_reasons),
        (("crown-floats",), crown_float_reasons),
        (("rests", "overs"), strand_reasons),
        (("colour",), colour_reasons),
        (("assumption", "weight", "care", "estimate"), note_reasons),
    ):
        if not owner or owner in heads:
            reasons_of(book)
