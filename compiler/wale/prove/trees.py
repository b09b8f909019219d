"""From the parse tree of a line to its record, one builder for each kind of line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any, Literal

from wale.prove import words
from wale.prove.words import Side, Stitches

if TYPE_CHECKING:
    from lark import Token, Tree


class Node:
    """A tree seen by one size: figures give that size's number."""

    __slots__ = ("_size", "_tokens", "data", "trees")

    def __init__(self, tree: Tree[Token], size: int) -> None:
        self._size = size
        self.data = str(tree.data)
        self._tokens = [child for child in tree.children if isinstance(child, str)]
        self.trees = [Node(child, size) for child in tree.children if not isinstance(child, str)]

    def figures(self) -> list[int]:
        """Give all figures of the node itself, once and twice among them."""
        return [self._number(token) for token in self._tokens if token.type in ("FIGURE", "ORDINAL", "ONCE")]

    def _number(self, token: str) -> int:
        if token in ("once", "twice"):
            return 1 if token == "once" else 2
        first, _, rest = token.partition(" (")
        text = first if not rest or not self._size else rest.rstrip(")").split(", ")[self._size - 1]
        return int(text.rstrip("stndrh"))

    def all(self, kind: str) -> list[str]:
        """Give the texts of all tokens of a kind."""
        return [str(token) for token in self._tokens if token.type == kind]

    def text(self, kind: str) -> str:
        """Give the text of the first token of a kind, or ""."""
        return next(iter(self.all(kind)), "")

    def sides(self) -> list[Side]:
        """Give the sides named, in order."""
        names: dict[str, Side] = {"(RS)": "RS", "(WS)": "WS", "RS": "RS", "WS": "WS"}
        return [names[token] for token in self._tokens if token.type in ("SIDE", "RS_OR_WS")]

    def side(self) -> Side:
        """Give the first side named, or ""."""
        return next(iter(self.sides()), "")

    def within(self, *kinds: str) -> Iterator[Node]:
        """Give the subtrees of some kinds in order."""
        return (tree for tree in self.trees if tree.data in kinds)

    def one(self, kind: str) -> Node | None:
        """Give the first subtree of a kind, or None."""
        return next(self.within(kind), None)

    def has(self, kind: str) -> bool:
        """Say whether there is a subtree of a kind."""
        return self.one(kind) is not None


def _stitches(node: Node | None) -> Stitches:
    assert node is not None
    found: list[words.Stitch | words.Repeat] = []
    for tree in node.trees:
        if tree.data == "repeat":
            found.append(words.Repeat(_stitches(tree.one("stitches")), tree.figures()[0]))
        elif tree.text("WORK"):
            work = f"{tree.text('WORK')} {tree.text('LOOP')}".rstrip()
            found.append(words.Stitch(work, tree.figures()[0], tree.text("NAME")))
        elif tree.text("SLIP"):
            found.append(words.Stitch("sl", tree.figures()[0]))
        else:
            shaped = words.Stitch(tree.text("SHAPED"), 1)
            times = next(iter(tree.figures()), 1)
            found.append(shaped if times == 1 else words.Repeat((shaped,), times))
    return tuple(found)


def _fabric(node: Node) -> words.Fabric | None:
    for tree in node.within("chart_fabric", "plain_fabric"):
        if tree.data == "chart_fabric":
            return words.Fabric(tree.text("NAME"), _spans(tree.one("chart_rows")))
        return words.Fabric(stitch=tree.text("STITCH"), yarn=tree.text("NAME"))
    return None


def _spans(node: Node | None) -> tuple[tuple[int, int, int], ...]:
    if node is None:
        return ()
    found = [(node.figures()[0], node.figures()[0], 0)] if node.figures() else []
    for tree in node.within("span", "all_rows", "whole_chart"):
        first, *last = tree.figures()
        found.append((first, (last or [first])[0], 0) if tree.data == "span" else (0, 0, first))
    return tuple(found)


def _needed_fabric(node: Node) -> words.Fabric:
    fabric = _fabric(node)
    assert fabric is not None
    return fabric


def _schedule(node: Node, first: int) -> words.Schedule:
    then = []
    for tree in node.within("every", "every_round"):
        figures = tree.figures()
        then.append((1, figures[0]) if tree.data == "every_round" else (figures[0], figures[1]))
    return words.Schedule(first, tuple(then))


def _pairs(node: Node, kind: str) -> tuple[tuple[int, int], ...]:
    return tuple((figures[0], figures[1]) for figures in (tree.figures() for tree in node.within(kind)))


def _yarn(node: Node) -> str:
    yarn = node.one("in_yarn")
    return yarn.text("NAME") if yarn is not None else ""


