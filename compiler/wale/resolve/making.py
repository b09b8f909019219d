"""What a `make` block stands for: the blocks of a construction, with what it is given in the place of what it takes.

Values become `let` lines; ribs, counts, and names of swatches, motifs and yarns are put where the construction's own
stand, and its pieces and bands get the name of what is made in front. Its `let` lines are known by their place. So a
construction says the same as its blocks written out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from wale.parse.tree import Block, Equals, Expr, Item, Name, Number, Statement
from wale.problems.problem import Edit, Fix
from wale.resolve.constructions import GIVEN, WRITTEN, Construction, Part, Take
from wale.resolve.context import UNKNOWN, Context, near_word
from wale.resolve.renaming import Renames, placed
from wale.resolve.shapes import Line, Shape, is_rib
from wale.source import Span

_AS = "make NAME1 as NAME2"
HEAD = {"make": Shape({_AS: (), "make NAME": ()})}
LINES = {"give": Shape({"give NAME = VALUE": ()}, once=False)}
MOST = 5_000
"""Lines that all `make` blocks of a file may stand for."""


def made(context: Context, block: Block, known: Mapping[str, Construction | None]) -> tuple[Part, ...]:
    """Give the blocks and `let` lines that a `make` block stands for; none where something is wrong with it."""
    head = context.read(block.head, HEAD, "a file")
    lines, sound = context.read_body(block, LINES, "a `make` block")
    if head is None:
        context.any_lost = True
        return ()
    as_other = head.form == _AS
    wanted = head.head.name("NAME2" if as_other else "NAME")
    own = head.head.name("NAME1") if as_other else wanted
    found = known.get(wanted.text) if _is_known(context, head, own, wanted) else None
    if found is None or not context.declare("make", own, block):
        context.any_lost = True
        return ()
    given = _given(context, found, lines.get("give", []))
    if given is None or not sound or not _complete(context, block, found, given):
        context.any_lost = True
        return ()
    prefix = f"{own.text}-" if as_other else ""
    renames = _renames(found, given, prefix)
    parts = [_renamed(renames, part) for part in found.parts]
    usual = [renames.let(_let(take.name, take.usual, take.span)) for take in _usual(found, given)]
    _misspelt(context, found, renames, block.head.span)
    values = [
        _let(placed(line.head.name("NAME"), block.head.span), line.head.value("VALUE"), line.span)
        for name, line in given.items()
        if found.takes[name].kind == "value"
    ]
    return (*values, *placed((*usual, *parts), block.head.span))


def _is_known(context: Context, line: Line, own: Name, wanted: Name) -> bool:
    """See that a construction is known; where the two names stand the wrong way round, it is told."""
    there = context.blocks.get("construction", {})
    if own.text not in there or wanted.text in there or context.is_lost(wanted.text):
        return context.knows("construction", wanted)
    if context.is_news(UNKNOWN["construction"], wanted.text):
        turned = f"make {wanted.text} as {own.text}"
        context.report(
            UNKNOWN["construction"],
            f"there is no construction named `{wanted.text}`, and `{own.text}` is one",
            line.head.span,
            "the wrong way round",
            f"The new name comes first: `{turned}`.",
            fixes=[Fix(f"write `{turned}`", (Edit(line.head.span, turned),))],
        )
    return False


def lines_of(parts: tuple[Part, ...]) -> int:
    """Count the lines of blocks and statements."""
    return sum(1 + len(part.body) if isinstance(part, Block) else 1 for part in parts)


def _given(context: Context, found: Construction, lines: list[Line]) -> dict[str, Line] | None:
    """Give the `give` lines by the name of what is given; None where one is wrong."""
    given: dict[str, Line] = {}
    sound = True
    for line in lines:
        name = line.head.name("NAME")
        if name.text in given:
            context.report(
                "E205",
                f"`{name.text}` is given twice",
                line.span,
                "the second time",
                "Leave one of the two out.",
                also=[(given[name.text].span, "the first time")],
            )
            sound = False
            continue
        take = found.takes.get(name.text)
        if take is None:
            _not_taken(context, found, name)
            sound = False
            continue
        sound = _is_of_kind(context, take, line) and sound
        given[name.text] = line
    return given if sound else None


def _not_taken(context: Context, found: Construction, name: Name) -> None:
    near = near_word(name.text, found.takes)
    context.report(
        "E281",
        f"the construction `{found.name.text}` takes no `{name.text}`",
        name.span,
        f"did you mean `{near}`?" if near else "not taken",
        f"It takes: {', '.join(found.takes) or 'nothing'}.",
        fixes=[Fix(f"write `{near}`", (Edit(name.span, near),))] if near else [],
        also=[(found.name.span, "the construction")],
    )


def _is_of_kind(context: Context, take: Take, line: Line) -> bool:
    """See that a name is given where one is taken, and that it is known."""
    value = line.head.value("VALUE")
    if take.kind in WRITTEN:
        return _is_written(context, take, value)
    if take.kind not in GIVEN:
        return True
    if isinstance(value, Name):
        return context.knows(take.kind, value)
    context.report(
        "E203",
        f"`{take.name.text}` is the name of a {take.kind}, and a value is given",
        value.span,
        f"expected a {take.kind}'s name",
        f"Write `give {take.name.text} = NAME`, with the name of a `{take.kind}` block.",
        also=[(take.span, "taken here")],
    )
    return False


def _is_written(context: Context, take: Take, value: Expr) -> bool:
    """See that a rib or a count is given as it is written in a line."""
    if take.kind == "rib":
        fits, what, example = is_rib(value), "a rib", "2x2"
    else:
        fits = isinstance(value, Number) and value.unit is None and value.value.denominator == 1
        what, example = "a whole number without a unit", "8"
    if not fits:
        context.report(
            "E203",
            f"`{take.name.text}` is {what}, and something else is given",
            value.span,
            f"expected {what}",
            f"Write `give {take.name.text} = {example}`.",
            also=[(take.span, "taken here")],
        )
    return fits


def _complete(context: Context, block: Block, found: Construction, given: Mapping[str, Line]) -> bool:
    """See that all is given that the construction needs."""
    lacking = [take for name, take in found.takes.items() if name not in given and take.usual is None]
    if lacking and not context.is_damaged(block):
        names = ", ".join(f"`{take.name.text}`" for take in lacking)
        context.report(
            "E282",
            f"the construction `{found.name.text}` needs {names}",
            block.head.span,
            "not given",
            f"Add a line such as `give {lacking[0].name.text} = …`.",
            also=[(take.span, "taken here") for take in lacking],
        )
    return not lacking


def _usual(found: Construction, given: Mapping[str, Line]) -> Iterator[Take]:
    return (
        take
        for name, take in found.takes.items()
        if name not in given and take.kind == "value" and take.usual is not None
    )


def _let(name: Name, value: Item | None, span: Span) -> Statement:
    assert value is not None
    return Statement(Name("let", name.span), (name, Equals(name.span), value), (), span)


def _renames(found: Construction, given: Mapping[str, Line], prefix: str) -> Renames:
    """Give the new name of all that a construction takes and makes."""
    names: dict[tuple[str, str], str] = {}
    for part in found.parts:
        if isinstance(part, Block) and part.head.items and isinstance(name := part.head.items[0], Name):
            names[part.head.keyword.text, name.text] = prefix + name.text
    for text, take in found.takes.items():
        if take.kind == "value":
            names["value", text] = text
            continue
        value = given[text].head.value("VALUE") if text in given else take.usual
        assert isinstance(value, Name | Number)
        names[take.kind, text] = value.text if isinstance(value, Name) else str(value.value)
    return Renames(names)


def _misspelt(context: Context, found: Construction, renames: Renames, made_at: Span) -> None:
    """Report a name that the file has not and that is near to one that the construction takes."""
    for (kind, text), span in renames.left.items():
        near = near_word(text, [name for name, take in found.takes.items() if take.kind == kind])
        is_known = kind not in GIVEN or text in context.blocks.get(kind, {}) or context.is_lost(text)
        if near and not is_known and context.is_news(UNKNOWN[kind], text):
            context.report(
                UNKNOWN[kind],
                f"there is no {kind} named `{text}`",
                replace(span, made_at=(made_at,)),
                f"did you mean `{near}`?",
                f"The construction `{found.name.text}` takes `{near}`.",
            )


def report_unused(context: Context, known: Iterable[Construction | None]) -> None:
    """Report what constructions that are made take and do not use; where another slip is in one, that goes first."""
    if any(label.span.made_at for one in context.problems for label in one.labels):
        return
    for found in filter(None, known):
        renames = Renames(
            {(take.kind, name): "1" if take.kind == "count" else name for name, take in found.takes.items()}
        )
        for part in found.parts:
            _renamed(renames, part)
        for take in found.takes.values():
            if take.usual is not None:
                renames.let(_let(take.name, take.usual, take.span))
        for name, take in found.takes.items():
            if (take.kind, name) not in renames.used and not context.is_lost(name):
                context.report(
                    "E283",
                    f"the construction `{found.name.text}` takes `{name}` and does not use it",
                    take.span,
                    "used in no line",
                    "Take this line away, or use it.",
                )


def _renamed(renames: Renames, part: Part) -> Part:
    return renames.let(part) if isinstance(part, Statement) else renames.block(part)
