"""The `piece` blocks: steps with their addresses, levels with their names, and pieces made `as` another."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from wale.actions import BindSides, CastOn, Edge, Evenly, Fabric, Hem, Joining, Mark, Steek, Step
from wale.actions import Shape as Shaping
from wale.parse.tree import Block, Name
from wale.resolve.amounts import whole
from wale.resolve.context import Context, near_word
from wale.resolve.halves import HALVES, read_half
from wale.resolve.halves import LINES as HALF_LINES
from wale.resolve.inherit import merge
from wale.resolve.knitted import read_knitted
from wale.resolve.shapes import Line, Shape
from wale.resolve.steps import LINES, REPEATED, read_edge, read_steek, read_step
from wale.resolve.swatches import FLAT, ROUND, worked
from wale.resolve.workshop import Placed, Workshop
from wale.source import Span
from wale.spec import Piece

HEAD = {"piece": Shape({"piece NAME": (FLAT, ROUND, "as PIECE", "make NUMBER", *HALVES)})}


NO_STEPS = ("edge", "knitted", "steek", *HALF_LINES)
"""Lines of a piece that are no steps of it."""


class Pieces(Struct):
    """Pieces that could be resolved, in file order, and the state of the others."""

    shop: Workshop
    heads: dict[str, Line] = field(default_factory=dict)
    found: dict[str, Piece | None] = field(default_factory=dict)
    _open: list[str] = field(default_factory=list)

    def read(self, blocks: Mapping[str, Block]) -> tuple[Piece, ...]:
        """Read all pieces; those made `as` another after the other one."""
        for name, block in blocks.items():
            head = self.shop.context.read(block.head, HEAD, "a file")
            if head is None:
                self.found[name] = None
            else:
                self.heads[name] = head
        for name in blocks:
            self._piece(name, blocks)
        return tuple(piece for name in blocks if (piece := self.found[name]) is not None)

    def _piece(self, name: str, blocks: Mapping[str, Block]) -> Piece | None:
        if name in self.found:
            return self.found[name]
        self._open.append(name)
        found = self._read_one(name, blocks)
        self._open.pop()
        self.found.setdefault(name, found)
        return self.found[name]

    def _read_one(self, name: str, blocks: Mapping[str, Block]) -> Piece | None:
        context, block, head = self.shop.context, blocks[name], self.heads[name]
        base: Piece | None = None
        poisoned = False
        if "as PIECE" in head.options:
            other = head.options["as PIECE"].name("PIECE")
            base = self._base(other, blocks)
            poisoned = base is None
        in_round = self._in_round(head, block, base, poisoned)
        make = whole(context, head.options["make NUMBER"].number("NUMBER")) if "make NUMBER" in head.options else 1
        if make is not None and make > 100:
            context.report("E223", f"a piece made {make} times is beyond all bounds", head.span, "too many", "")
            make = None
        lines = self._lines(block)
        edge_lines = [line for line in lines if line.keyword == "edge"]
        edge = self._edge(edge_lines, base, bool(in_round), name)
        steek_lines = [line for line in lines if line.keyword == "steek"]
        steek = self._steek(steek_lines, base, bool(in_round))
        self.shop.is_cut = steek is not None
        half = read_half(self.shop, block, head, base, lines)
        knitted = read_knitted(self.shop, [line for line in lines if line.keyword == "knitted"])
        worked_lines = [line for line in lines if line.keyword not in NO_STEPS]
        placed = [read_step(self.shop, line, bool(in_round)) for line in worked_lines]
        steps = [step for step in placed if step is not None]
        sound = len(lines) == len(block.body) and len(steps) == len(placed) and not context.is_damaged(block)
        if (
            poisoned
            or not sound
            or in_round is None
            or make is None
            or edge is None
            or knitted is None
            or (steek_lines and steek is None)
            or half is False
        ):
            return None
        if base is None:
            made: tuple[Step, ...] | None = label_levels(number(name, steps))
            if not _starts_well(context, block, steps):
                return None
        else:
            made = merge(context, name, base, steps)
        if made is None or not _levels_known(context, name, made) or not _marks_differ(context, made):
            return None
        _note_hem(context, made)
        return Piece(name, block.head.span, in_round, make, edge, made, knitted, steek, half)

    def _base(self, other: Name, blocks: Mapping[str, Block]) -> Piece | None:
        context = self.shop.context
        if not context.knows("piece", other):
            return None
        if other.text in self._open:
            context.report(
                "E217",
                f"`{other.text}` is made as itself: {' → '.join((*self._open, other.text))}",
                other.span,
                "comes back to itself",
                "One of these pieces needs lines of its own.",
            )
            for name in self._open:
                self.found[name] = None
            return None
        return self._piece(other.text, blocks)

    def _in_round(self, head: Line, block: Block, base: Piece | None, poisoned: bool) -> bool | None:
        if FLAT not in head.options and ROUND not in head.options:
            if base is not None:
                return base.in_round
            if poisoned:
                return False
        return worked(self.shop.context, head, block, "piece")

    def _lines(self, block: Block) -> list[Line]:
        context = self.shop.context
        read: list[Line] = []
        once: dict[str, Line] = {}
        for statement in block.body:
            line = context.read(statement, LINES, "a `piece` block")
            if line is None:
                continue
            if LINES[line.keyword].once and line.keyword in once:
                context.twice(line, once[line.keyword])
                continue
            once.setdefault(line.keyword, line)
            read.append(line)
        return read

    def _edge(self, lines: list[Line], base: Piece | None, in_round: bool, name: str) -> Edge | None:
        if lines:
            edge = read_edge(self.shop, lines[0])
            if edge is not None and in_round and edge.stitches:
                self.shop.context.report(
                    "E250",
                    "a piece in the round has no edges",
                    edge.span or lines[0].span,
                    "edge stitches",
                    "Leave this line out, or work the piece flat.",
                )
                return None
            return edge
        if base is not None:
            return base.edge
        if in_round:
            return Edge(0, None)
        return Edge(1, None)

    def _steek(self, lines: list[Line], base: Piece | None, in_round: bool) -> Steek | None:
        if not lines:
            return base.steek if base is not None and in_round else None
        if not in_round:
            self.shop.context.report(
                "E250",
                "a piece worked flat has nothing to cut open",
                lines[0].span,
                "a steek",
                "Leave this line out, or work the piece in the round.",
            )
            return None
        return read_steek(self.shop, lines[0])


def number(name: str, steps: list[Placed]) -> list[Step]:
    """Give steps their addresses: `back.cast-on`, `back.shape[2]`, and `back.underarm` for a mark."""
    counts: dict[str, int] = {}
    found = []
    for step in steps:
        counts[step.keyword] = counts.get(step.keyword, 0) + 1
        found.append(Step(address(name, step, counts[step.keyword]), step.action))
    return found


def address(name: str, step: Placed, count: int) -> str:
    """Give the address of a step that is the `count`-th of its keyword in its piece."""
    if isinstance(step.action, Mark):
        return f"{name}.{step.action.name}"
    return f"{name}.{step.keyword}[{count}]" if step.keyword in REPEATED else f"{name}.{step.keyword}"


def label_levels(steps: list[Step]) -> tuple[Step, ...]:
    """Give each shaping its level's name: its own, else the first measure in its width; a second one gets `-2`."""
    taken: dict[str, int] = {}
    found = []
    for step in steps:
        action = step.action
        if isinstance(action, CastOn):
            taken[level_of(action)] = 1
        if isinstance(action, Shaping | Evenly | BindSides):
            wanted = action.label or level_of(action)
            taken[wanted] = taken.get(wanted, 0) + 1
            label = wanted if taken[wanted] == 1 else f"{wanted}-{taken[wanted]}"
            step = replace(step, action=replace(action, label=label))
        found.append(step)
    return tuple(found)


