"""A spec in memory regraded, and what came of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from msgspec import Struct
from support import SPEC, world

from wale.driver import Compiled, check_source
from wale.parse.parser import parse
from wale.parse.tree import Block, Statement
from wale.plan import Plan
from wale.problems.problem import Problem
from wale.regrade.change import Asked, Change, change
from wale.regrade.text import edited
from wale.source import Source


class Regraded(Struct, frozen=True):
    """The change, the new text, and what becomes of both texts in the compiler."""

    change: Change
    text: str
    before: Compiled
    after: Compiled


def checked_source(text: str) -> Compiled:
    """Check a spec beside the mill's yarns."""
    return check_source(world(text), Source(SPEC, text))


def regraded(text: str, **asked: str) -> Regraded | Problem:
    """Regrade a spec that has a plan."""
    before = checked_source(text)
    assert before.spec is not None and before.plan is not None
    tree = parse(Source(SPEC, text))[0]
    used = [parse(source)[0] for name, source in before.sources.items() if name != SPEC]
    found = change(tree, used, before.spec, before.plan, Asked(**asked))  # type: ignore[arg-type]
    if isinstance(found, Problem):
        return found
    new = edited(tree.source, found.edits)
    return Regraded(found, new, before, checked_source(new))


def done(text: str, **asked: str) -> Regraded:
    """Regrade a spec where nothing stands in the way."""
    found = regraded(text, **asked)
    assert isinstance(found, Regraded), found
    return found


def counts(plan: Plan | None) -> dict[str, tuple[int, ...]]:
    """Give all stitches and rows of a plan by address."""
    assert plan is not None
    found = {}
    for piece in plan.pieces:
        found |= {f"{level.address} sts": level.counts for level in piece.levels}
        found |= {f"{section.address} rows": section.rows for section in piece.sections}
        if piece.top is not None:
            found |= {f"{piece.name} neck": piece.top.neck, f"{piece.name} shoulder": piece.top.shoulder}
    for band in plan.bands:
        found |= {f"{band.name} sts": band.stitches, f"{band.name} rows": band.rows}
    return found


def statements(text: str) -> Iterator[Statement]:
    """Give all statements of a text."""
    tree = parse(Source(SPEC, text))[0]
    if tree.edition is not None:
        yield tree.edition
    for part in tree.parts:
        yield from (part.head, *part.body) if isinstance(part, Block) else (part,)


def comments(text: str) -> Counter[str]:
    """Give the comments of a text and how often each stands."""
    tree = parse(Source(SPEC, text))[0]
    found: Counter[str] = Counter(line.strip() for line in tree.tail)
    for one in statements(text):
        notes = (*one.trivia.above, *one.trivia.inner, one.trivia.trailing)
        found.update(note.strip() for note in notes if note.strip().startswith("--"))
    return Counter({note: number for note, number in found.items() if note.startswith("--")})
