"""From the tree of a file to its spec.

Input: the tree, and a way to load used files. Output: the spec, or None when an error stands, and every problem met.
One slip gives one problem: what could not be resolved is poison to those who use it.
"""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Mark
from wale.parse.tree import Tree
from wale.problems.problem import Problem
from wale.resolve.context import Context, near_word
from wale.resolve.heading import Heading
from wale.resolve.imports import Load, Parts, gather
from wale.resolve.joins import read_band, read_joins
from wale.resolve.making import report_unused
from wale.resolve.motifs import read_motifs
from wale.resolve.names import Names
from wale.resolve.notes import note_bodies, note_edges, note_ribs
from wale.resolve.pieces import Pieces, levels
from wale.resolve.sizes import BODY_HEAD, read_sizes
from wale.resolve.swatches import read_swatches
from wale.resolve.workshop import Workshop
from wale.resolve.yarns import read_yarns
from wale.source import Span
from wale.spec import Piece, Spec

WIDTH_TOLERANCE = LENGTH_TOLERANCE = Fraction(3, 2)
FLOAT_LIMIT = Fraction(5, 2)


def resolve(tree: Tree, load: Load) -> tuple[Spec | None, list[Problem]]:
    """Give the spec of a file.

    Args:
        tree: the parsed file.
        load: gives the tree of a file named in a `use` line and the problems of parsing it, or None when it has
            reported a problem of its own (missing, outside the folder).

    Returns:
        The spec, or None when an error stands here or a line could not be read; problems in the order of their places.
    """
    context = Context()
    parts = gather(context, tree, load)
    yarns = read_yarns(context, context.blocks.get("yarn", {}))
    motifs = read_motifs(context, context.blocks.get("motif", {}), yarns)
    swatches = read_swatches(context, context.blocks.get("swatch", {}), yarns, motifs)
    bodies = {name: block for name, block in context.blocks.get("body", {}).items()}
    for block in bodies.values():
        context.read(block.head, BODY_HEAD, "a file")
    sizing = read_sizes(context, parts.sizes, bodies, load)
    blocks = context.blocks.get("piece", {})
    names = Names(context, sizing, frozenset(blocks))
    for statement in parts.lets:
        names.add_let(statement)
    names.check_lets()
    shop = Workshop(context, names, yarns, swatches, motifs)
    pieces = Pieces(shop)
    made = pieces.read(blocks)
    by_name = {piece.name: piece for piece in made}
    joins = tuple(join for block in parts.joins for join in read_joins(shop, block, by_name))
    bands = tuple(
        band
        for name, block in context.blocks.get("band", {}).items()
        if (band := read_band(shop, name, block, by_name)) is not None
    )
    _check_places(context, names, shop, by_name)
    note_bodies(context, sizing, names.used)
    note_edges(context, made, joins)
    note_ribs(context, made, bands, swatches)
    report_unused(context, parts.made.values())
    heading = _complete(context, tree, parts, made)
    problems = _in_order(context, tree)
    if heading is None or context.dropped or context.any_lost or any(problem.is_error for problem in problems):
        return None, problems
    tolerance = heading.width_tolerance or _default_tolerance(context)
    lengths = heading.length_tolerance or _default_length_tolerance(context)
    if heading.float_limit is None and any(not motif.is_texture for motif in motifs.values()):
        context.assume("Floats may be {} long; a line `floats` changes it.", values=(FLOAT_LIMIT,))
    spec = Spec(
        heading.title,
        heading.about,
        heading.paper,
        heading.units,
        sizing.group,
        sizing.all,
        yarns,
        swatches,
        motifs,
        made,
        joins,
        bands,
        tuple(context.assumptions),
        tolerance,
        lengths,
        heading.float_limit or (FLOAT_LIMIT, "length"),
        heading.preferences,
        heading.version,
        tuple(heading.changes),
    )
    return spec, problems


def _default_tolerance(context: Context) -> Fraction:
    text = "Widths of a piece may miss their wish by {}; a line `tolerance` changes it."
    context.assume(text, values=(WIDTH_TOLERANCE,))
    return WIDTH_TOLERANCE


def _default_length_tolerance(context: Context) -> Fraction:
    text = "Lengths may miss their wish by {}; a line `tolerance lengths` changes it."
    context.assume(text, values=(LENGTH_TOLERANCE,))
    return LENGTH_TOLERANCE


def _check_places(context: Context, names: Names, shop: Workshop, pieces: dict[str, Piece]) -> None:
    """Check references to levels and marks, now that all pieces are known; a broken piece is poison."""
    for address, span in names.solved.items():
        owner, _, level = address.partition(".")
        if owner in pieces and level not in (known := levels(pieces[owner].steps)):
            near = near_word(level, known)
            context.report(
                "E216",
                f"the piece `{owner}` has no level `{level}`",
                span,
                f"did you mean `{owner}.{near}`?" if near else "no such level",
                f"Its levels: {', '.join(known)}. A level is named by the first measure in its width.",
            )
    for piece, mark in shop.meets:
        if not context.knows("piece", piece) or piece.text not in pieces:
            continue
        marks = [step.action.name for step in pieces[piece.text].steps if isinstance(step.action, Mark)]
        if mark.text not in marks:
            near = near_word(mark.text, marks)
            context.report(
                "E216",
                f"the piece `{piece.text}` has no mark `{mark.text}`",
                mark.span,
                f"did you mean `{near}`?" if near else "no such mark",
                f"Its marks: {', '.join(marks) or 'none'}; a line `mark {mark.text}` makes one.",
            )


def _complete(context: Context, tree: Tree, parts: Parts, made: tuple[Piece, ...]) -> Heading | None:
    """Report what a whole spec needs and this one lacks."""
    start = Span(tree.source.name, 0, 0)
    if parts.heading is None and not context.dropped:
        context.report(
            "E206",
            "the file has no `pattern` block",
            start,
            "nothing names the pattern",
            'Add a block such as `pattern "Millrace"`. A file of yarns and swatches is there for others to `use`.',
        )
    elif parts.heading is not None and not context.dropped:
        place = parts.heading.span
        if not context.blocks.get("piece") and not context.any_lost:
            context.report(
                "E206",
                "the pattern has no pieces",
                place,
                "nothing to knit",
                "Add a block such as `piece back, worked flat`.",
            )
        if parts.sizes is None and not context.blocks.get("body"):
            context.report(
                "E206",
                "the pattern has no sizes",
                place,
                "for whom?",
                "Add a line such as `sizes women S M L`, or a `body` block.",
            )
    return parts.heading


def _in_order(context: Context, tree: Tree) -> list[Problem]:
    """Give the problems in the order of their places, the main file's first."""
    main = tree.source.name

    def place(problem: Problem) -> tuple[bool, str, int]:
        if not problem.labels:
            return (False, "", 0)
        span = problem.labels[0].span
        return (span.file != main, span.file, span.start)

    return sorted(context.problems, key=place)
