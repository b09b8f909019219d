"""Blocks of a spec and of the files that it uses, as if their text stood in one file."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec import Struct, field

from wale.parse.tree import Block, Name, Statement, Text, Tree
from wale.problems.problem import Problem
from wale.resolve.constructions import WORD, Construction, Part, parted, read_construction
from wale.resolve.context import Context
from wale.resolve.heading import Heading, read_heading
from wale.resolve.making import MOST, lines_of, made
from wale.source import Span

Load = Callable[[Text], "tuple[Tree, list[Problem]] | None"]
SHARED = ("yarn", "swatch", "motif")
"""Blocks that a used file may hold, beside `let` lines and constructions."""
NAMED = (*SHARED, "body", "piece", "band")


class Parts(Struct):
    """What a spec is made of; named blocks are declared in the context."""

    heading: Heading | None = None
    sizes: Block | None = None
    joins: list[Block] = field(default_factory=list)
    lets: list[Statement] = field(default_factory=list)
    makes: list[Block] = field(default_factory=list)
    constructions: dict[str, Construction | None] = field(default_factory=dict)

    @property
    def made(self) -> dict[str, Construction | None]:
        """The constructions that `make` blocks name."""
        heads = (block.head.items[-1:] for block in self.makes)
        names = dict.fromkeys(item.text for items in heads for item in items if isinstance(item, Name))
        return {name: self.constructions.get(name) for name in names}


def gather(context: Context, tree: Tree, load: Load) -> Parts:
    """Declare the blocks of a file and of those that it uses, used ones first, and what its `make` blocks stand for."""
    context.add_source(tree)
    parts = Parts()
    own, constructions = parted(tree.parts)
    for block in own:
        if isinstance(block, Block) and block.head.keyword.text == "pattern":
            if parts.heading is None:
                parts.heading = read_heading(context, block)
            else:
                _second(context, block, parts.heading.span)
    if parts.heading is not None:
        context.units = parts.heading.units
        for text in parts.heading.used:
            _use(context, text, parts, tree, load)
    for part in own:
        _take(context, part, parts)
    _construct(context, constructions, parts)
    _make(context, parts)
    _all_made(context, tree, parts)
    return parts


def _construct(context: Context, constructions: list[Sequence[Part]], parts: Parts) -> None:
    """Declare the constructions of a file."""
    for block, *below in constructions:
        assert isinstance(block, Block)
        name = _name(context, block)
        if name is not None and context.declare(WORD, name, block):
            parts.constructions[name.text] = read_construction(context, block, below)


def _make(context: Context, parts: Parts) -> None:
    """Take in what the `make` blocks stand for."""
    total = 0
    for block in parts.makes:
        found = made(context, block, parts.constructions)
        total += lines_of(found)
        if total > MOST:
            context.report(
                "E130",
                f"the constructions that are made have more than {MOST} lines together",
                block.head.span,
                "too many from here on",
                "Part the pattern into several.",
            )
            return
        for part in found:
            _take(context, part, parts)


def _all_made(context: Context, tree: Tree, parts: Parts) -> None:
    """Report the constructions of a pattern's file that nothing makes: nobody would ever read their lines."""
    if parts.heading is None:
        return
    made = parts.made
    for name, block in context.blocks.get(WORD, {}).items():
        if block.span.file == tree.source.name and name not in made and not context.is_lost(name):
            context.report(
                "E284",
                f"the construction `{name}` is not made",
                block.head.span,
                "no `make` line names it",
                f"Add a line `make {name}`, or move it into a file of its own that patterns `use`.",
            )


def _take(context: Context, part: Part, parts: Parts) -> None:
    if isinstance(part, Statement):
        parts.lets.append(part)
        return
    block, kind = part, part.head.keyword.text
    if kind in NAMED:
        _declare(context, kind, block)
    elif kind == "make":
        parts.makes.append(block)
    elif kind == "sizes":
        if parts.sizes is None:
            parts.sizes = block
        else:
            _second(context, block, parts.sizes.head.span)
    elif kind == "join":
        before = [one for one in parts.joins if one.head.span.made_at == block.head.span.made_at]
        if before:
            _second(context, block, before[0].head.span)
        else:
            parts.joins.append(block)


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
    name = _name(context, block)
    if name is not None:
        context.declare(kind, name, block)


def _name(context: Context, block: Block) -> Name | None:
    """Give a block's name; report it where it has none."""
    kind, items = block.head.keyword.text, block.head.items
    if items and isinstance(items[0], Name):
        return items[0]
    place = items[0].span if items else block.head.span
    context.report(
        "E203",
        f"this `{kind}` block has no name",
        place,
        "expected a name",
        f"Write `{kind} NAME`; a name is one word, hyphens allowed.",
    )
    return None


def _use(context: Context, text: Text, parts: Parts, tree: Tree, load: Load) -> None:
    loaded = load(text)
    if loaded is None:
        context.any_lost = True
        return
    used, problems = loaded
    if not used.source.name.endswith(".wale"):
        context.report(
            "E231",
            f'"{text.text}" is no file of yarns, swatches, motifs or constructions',
            text.span,
            "used here",
            f'Take this line away; a table of sizes is named by `sizes from "{text.text}"`.',
        )
        return
    if used.source.name == tree.source.name:
        context.report("E230", "this file uses itself", text.span, "the file itself", "Take this line away.")
        return
    if used.source.name in context.sources:
        context.report("E205", f'"{text.text}" is used twice', text.span, "the second time", "Take this line away.")
        return
    context.problems.extend(problems)
    context.add_source(used)
    own, constructions = parted(used.parts)
    _construct(context, constructions, parts)
    for part in own:
        if isinstance(part, Statement) or part.head.keyword.text in SHARED:
            _take(context, part, parts)
        else:
            kind = part.head.keyword.text
            context.report(
                "E231",
                f'the used file "{text.text}" holds a `{kind}` block',
                text.span,
                "used here",
                "A used file holds yarns, swatches, motifs, `let` lines and constructions; move the rest here.",
                also=[(part.head.span, "not shared")],
            )
            return
