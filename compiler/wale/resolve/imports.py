"""Blocks of a spec and of the files that it uses, as if their text stood in one file."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct, field

from wale.parse.tree import Block, Name, Statement, Text, Tree
from wale.problems.problem import Problem
from wale.resolve.context import Context
from wale.resolve.heading import Heading, read_heading
from wale.source import Span

Load = Callable[[Text], "tuple[Tree, list[Problem]] | None"]
SHARED = ("yarn", "swatch", "motif")
"""Blocks that a used file may hold, beside `let` lines."""
NAMED = (*SHARED, "body", "piece", "band")


class Parts(Struct):
    """What a spec is made of; named blocks are declared in the context."""

    heading: Heading | None = None
    sizes: Block | None = None
    join: Block | None = None
    lets: list[Statement] = field(default_factory=list)


def gather(context: Context, tree: Tree, load: Load) -> Parts:
    """Declare the blocks of a file and of those that it uses, used ones first."""
    context.add_source(tree)
    parts = Parts()
    for block in tree.parts:
        if isinstance(block, Block) and block.head.keyword.text == "pattern":
            if parts.heading is None:
                parts.heading = read_heading(context, block)
            else:
                _second(context, block, parts.heading.span)
    if parts.heading is not None:
        context.units = parts.heading.units
        for text in parts.heading.used:
            _use(context, text, parts, tree, load)
    for part in tree.parts:
        if isinstance(part, Statement):
            parts.lets.append(part)
        else:
            _take(context, part, parts)
    return parts


def _take(context: Context, block: Block, parts: Parts) -> None:
    kind = block.head.keyword.text
    if kind in NAMED:
        _declare(context, kind, block)
    elif kind == "sizes":
        if parts.sizes is None:
            parts.sizes = block
        else:
            _second(context, block, parts.sizes.head.span)
    elif kind == "join":
        if parts.join is None:
            parts.join = block
        else:
            _second(context, block, parts.join.head.span)


def _second(context: Context, block: Block, first: Span) -> None:
    keyword = block.head.keyword
    context.report(
        "E205",
        f"there are two `{keyword.text}` blocks",
        keyword.span,
        "the second one",
        "Put their lines into one block.",
        also=[(first, "the first one")],
    )


def _declare(context: Context, kind: str, block: Block) -> None:
    items = block.head.items
    if items and isinstance(items[0], Name):
        context.declare(kind, items[0], block)
    else:
        place = items[0].span if items else block.head.span
        context.report(
            "E203",
            f"this `{kind}` block has no name",
            place,
            "expected a name",
            f"Write `{kind} NAME`; a name is one word, hyphens allowed.",
        )


def _use(context: Context, text: Text, parts: Parts, tree: Tree, load: Load) -> None:
    loaded = load(text)
    if loaded is None:
        context.any_lost = True
        return
    used, problems = loaded
    if used.source.name == tree.source.name:
        context.report("E230", "this file uses itself", text.span, "the file itself", "Take this line away.")
        return
    if used.source.name in context.sources:
        context.report("E205", f'"{text.text}" is used twice', text.span, "the second time", "Take this line away.")
        return
    context.problems.extend(problems)
    context.add_source(used)
    for part in used.parts:
        if isinstance(part, Statement):
            parts.lets.append(part)
        elif part.head.keyword.text in SHARED:
            _take(context, part, parts)
        else:
            kind = part.head.keyword.text
            context.report(
                "E231",
                f'the used file "{text.text}" holds a `{kind}` block',
                text.span,
                "used here",
                "A used file holds yarns, swatches, motifs and `let` lines; move the rest into this file.",
                also=[(part.head.span, "not shared")],
            )
            return
