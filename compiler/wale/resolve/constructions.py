"""A designer's own constructions: what each takes, and the blocks that stand below its line.

They reach to the next construction or to the end of the file, so that blocks keep to the left edge wherever they stand.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from wale.parse.tree import Block, Expr, Name, Statement
from wale.resolve.context import Context
from wale.resolve.renaming import BODIES
from wale.resolve.shapes import Line, Shape
from wale.sizes import DEFAULTS, measure_name
from wale.source import Span

WORD = "construction"
HEAD = {WORD: Shape({"construction NAME": ()})}
GIVEN = ("swatch", "motif", "yarn")
"""Kinds of names that a construction may take, beside values."""
WRITTEN = ("rib", "count")
"""Kinds of what a construction may take as it is written: `2x2`, or a whole number without a unit."""
LINES = {
    "takes": Shape(
        {
            "takes NAME": (),
            "takes NAME = VALUE": (),
            "takes swatch NAME": (),
            "takes swatch NAME = SWATCH": (),
            "takes motif NAME": (),
            "takes motif NAME = MOTIF": (),
            "takes yarn NAME": (),
            "takes yarn NAME = YARN": (),
            "takes rib NAME": (),
            "takes rib NAME = RIB": (),
            "takes count NAME": (),
            "takes count NAME = NUMBER": (),
        },
        once=False,
    )
}

Part = Block | Statement


class Take(Struct, frozen=True):
    """What a construction takes, a value or one of another kind, and the `usual` one, taken where none is given."""

    kind: str
    name: Name
    usual: Expr | None
    span: Span


class Construction(Struct, frozen=True):
    """A construction: what it takes, by name, and its blocks and `let` lines."""

    name: Name
    takes: dict[str, Take]
    parts: tuple[Part, ...]


def parted(parts: Sequence[Part]) -> tuple[Sequence[Part], list[Sequence[Part]]]:
    """Part a file into what stands above its constructions, and each of them with what stands below its line."""
    heads = [at for at, part in enumerate(parts) if isinstance(part, Block) and part.head.keyword.text == WORD]
    ends = [*heads, len(parts)]
    return parts[: ends[0]], [parts[first:after] for first, after in zip(heads, ends[1:], strict=True)]


def read_construction(context: Context, block: Block, below: Sequence[Part]) -> Construction | None:
    """Read a construction; None where its head or one of its `takes` lines cannot be read."""
    head = context.read(block.head, HEAD, "a file")
    lines, sound = context.read_body(block, LINES, f"a `{WORD}` block")
    takes: dict[str, Take] = {}
    for line in lines.get("takes", []):
        take = _take(line)
        sound = _is_free(context, take, takes) and sound
        takes.setdefault(take.name.text, take)
    sound = _may_stand(context, block, below) and sound
    return Construction(head.head.name("NAME"), takes, tuple(below)) if head is not None and sound else None


def _take(line: Line) -> Take:
    words = line.form.split()
    kind = words[1] if len(words) > 2 and words[1] in (*GIVEN, *WRITTEN) else "value"
    slot = words[-1] if "=" in words else ""
    return Take(kind, line.head.name("NAME"), line.head.value(slot) if slot else None, line.span)


def _is_free(context: Context, take: Take, takes: dict[str, Take]) -> bool:
    """See that what is taken has a name of its own, which is no body measure."""
    text = take.name.text
    if text in takes:
        also = [(takes[text].name.span, "the first time")]
        why, way = f"`{text}` is taken twice", "Give one of the two another name."
    elif "." in text or (take.kind == "value" and measure_name(text) is not None and text not in DEFAULTS):
        also, why = [], "the name has a dot" if "." in text else f"`{text}` is a body measure already"
        way = "Choose another name, such as `girth` for what may be given as `bust`."
    else:
        return True
    context.report("E207", why, take.name.span, "not free", way, also=also)
    return False


def _may_stand(context: Context, head: Block, below: Sequence[Part]) -> bool:
    """See that only blocks that a construction may hold stand below its line."""
    for part in below:
        if isinstance(part, Block) and part.head.keyword.text not in BODIES:
            keyword = part.head.keyword
            context.report(
                "E285",
                f"a `{keyword.text}` block stands below a `{WORD}` line",
                keyword.span,
                "no part of a construction",
                "A construction holds `piece`, `join`, `band` and `let`, and reaches to the end of the file; move this "
                "above it.",
                also=[(head.head.span, "it begins here")],
            )
            return False
    return True