def level_of(action: CastOn | Shaping | Evenly | BindSides) -> str:
    """Give the name of the level that an action leads to: the first measure in its width, or its keyword."""
    if isinstance(action, BindSides):
        return "above-bind-off"
    if isinstance(action, CastOn) and action.label:
        return action.label
    if action.width is not None and action.width.names:
        return action.width.names[0]
    unnamed = {CastOn: "cast-on", Shaping: "shape", Evenly: "evenly"}
    return unnamed[type(action)]


def levels(steps: tuple[Step, ...]) -> dict[str, Span]:
    """Give the names of a piece's levels and their places."""
    found: dict[str, Span] = {}
    for step in steps:
        if isinstance(step.action, CastOn):
            found[level_of(step.action)] = step.action.span
        if isinstance(step.action, Joining):
            found["joined"] = step.action.span
        if isinstance(step.action, Shaping | Evenly | BindSides):
            found[step.action.label] = step.action.span
    return found


def _starts_well(context: Context, block: Block, steps: list[Placed]) -> bool:
    if not any(isinstance(step.action, CastOn | Joining) for step in steps):
        context.missing(block, "a `cast on` line", "cast on bust/2 in plain")
        return False
    first = next(step for step in steps if step.keyword != "note")
    if not isinstance(first.action, CastOn | Joining):
        span = next(step.action.span for step in steps if isinstance(step.action, CastOn | Joining))
        context.report(
            "E251",
            "a piece starts with its cast-on",
            first.action.span,
            "stands before the cast-on",
            "Move the `cast on` line to the top.",
            also=[(span, "the cast-on")],
        )
        return False
    seen_fabric: Span | None = None
    for step in steps:
        if isinstance(step.action, Hem) and seen_fabric is not None:
            context.report(
                "E251",
                "a hem follows the cast-on",
                step.action.span,
                "too late",
                "Move the `hem` line up, right below the `cast on` line.",
                also=[(seen_fabric, "before it")],
            )
            return False
        if step.keyword not in ("cast-on", "join", "hem", "note"):
            seen_fabric = seen_fabric or step.action.span
    return True


