"""Names of sizes: the table that a `sizes` line takes, and which of its sizes."""

from __future__ import annotations

from wale.parse.tree import Block, Item, Name, Number, Ratio
from wale.problems.problem import Edit, Fix
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Match
from wale.sizes import GROUPS, SizeTable, group
from wale.source import Span

MOST_SIZES = 40


def names_of(context: Context, match: Match) -> list[tuple[str, Span]]:
    """Give the sizes that a line names, each with its place."""
    return [(_size_name(context, item), item.span) for item in match.found.get("SIZE", ())]


def _size_name(context: Context, item: Item) -> str:
    if isinstance(item, Name):
        return item.text
    assert isinstance(item, Number | Ratio)
    return context.cut(item.span)


def table_named(
    context: Context, named: list[tuple[str, Span]], own: bool
) -> tuple[SizeTable | None, list[tuple[str, Span]]]:
    """Give the published table that the first name is, or None, and the other names."""
    first, place = named[0]
    if first in GROUPS:
        return group(first), named[1:]
    near = near_word(first, GROUPS)
    if near and not own and len(named) > 1:
        context.report(
            "E216",
            f"there is no table of sizes for `{first}`",
            place,
            f"did you mean `{near}`?",
            f"Tables: {', '.join(GROUPS)}.",
            fixes=[Fix(f"write `{near}`", (Edit(place, near),))],
        )
        return group(near), named[1:]
    return None, named


def checked_names(
    context: Context, named: list[tuple[str, Span]], table: SizeTable | None, block: Block
) -> dict[str, Span] | None:
    """Give the size names in order; unknown, doubled or disordered ones are reported."""
    if not named:
        context.report(
            "E206",
            "no size is named",
            block.head.span,
            "only the table",
            f"Name its sizes, such as `sizes {table.group} {' '.join(table.names[:3])}`." if table else "",
        )
        return None
    if len(named) > MOST_SIZES:
        context.report(
            "E223",
            f"{len(named)} sizes are more than {MOST_SIZES}",
            block.head.span,
            "too many sizes",
            "Split the pattern.",
        )
        return None
    found: dict[str, Span] = {}
    places: dict[str, Span] = {}
    last = -1
    sound = True
    for name, span in named:
        body = table.size(name) if table else None
        if table and body is None:
            sound = False
            near = near_word(name, [one for one in table.names if one not in dict(named)])
            context.report(
                "E216",
                f"{_called(table)} has no size `{name}`",
                span,
                f"did you mean `{near}`?" if near else "unknown size",
                f"Its sizes: {', '.join(table.names)}. {table.left_out}".strip(),
                fixes=[Fix(f"write `{near}`", (Edit(span, near),))] if near else [],
            )
            continue
        key = body.name if body else name
        if key in places:
            sound = False
            context.report(
                "E207",
                f"the size `{name}` stands twice",
                span,
                "the second one",
                "Leave one of them out.",
                also=[(places[key], "the first one")],
            )
            continue
        index = table.names.index(key) if table else last + 1
        if index < last:
            sound = False
            context.report(
                "E226",
                f"`{name}` is smaller than the size before it",
                span,
                "sizes go from small to large",
                f"Write them in the order of the table: {', '.join(table.names) if table else ''}.",
            )
        last = max(last, index)
        found[name] = places[key] = span
    return found if sound else None


def _called(table: SizeTable) -> str:
    return f"the table for {table.group}" if table.group else f'the table "{table.source}"'
