"""Other sizes for a spec, or one of its made-to-measure bodies alone: heads, lists of values, and test knits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wale.parse.tree import Binary, Block, Call, Item, Negative, PerSize, Small, Statement, Text, Tree
from wale.problems.nearest import there_are
from wale.problems.problem import Edit, Problem, problem
from wale.regrade.text import (
    block_of,
    blocks,
    commented,
    end_of_line,
    length_list,
    line_end,
    margin,
    parts_of,
    rewritten,
)
from wale.sizes import GROUPS, group
from wale.source import Source, Span
from wale.spec import Spec

GONE = "not among the sizes"


def resized(tree: Tree, spec: Spec, words: str) -> list[Edit] | Problem:
    """Give a spec other sizes.

    Args:
        words: what stands after `sizes`: names, perhaps with their table before them; commas may part them.

    Returns:
        The edits; E313 where a list of values has none for a size, E216 or E305 where there is no such size.
    """
    block = next(iter(blocks(tree, "sizes")), None)
    if block is None:
        return Problem("E313", "the spec has no `sizes` line, only bodies", help="Name one of them with `--body`.")
    asked = words.replace(",", " ").split()
    table = spec.group
    if asked and asked[0] in GROUPS:
        table, asked = asked[0], asked[1:]
    old = [size.name for size in spec.sizes if not size.made_to_measure]
    known = old if not table else list(group(table).names)
    for name in asked:
        if name not in known:
            return Problem("E305", f"there is no size `{name}`", help=there_are(name, known))
    if not asked:
        return Problem("E305", "no size is named", help=f'Name some, such as `--sizes "{" ".join(known[:3])}"`.')
    names = sorted(dict.fromkeys(asked), key=known.index)
    if names == old and table == spec.group:
        return []
    bodies = range(len(old), len(spec.sizes))
    kept = [old.index(name) if name in old and table == spec.group else None for name in names] + list(bodies)
    edits = _lists(tree, block, spec, kept, [*names, *(spec.sizes[index].name for index in bodies)])
    if isinstance(edits, Problem):
        return edits
    file = [tree.source.cut(item.span) for item in block.head.items if isinstance(item, Small | Text)]
    head = rewritten(tree.source, block.head, " ".join([*file, *([table] if table else []), *names]))
    return [head, *edits, *_tests(tree, {*names, *(spec.sizes[index].name for index in bodies)})]


def for_body(tree: Tree, spec: Spec, name: str) -> list[Edit] | Problem:
    """Give a spec for one of its made-to-measure bodies alone; the ease that it has from the sizes is written to it."""
    bodies = [size.name for size in spec.sizes if size.made_to_measure]
    if name not in bodies:
        there = there_are(name, bodies) if bodies else "Add a block such as `body mine` with its lines."
        return Problem("E305", f"the spec has no body `{name}`", help=there)
    if len(spec.sizes) == 1:
        return []
    source = tree.source
    index = [size.name for size in spec.sizes].index(name)
    sizes = next(iter(blocks(tree, "sizes")), None)
    edits = _lists(tree, sizes, spec, [index], [name])
    if isinstance(edits, Problem):
        return edits
    block = block_of(tree, "body", name)
    assert block is not None
    stated = {getattr(part[0], "text", "") for one in block.body for part in parts_of(one) if _is(one, "ease") and part}
    own = spec.sizes[index]
    eases = [
        f"ease {measure} {length_list([value], spec.units, 4)}"
        for measure, value in own.ease.items()
        if measure not in stated
    ]
    if eases:
        last = block.body[-1]
        end = _end(source, last)
        lines = "".join(f"{line_end(source)}{margin(source, last)}{one}" for one in eases)
        edits.append(Edit(end, lines))
    for other in blocks(tree, "sizes", "body"):
        if other is not block:
            for statement in (other.head, *other.body):
                edits += commented(source, statement, GONE if statement is other.head else "")
    return [*edits, *_tests(tree, {name})]


def _is(statement: Statement, keyword: str) -> bool:
    return statement.keyword.text == keyword


def _end(source: Source, statement: Statement) -> Span:
    place = end_of_line(source, statement.span.end)
    return Span(source.name, place, place)


def _tests(tree: Tree, names: set[str]) -> list[Edit]:
    """Turn test knits of sizes that are gone into comments."""
    edits = []
    for block in blocks(tree, "piece", "band"):
        for statement in block.body:
            if _is(statement, "knitted") and tree.source.cut(statement.items[-1].span) not in names:
                edits += commented(tree.source, statement, GONE)
    return edits


def _lists(
    tree: Tree, sizes: Block | None, spec: Spec, kept: Sequence[int | None], names: Sequence[str]
) -> list[Edit] | Problem:
    """Cut each list of values to those of the sizes kept; lists of the `sizes` block have none for bodies."""
    graded = sum(not size.made_to_measure for size in spec.sizes)
    edits = []
    for statement in _statements(tree):
        in_sizes = sizes is not None and statement in sizes.body
        if in_sizes and all(at is not None and at >= graded for at in kept):
            continue
        places = [at for at in kept if not in_sizes or at is None or at < graded]
        for found in _found(statement):
            if None in places:
                missing = names[kept.index(None)]
                return problem(
                    "E313",
                    f"this list has no value for size {missing}",
                    found.span,
                    "one value a size",
                    help=f"Write it with a value for {missing} first, or choose among the sizes that it has.",
                )
            if len(found.values) == (graded if in_sizes else len(spec.sizes)):
                edits.append(Edit(found.span, _told(tree.source, found, [at for at in places if at is not None])))
    return edits


def _told(source: Source, found: PerSize, places: Sequence[int]) -> str:
    first, *others = (source.cut(found.value_spans[at]) for at in places)
    unit = f" {found.unit}" if found.unit else ""
    return f"{first} ({', '.join(others)}){unit}" if others else f"{first}{unit}"


def _statements(tree: Tree) -> Iterator[Statement]:
    for part in tree.parts:
        if isinstance(part, Block):
            if part.head.keyword.text != "body":
                yield from part.body
        else:
            yield part


def _found(statement: Statement) -> Iterator[PerSize]:
    for part in parts_of(statement):
        for item in part:
            yield from _inside(item)


def _inside(item: Item) -> Iterator[PerSize]:
    match item:
        case PerSize():
            yield item
        case Negative(operand):
            yield from _inside(operand)
        case Binary(_, left, right):
            yield from _inside(left)
            yield from _inside(right)
        case Call(_, arguments):
            for argument in arguments:
                yield from _inside(argument)