def _cast_on(node: Node) -> words.CastOn:
    manner = node.one("manner")
    words_of_manner = manner.text("NAME") if manner is not None else ""
    return words.CastOn(node.figures()[0], node.text("NAME"), node.text("NEEDLE"), words_of_manner, node.has("join"))


def _even_row(node: Node) -> words.EvenRow:
    opening = node.one("crown_round")
    change, after = node.figures()
    return words.EvenRow(
        node.side(),
        opening.figures()[0] if opening is not None else 0,
        node.text("CHANGE") == "increase",
        change,
        _stitches(node.one("stitches")),
        after,
        _yarn(node),
    )


def _cord(node: Node) -> words.Cord:
    cord, count, slipped, times, last = node.figures()
    return words.Cord(_yarn(node), cord, count, _stitches(node.one("stitches")), slipped, times, last)


def _plain_rows(node: Node) -> words.PlainRows:
    in_round = node.text("ROWS").startswith("round")
    return words.PlainRows(node.text("PART"), node.figures()[0], in_round, _needed_fabric(node), node.has("from_right"))


def _turned(node: Node) -> Stitches:
    stitches = node.one("stitches")
    return _stitches(stitches) if stitches is not None else ()


def _rib_rows(node: Node) -> words.RibRows:
    knit, purl = (int(part) for part in node.text("RIB").split("x"))
    stitches = node.one("stitches")
    told = _stitches(stitches) if stitches is not None else None
    kinds = bool(node.text("TWISTED")), bool(node.text("CORRUGATED"))
    return words.RibRows(node.figures()[0], knit, purl, told, _yarn(node), node.side(), *kinds)


def _texture_rows(node: Node) -> words.TextureRows:
    rows, *cycle = node.figures()
    of, start = cycle or (1, 1)
    in_round = node.all("ROWS")[0].startswith("round")
    return words.TextureRows(node.text("TEXTURE"), rows, in_round, of, start, _yarn(node))


def _shaping_row(node: Node) -> words.ShapingRow:
    edges = [tree.figures()[0] if tree is not None else 0 for tree in (node.one("edge_sts"), node.one("last_sts"))]
    start, end = (
        tree.text("SHAPED") if tree is not None else "" for tree in (node.one("at_start"), node.one("at_end"))
    )
    rest = node.one("to_last")
    return words.ShapingRow(
        node.text("GROWTH") == "Each increase",
        node.side(),
        (edges[0], edges[1]),
        start,
        node.text("INSIDE"),
        next(iter(rest.figures()), None) if rest is not None else None,
        end,
        node.figures()[0],
        node.text("DIFFERENCE") == "more",
    )


def _shaping(node: Node) -> words.Shaping:
    first, rows, after = node.figures()
    grows = node.text("CHANGE") == "increase"
    return words.Shaping(grows, _schedule(node, first), _needed_fabric(node), rows, after)


def _bind_row(node: Node) -> words.BindRow:
    count, after = node.figures()
    where = node.one("at_chart_row")
    return words.BindRow(node.side(), count, node.text("INSIDE"), where.figures()[0] if where is not None else 0, after)


def _crown(node: Node) -> words.Crown:
    first, rounds, after = node.figures()
    return words.Crown(_schedule(node, first), _fabric(node), rounds, after)


def _top(node: Node) -> words.Top:
    chart_row = node.one("at_chart_row")
    return words.Top(
        chart_row.figures()[0] if chart_row is not None else 0, _needed_fabric(node), node.has("one_shoulder")
    )


def _half_neck(node: Node) -> words.HalfNeck:
    off = node.one("run_sts")
    assert off is not None
    return words.HalfNeck(node.figures()[0], node.side(), off.figures()[0], _neck_edge(node))


def _neck_edge(node: Node) -> words.NeckEdge | None:
    edge = node.one("neck_edge")
    if edge is None:
        return None
    decrease, figures = edge.text("SHAPED"), edge.figures()
    if not decrease:
        return words.NeckEdge(edge.side(), figures[0], _pairs(edge, "run"))
    return words.NeckEdge(edge.side(), figures[1], _pairs(edge, "every"), decrease, figures[0])


def _half_steps(node: Node) -> words.HalfShoulder:
    first = node.one("run_sts")
    assert first is not None
    more = _pairs(node, "more_steps")
    return words.HalfShoulder(False, node.figures()[0], node.side(), first.figures()[0], more)


def _turns(node: Node) -> words.ShoulderRows:
    *_, first = node.figures()
    return words.ShoulderRows(True, *_shoulders(node), first, _pairs(node, "more_turns"))


def _shoulders(node: Node) -> tuple[int, Side, int, Side]:
    """Give row and side at the right shoulder, then at the left, whichever is told first; row 0 where one is not."""
    told = dict(zip(node.all("HAND"), zip(node.figures(), node.sides(), strict=False), strict=False))
    return (*told.get("right", (0, "")), *told.get("left", (0, "")))