def _levels_known(context: Context, name: str, steps: tuple[Step, ...]) -> bool:
    known = levels(steps)
    for step in steps:
        if not isinstance(step.action, Fabric):
            continue
        for level in step.action.fit.at:
            if level not in known:
                near = near_word(level, known)
                context.report(
                    "E216",
                    f"the piece `{name}` has no level `{level}`",
                    step.action.fit.span,
                    f"did you mean `{near}`?" if near else "no such level",
                    f"Its levels: {', '.join(known)}. A level is named by the first measure in its width.",
                )
                return False
    return True


def _marks_differ(context: Context, steps: tuple[Step, ...]) -> bool:
    places: dict[str, Span] = {}
    known = levels(steps)
    for step in steps:
        if isinstance(step.action, Mark):
            name, span = step.action.name, step.action.span
            first = places.get(name) or known.get(name)
            if first is not None or name in LINES or name in ("cast-on", "bind-off", "fabric"):
                context.report(
                    "E207",
                    f"the mark `{name}` has the name of another place in this piece",
                    span,
                    "not free",
                    "Choose another name.",
                    also=[(first, "the other place")] if first else [],
                )
                return False
            places[name] = span
    return True


def _note_hem(context: Context, steps: tuple[Step, ...]) -> None:
    cast_on = next((step.action for step in steps if isinstance(step.action, CastOn)), None)
    if cast_on is not None and cast_on.narrower is None and any(isinstance(step.action, Hem) for step in steps):
        context.assume(
            "The facing of a folded hem is cast on 3 percent narrower than what it backs; "
            "`cast on …, 5 percent narrower` changes it.",
            "common practice (facings are 3 to 10 percent narrower), no source",
            cast_on.span,
        )
