"""What git shows of one version of a spec: its own lines, and below each the numbers that it makes in the knitting.

A line of numbers starts with `=` and the address that `wale explain` knows it by; it has all sizes in bracket notation.
So git's own comparison of lines shows both what was typed otherwise and what is knitted otherwise, each in its block.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from wale.actions import Hold
from wale.parse.parser import parse
from wale.parse.tree import Block, Tree
from wale.quantity import show_length, unit_word
from wale.resolve.constructions import parted
from wale.source import Source, Span

if TYPE_CHECKING:
    from wale.driver import Compiled
    from wale.materials import Motif
    from wale.plan import PiecePlan, Plan
    from wale.spec import Spec

HEADING = "^((pattern|yarn|swatch|motif|sizes|body|piece|join|band|make|construction|let)([[:space:]].*)?)$"
"""Lines that git puts at the head of a hunk, as a POSIX extended expression."""

_SIGN = "        = "

_CHANGES = {"brick", "doubled", "drop", "flipped", "half", "mirrored", "recoloured", "shifted"}
"""Lines of a motif after which its cells are others than those that are typed."""

Fact = tuple[str, Span | None, str]
"""The block that it belongs to (its kind and name), the line in it (None: the block's end), and its words."""


def is_garment(source: Source) -> bool:
    """Say whether a file has a piece or makes one, and so numbers of its own."""
    own, _ = parted(parse(source)[0].parts)
    return any(isinstance(part, Block) and part.head.keyword.text in ("piece", "make") for part in own)


def listing(source: Source, done: Compiled) -> str:
    """Give a version's lines with its numbers, or with its errors where it has some.

    Args:
        source: the version, LF line ends.
        done: what became of it.
    """
    if done.spec is not None and done.plan is not None:
        facts = list(_facts(done.spec, done.plan))
    else:
        facts = [
            ("", found.labels[0].span if found.labels else None, f"no numbers: {found.code} {found.message}")
            for found in done.problems
            if found.is_error
        ]
    return _placed(source, facts)


def _placed(source: Source, facts: Sequence[Fact]) -> str:
    """Put facts below the lines that they belong to."""
    tree, _ = parse(source)
    typed = _typed_motifs(tree)
    ends: dict[str, int] = {}
    inside: dict[int, str] = {}
    below: dict[int, int] = {}
    for part in tree.parts:
        block = f"{part.head.keyword.text} {_name(part)}" if isinstance(part, Block) else "let"
        for one in (part.head, *part.body) if isinstance(part, Block) else (part,):
            first, last = source.place(one.span.start)[0], source.place(one.span.end)[0]
            below.update(dict.fromkeys(range(first, last + 1), last))
            inside.update(dict.fromkeys(range(first, last + 1), block))
            ends[block] = last
    lines = source.text.removesuffix("\n").split("\n")
    added: dict[int, list[str]] = defaultdict(list)
    for block, span, words in facts:
        if block in typed or (block.startswith("motif ") and block not in ends):
            continue
        makes = span.made_at if span is not None else ()
        place = makes[0] if makes else span
        line = source.place(place.start)[0] if place is not None and place.file == source.name else 0
        if not line or (block and not makes and inside.get(line) != block):
            line = ends.get(block, len(lines))
        added[below.get(line, line)].append(_SIGN + words)
    return "".join(f"{line}\n" for at, text in enumerate(lines, 1) for line in (text, *added[at]))


def _typed_motifs(tree: Tree) -> set[str]:
    """Give the motifs whose cells stand in the file as they are: nothing is gained by showing them twice."""
    typed = set()
    for part in tree.parts:
        keywords = {one.keyword.text for one in part.body} if isinstance(part, Block) else set()
        if isinstance(part, Block) and "" in keywords and not keywords & _CHANGES:
            typed.add(f"motif {_name(part)}")
    return typed


def _name(block: Block) -> str:
    first = block.head.items[0] if block.head.items else None
    return getattr(first, "text", "") if block.head.keyword.text not in ("pattern", "sizes", "join") else ""


def _facts(spec: Spec, plan: Plan) -> Iterator[Fact]:
    """Give all numbers in an order that does not change."""
    from wale.write.yarn_needed import yarn_needed

    yield "sizes ", None, f"sizes: {', '.join(plan.sizes)}"
    for needs in yarn_needed(spec, plan).yarns:
        grams = [str(need.grams) if need.grams is not None else "?" for need in needs]
        yield "pattern ", None, f"yarn {needs[0].yarn}: {_bracketed(grams)} g"
    for motif in spec.motifs.values():
        yield from ((f"motif {motif.name}", None, row) for row in _cells(motif))
    for piece in plan.pieces:
        for span, words in _piece(spec, piece):
            yield f"piece {piece.name}", span, words
    made = {band.name: band.span for band in spec.bands if band.span.made_at}
    for band in plan.bands:
        for edge, stitches in band.picked:
            yield f"band {band.name}", made.get(band.name), f"{band.name}: {_counts(stitches)} sts from {edge}"
        lengths = _lengths(spec, [rows / band.rows_per_cm for rows in band.rows])
        yield (
            f"band {band.name}",
            made.get(band.name),
            f"{band.name}: {_counts(band.stitches)} sts, {_worked(band.rows, 'round')}, {lengths}",
        )


def _piece(spec: Spec, piece: PiecePlan) -> Iterator[tuple[Span | None, str]]:
    """Give the numbers of a piece: counts at its levels, rows of its sections, neck, shoulders and crown."""
    sizes = range(len(spec.sizes))
    work = "round" if piece.in_round else "row"
    if piece.steek is not None:
        yield piece.steek.span, f"{piece.name}.steek: {piece.steek.stitches} sts"
    for level in piece.levels:
        widths = _lengths(spec, [level.width(size) for size in sizes])
        yield level.measure.span, f"{level.address}: {_counts(level.counts)} sts, {widths}"
    for step in piece.steps:
        if isinstance(step.action, Hold):
            held = [_counts(counts) for counts in zip(*piece.holders, strict=True)]
            yield step.action.span, f"{step.address}: {', '.join(held)} sts on holders"
    for section in piece.sections:
        if section.kind == "crown":
            continue  # told with its stitches below
        words = f"{section.address}: {_worked(section.rows, work)}, "
        words += _lengths(spec, [section.length(size) for size in sizes])
        if section.chart_start is not None:
            words += f", from chart row {_counts([row + 1 for row in section.chart_start])}"
        yield section.step.action.span, words
    if piece.top is not None:
        top = piece.top
        if top.neck_step is not None:
            depth = [top.depth_rows(size) for size in sizes]
            yield (
                top.neck_step.action.span,
                f"{piece.name}.neck: {_counts(top.neck)} sts, {_counts(depth)} {work}",
            )
            if top.has_placket:
                words = f"{piece.name}.placket: {_counts(top.centre)} sts, {_counts(top.placket_rows)} {work}"
                yield top.neck_step.action.span, words
        if top.shoulder_step is not None:
            words = f"{piece.name}.shoulders: {_counts(top.shoulder)} sts each, {_worked(top.slope_rows, work)}"
            yield top.shoulder_step.action.span, words
    if piece.crown is not None:
        crown = piece.crown
        words = (
            f"{piece.name}.crown: {_counts(crown.start)} sts to {_counts(crown.final)}, {_counts(crown.rounds)} rounds"
        )
        yield crown.step.action.span, words


def _cells(motif: Motif) -> Iterator[str]:
    """Give the cells of a motif, top row first, as they are typed."""
    mark = dict(motif.marks)
    for row in reversed(motif.rows):
        yield f"| {' '.join(mark.get(yarn, '?') for yarn in row)} |"


def _counts(values: Sequence[int]) -> str:
    return _bracketed([str(value) for value in values])


def _worked(rows: Sequence[int], work: str) -> str:
    return f"{_counts(rows)} {work}{'' if set(rows) == {1} else 's'}"


def _lengths(spec: Spec, values: Sequence[Fraction]) -> str:
    figures = [show_length(value, spec.units) for value in values]
    return f"{_bracketed(figures)} {unit_word(spec.units)}"


def _bracketed(figures: Sequence[str]) -> str:
    """Put one figure a size as patterns do; a single one where all are alike."""
    first, *more = figures
    return f"{first} ({', '.join(more)})" if any(figure != first for figure in more) else first