def _steps(node: Node) -> words.ShoulderRows:
    first = node.one("run_sts")
    assert first is not None
    more = _pairs(node, "more_steps")
    return words.ShoulderRows(False, *_shoulders(node), first.figures()[0], more)


def _neck_row(node: Node) -> words.NeckRow:
    told = node.one("counted") or node.one("after_step")
    row, *work, off = node.figures()
    work = told.figures() if told is not None else work
    counted = node.one("counted")
    needle = _hand(counted.text("HAND")) if counted is not None else ""
    bind, start, end = node.one("neck_bind"), node.one("neck_start"), node.one("neck_end")
    first = bind.one("run_sts") if bind is not None else None
    return words.NeckRow(
        node.side(),
        row,
        work[0],
        off,
        needle,
        node.has("after_step"),
        node.has("to_turn"),
        first.figures()[0] if first is not None else 0,
        _side_decrease(start, "RS", starts=True) if start is not None else None,
        _side_decrease(end, "RS", starts=False) if end is not None else None,
        end.figures()[0] if end is not None else 0,
    )


def _side_decrease(node: Node, side: Side, *, starts: bool) -> words.SideDecrease:
    edge = node.one("edge_sts") or node.one("last_sts")
    inner = node.one("at_start") or node.one("at_end") or node
    return words.SideDecrease(side, starts, inner.text("SHAPED"), edge.figures()[0] if edge is not None else 0)


def _side_edge(node: Node) -> words.SideEdge:
    name = node.text("SIDE_EDGE").split()[0].lower()
    works = tuple(_side_work(tree) for tree in node.within("side_bind", "side_shaping", "side_mark"))
    return words.SideEdge(_hand(name) if name != "side" else "", works)


def _side_work(node: Node) -> words.SideWork:
    if node.data == "side_mark":
        return words.SideWork((node.figures()[0],), mark=node.text("NAME"))
    if node.data == "side_bind":
        off = node.one("run_sts")
        assert off is not None
        return words.SideWork((node.figures()[0],), node.side(), off.figures()[0])
    told = tuple(
        _side_decrease(tree, tree.side(), starts=tree.data == "side_start")
        for tree in node.within("side_start", "side_end")
    )
    return words.SideWork(_schedule(node, node.figures()[0]).rows(), decreases=told)


def _hand(text: str) -> Literal["left", "right"]:
    return "left" if text == "left" else "right"


def _neck_side(node: Node) -> words.NeckSide:
    row = next(iter(node.figures()), 0)
    name = _hand(node.text("NECK_SIDE").split()[0].lower())
    return words.NeckSide(name, row, node.side(), _neck_edge(node))


def _wedges(node: Node) -> words.Wedges:
    columns = node.one("wedge_columns")
    count, stitches = node.figures()
    return words.Wedges(count, stitches, tuple(columns.figures()) if columns is not None else ())


def _decrease_round(node: Node) -> words.DecreaseRound:
    count, change = node.figures()
    more = node.text("DIFFERENCE") == "more"
    return words.DecreaseRound(count, node.text("INSIDE"), node.text("SHAPED"), change, more)


def _pick_up(node: Node) -> words.PickUp:
    picked = tuple((tree.figures()[0], tree.text("PLACE")) for tree in node.within("pick"))
    return words.PickUp(node.text("NEEDLE"), node.text("NAME"), picked, node.figures()[0], node.has("joined"))


def _hole_row(node: Node) -> words.HoleRow:
    first, after = node.figures()
    then: list[tuple[int, int]] = []
    for tree in node.within("hole", "holes"):
        one = tree if tree.data == "hole" else tree.one("hole")
        assert one is not None
        off, work = one.figures()
        then += [(off, work)] * (1 if tree is one else tree.figures()[0])
    return words.HoleRow(node.side(), first, tuple(then), after)


def _mitre(node: Node) -> words.Mitre:
    *marked, fewer = node.figures()
    return words.Mitre(tuple(marked), fewer)


def _mitre_rounds(node: Node) -> words.MitreRounds:
    first, rounds, after = node.figures()
    return words.MitreRounds(_schedule(node, first), rounds, after)


def _keep(node: Node) -> words.Keep:
    return words.Keep(tuple((tree.figures()[0], bool(tree.text("UNDERARM"))) for tree in node.within("kept")))


def _gather(node: Node) -> words.Gather:
    taken = tuple((tree.figures()[0], tree.text("NAME")) for tree in node.within("taken"))
    return words.Gather(node.text("NEEDLE"), node.text("NAME"), taken, node.figures()[0])


def _stripes(node: Node) -> tuple[str, ...]:
    stripes = node.one("stripes")
    return tuple(stripes.all("NAME")) if stripes is not None else ()


def _begin_rows(node: Node) -> words.BeginChart:
    row, right, wrong, width = node.figures()
    return words.BeginChart(node.text("NAME"), node.side(), row, right, wrong, width, _of_yarn(node))


def _begin_rounds(node: Node) -> words.BeginChart:
    row, right, width = node.figures()
    return words.BeginChart(node.text("NAME"), "", row, right, 0, width, _of_yarn(node))


def _of_yarn(node: Node) -> str:
    yarn = node.one("of_yarn")
    return yarn.text("NAME") if yarn is not None else ""


def _cell(node: Node) -> tuple[int, str]:
    """Give how many cells, and of what: a yarn, or a texture's stitch as it is worked; a cable's all, or those told."""
    figure = next(iter(node.figures()), 1)
    if node.text("CABLE"):
        part = node.one("cable_part")
        return part.figures()[0] if part is not None else figure, f"cable {figure} {node.text('HAND')}"
    return figure, node.text("NAME") or node.text("WORK") or node.text("SLIP") or node.text("SHAPED")


def _chart_row(node: Node) -> words.ChartRow:
    cells, same = node.one("cells"), node.one("as_row")
    assert cells is not None
    stretches, has_yarns = [], False
    for part in cells.trees:
        times = part.figures()[0] if part.data == "cells_again" else 1
        cell = [part] if part.data == "cell" else [*part.within("cell")]
        has_yarns = has_yarns or any(one.text("NAME") for one in cell)
        stretches.append((tuple(map(_cell, cell)), times))
    told = same.figures() if same is not None else []
    like, begun = told[0] if told else None, told[1] if len(told) > 1 else 0
    return words.ChartRow(node.figures()[0], node.side(), tuple(stretches), like, begun, not has_yarns)


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "cast_on": _cast_on,
    "needles": lambda node: words.Needles(node.text("NEEDLE")),
    "bind_off": lambda node: words.BindOff(node.figures()[0], node.text("WORDS").strip()),
    "cord": _cord,
    "plain_rows": _plain_rows,
    "even_row": _even_row,
    "turning_row": lambda node: words.Turning(node.side(), _turned(node)),
    "turning_round": lambda node: words.Turning("", _turned(node)),
    "hem_join": lambda node: words.HemJoin(node.figures()[0], node.side()),
    "mark_row": lambda node: words.Mark(node.text("NAME"), False),
    "mark_round": lambda node: words.Mark(node.text("NAME"), True),
    "border": lambda node: words.Border(node.figures()[0]),
    "rib_row": lambda node: words.RibRow(node.side(), _stitches(node.one("stitches"))),
    "texture_row": lambda node: words.TextureRow(
        node.text("TEXTURE"), node.figures()[0], node.side(), _stitches(node.one("stitches"))
    ),
    "texture_rows": _texture_rows,
    "rib_rows": _rib_rows,
    "rib_rounds": _rib_rows,
    "begin_rows": _begin_rows,
    "begin_rounds": _begin_rounds,
    "plain": lambda node: words.Plain(_needed_fabric(node)),
    "edge": lambda node: words.Edge(node.figures()[0], node.text("NAME")),
    "steek": lambda node: words.Steek(node.figures()[0], node.figures()[1], _stripes(node)),
    "work": lambda node: words.Work(node.figures()[0], node.text("ROWS").startswith("round"), _needed_fabric(node)),
    "shaping_row": _shaping_row,
    "shaping": _shaping,
    "bind_row": _bind_row,
    "top": _top,
    "turns": _turns,
    "steps": _steps,
    "half_neck": _half_neck,
    "half_turns": lambda node: words.HalfShoulder(
        True, node.figures()[0], node.side(), node.figures()[1], _pairs(node, "more_turns")
    ),
    "half_steps": _half_steps,
    "before": lambda node: words.Before(node.figures()[0]),
    "neck_row": _neck_row,
    "first_side": _neck_side,
    "second_side": _neck_side,
    "side_edge": _side_edge,
    "close": lambda node: words.Close(node.figures()[0], node.side(), node.figures()[1]),
    "hold": lambda node: words.Hold(*node.figures()),
    "crown_plain": lambda node: words.CrownPlain(node.text("NAME")),
    "crown_chart": lambda node: words.CrownChart(node.text("NAME")),
    "wedges": _wedges,
    "decrease_round": _decrease_round,
    "crown": _crown,
    "draw": lambda node: words.Draw(node.figures()[0]),
    "pick_up": _pick_up,
    "keep": _keep,
    "gather": _gather,
    "mitre": _mitre,
    "mitre_rounds": _mitre_rounds,
    "hole_row": _hole_row,
    "hole_close": lambda node: words.HoleClose(node.side(), *node.figures()),
    "refer": lambda node: words.Refer(node.figures()[0], node.text("NAME"), node.figures()[1]),
    "chart_row": _chart_row,
}
"""By the name of the grammar's rule."""
