"""Floats on the proven fabric: knitted from the printed words, counted stitch by stitch, held against the lists."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from prove_patterns import FILES, STRANDED, compiled
from support import written

from wale.checks.crown_floats import CrownFloat, crown_floats
from wale.checks.floats import Float, catches, long_floats, most_stitches
from wale.checks.resting import edges_alone, overs
from wale.driver import Compiled
from wale.materials import Motif
from wale.prove import proof
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC, Fabric, Row
from wale.write.facts import facts, printed

CROWNS = ("hat-knitted-hem", "hat-uneven-wedges", "hat-chart-crown")
"""Variants whose crowns are in a motif: in even wedges, after a round that evens out, in a chart of their own."""


def knitted(done: Compiled, monkeypatch: pytest.MonkeyPatch) -> list[Fabric]:
    """Give the fabrics that the printed words make, once they are proven; every piece in every size."""
    assert done.plan is not None
    names = {piece.name for piece in done.plan.pieces}
    fabrics = [fabric for fabric in knitted_all(done, monkeypatch) if fabric.piece in names]
    assert len(fabrics) == len(names) * len(done.sizes)
    return fabrics


def knitted_all(done: Compiled, monkeypatch: pytest.MonkeyPatch) -> list[Fabric]:
    """Give the fabrics of pieces and bands."""
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    found: list[Fabric] = []
    measure = proof._measure

    def kept(*given):
        found.extend(fabric for fabric, _ in given[2].values())
        return measure(*given)

    with monkeypatch.context() as patch:
        patch.setattr(proof, "_measure", kept)
        page = printed(done.spec, done.plan, done.pattern, done.sizes)
        assert proof.prove(page, facts(done.spec, done.plan, done.sizes)) == []
    return found


def swatch_of(done: Compiled, fabric: Fabric, chart: str):
    """The swatch whose gauge holds where a piece works a motif."""
    sections = done.plan.piece(fabric.piece).sections
    names = {
        one.swatch
        for one in sections
        if (one.fabric is not None and one.fabric.motif == chart) or getattr(one.step.action, "chart", None) == chart
    }
    (name,) = names
    return done.spec.swatches[name]


def charted(fabric: Fabric) -> list[Row]:
    return [row for row in fabric.rows if row.chart and not in_crown(fabric, row)]


def in_crown(fabric: Fabric, row: Row) -> bool:
    return 0 <= fabric.crown < row.number


def gaps(cells: list[str], yarn: str) -> list[tuple[int, int]]:
    """The places between two stitches of a yarn: (first passed, how many)."""
    places = [place for place, cell in enumerate(cells) if cell == yarn]
    return [(before + 1, after - before - 1) for before, after in pairwise(places) if after - before > 1]


def caught(one: Float, motif: Motif, most: int) -> None:
    """A run is caught where it is said, and no part of it passes more than the limit."""
    for choice in product(*one.catch):
        assert all(after - before - 1 <= most for before, after in pairwise([0, *choice, one.stitches + 1]))
    width = len(motif.rows[(one.row - 1) % len(motif.rows)])
    best = sorted((column - one.column) % width + 1 for column in one.best)
    assert all(after - before - 1 <= most for before, after in pairwise([0, *best, one.stitches + 1]))


def check_fabrics(done: Compiled, monkeypatch: pytest.MonkeyPatch) -> int:
    """Count every float of every row on the fabric; give how many runs were looked at."""
    spec, plan = done.spec, done.plan
    listed = {(one.motif, one.swatch, one.row, one.yarn, one.column): one for one in long_floats(spec, plan)}
    ends = {(one.piece, one.yarn, row): one for one in overs(spec, plan) for row in one.rows}
    alone = {
        (worked.motif.name, yarn, at)
        for worked, yarn, lacking in edges_alone(spec, plan)
        for at in range(1, worked.motif.period + 1)
        if (at - 1) % len(worked.motif.rows) + 1 in lacking
    }
    counted, ended = 0, {}
    for fabric in knitted(done, monkeypatch):
        rows, piece = charted(fabric), plan.piece(fabric.piece)
        edge = 0 if piece.in_round else piece.edge.stitches
        for row in rows:
            motif, swatch = spec.motifs[row.chart], swatch_of(done, fabric, row.chart)
            most, period = most_stitches(spec, swatch), motif.period
            cells = [fabric.colour(row, stitch) for stitch in range(len(row.ops))]
            at = (row.chart_row - 1) % period + 1
            for yarn in set(cells):
                for first, passed in gaps(cells, yarn):
                    counted += 1
                    if passed <= most:
                        continue
                    place = (fabric.piece, fabric.size, row.number, yarn, first, passed)
                    if first <= edge or first + passed >= len(cells) - edge:
                        # From or to an edge stitch: cut short there, or the edge's yarn is not in the chart's row.
                        own = [one.stitches for one in listed.values() if (one.row, one.yarn) == (at, yarn)]
                        assert passed <= max(own, default=0) or (motif.name, yarn, at) in alone, place
                        continue
                    columns = [row.column(n) % motif.width for n in range(first - 1, first + passed + 1)]
                    if any((after - before) % motif.width != 1 % motif.width for before, after in pairwise(columns)):
                        # Between two shoulders: over the neck the other strand is woven in behind the bind-off.
                        assert row.number == fabric.neck_row, place
                        continue
                    key = (motif.name, swatch.name, at, yarn, row.column(first) % motif.width + 1)
                    assert key in listed and listed[key].stitches == passed, place
        counted += check_crown(done, fabric, listed)
        if not rows or rows[0].side != "round":
            continue
        for row, after in pairwise(rows):
            if after.number != row.number + 1 or after.chart != row.chart or len(row.ops) != len(after.ops):
                continue
            motif, swatch = spec.motifs[row.chart], swatch_of(done, fabric, row.chart)
            strip = [fabric.colour(one, stitch) for one in (row, after) for stitch in range(len(one.ops))]
            lower, upper = set(strip[: len(row.ops)]), set(strip[len(row.ops) :])
            at = (row.chart_row - 1) % motif.period + 1
            for yarn in lower & upper:
                counted += 1
                passed = next((n for first, n in gaps(strip, yarn) if first <= len(row.ops) <= first + n), 0)
                rows_of_both = {at, after.chart_row and (after.chart_row - 1) % motif.period + 1}
                by_chart = [one.stitches for one in listed.values() if one.yarn == yarn and one.row in rows_of_both]
                if passed > max([most_stitches(spec, swatch), *by_chart]):
                    assert (fabric.piece, yarn, at) in ends, (fabric.piece, fabric.size, row.number, passed)
                    key = fabric.piece, yarn
                    ended[key] = max(ended.get(key, 0), passed)
    for key, passed in ended.items():
        (most_over,) = {one.stitches for (piece, yarn, _), one in ends.items() if (piece, yarn) == key}
        assert most_over == passed
    for one in listed.values():
        caught(one, spec.motifs[one.motif], most_stitches(spec, spec.swatches[one.swatch]))
    return counted


def check_crown(done: Compiled, fabric: Fabric, listed: dict[tuple[str, str, int, str, int], Float]) -> int:
    """Count the floats of a crown's rounds, of each with the round below; give how many runs were looked at."""
    rounds = [row for row in fabric.rows if row.chart and row.number >= fabric.crown >= 0]
    size, counted = done.plan.sizes.index(fabric.size), 0
    told = [one for one in crown_floats(done.spec, done.plan) if (one.piece, one.size) == (fabric.piece, size)]
    found: list[tuple[int, int, str, int]] = []
    own: set[tuple[int, int]] = set()
    most = 0
    for row, after in zip(rounds, [*rounds, None][1:], strict=True):
        motif, number = done.spec.motifs[row.chart], row.number - fabric.crown
        swatch = swatch_of(done, fabric, row.chart)
        most, at = most_stitches(done.spec, swatch), (row.chart_row - 1) % motif.period + 1
        width = len(motif.rows[(at - 1) % len(motif.rows)])
        cells = [fabric.colour(row, stitch) for stitch in range(len(row.ops))]
        for yarn in set(cells):
            for first, passed in gaps(cells, yarn):
                counted += 1
                columns = [row.column(stitch) % width for stitch in range(first - 1, first + passed + 1)]
                broken = any((after - one) % width != 1 % width for one, after in pairwise(columns))
                if passed <= most or (broken and not number):
                    continue
                if broken:
                    found.append((number, first, yarn, passed))
                    continue
                one = listed[motif.name, swatch.name, at, yarn, row.column(first) % width + 1]
                assert one.stitches == passed
                own |= {(number, first + (best - one.column) % width) for best in one.best}
            if after is not None and after.number == row.number + 1 and after.chart == row.chart:
                strip = cells + [fabric.colour(after, stitch) for stitch in range(len(after.ops))]
                over = [gap for gap in gaps(strip, yarn) if gap[0] <= len(cells) <= sum(gap)]
                found += [(number, first, yarn, passed) for first, passed in over if passed > most]
                counted += 1
    assert sorted(found) == sorted((one.round, at_of(one, fabric), one.yarn, one.stitches) for one in told)
    for one in told:
        assert all(after - before - 1 <= most for before, after in pairwise([0, *one.catch, one.stitches + 1]))
        assert len(one.catch) == len(catches(one.stitches, most))
    check_apart(fabric, told, own, most)
    return counted


def at_of(one: CrownFloat, fabric: Fabric) -> int:
    """The stitch of the strand's own round from which it passes; the next round's first is one after the last."""
    number, place = one.first
    before = next(row for row in fabric.rows if row.number == fabric.crown + one.round)
    return place if number == one.round else len(before.ops) + place


def check_apart(fabric: Fabric, told: list[CrownFloat], own: set[tuple[int, int]], most: int) -> None:
    """No catch of a crown can be moved alone so that fewer stand upon one another: two stitches meet in a decrease."""
    rounds = {row.number - fabric.crown: row for row in fabric.rows if row.number >= fabric.crown >= 0}
    stands: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for number, row in rounds.items():
        below = 0
        for stitch, op in enumerate(row.ops):
            taken = 2 if op in (LEFT_DEC, RIGHT_DEC) else 1
            stands[number, stitch] = [(number - 1, below + one) for one in range(taken)]
            below += taken

    def stitch(one: CrownFloat, at: int) -> tuple[int, int]:
        place, length = at_of(one, fabric) + at - 1, len(rounds[one.round].ops)
        return (one.round, place) if place < length else (one.round + 1, place - length)

    def stacked(places: list[list[tuple[int, int]]]) -> int:
        caught = [place for each in places for place in each] + [*own]
        return sum(caught.count(under) for place in caught for under in stands.get(place, ()))

    places = [[stitch(one, at) for at in one.catch] for one in told]
    least = stacked(places)
    for number, one in enumerate(told if least else ()):
        for which, among in enumerate(catches(one.stitches, most)):
            for at in among:
                moved = [[*each] for each in places]
                moved[number][which] = stitch(one, at)
                assert stacked(moved) >= least


@pytest.mark.parametrize("name", [*STRANDED, *CROWNS])
def test_floats_of_each_example_in_each_size_are_those_of_the_fabric(name, monkeypatch) -> None:
    assert check_fabrics(compiled(name), monkeypatch) > 100


@pytest.mark.parametrize("limit", ["3 sts", "4 sts", "1 cm"])
@pytest.mark.parametrize("name", ["millrace-pullover", "sluice-hat", "first-cowl"])
def test_floats_beyond_a_lower_limit_are_those_of_the_fabric(name, limit, monkeypatch) -> None:
    text = FILES[name].read_text("utf-8")
    title = text.index("\n", text.index('pattern "'))
    done = written(f"{text[:title]}\n    floats {limit}{text[title:]}")
    assert done.spec is not None and long_floats(done.spec, done.plan)
    assert check_fabrics(done, monkeypatch) > 100


SPEC = """wale 1
pattern "Strips"
    use "mill-yarns.wale"

motif drawn
    repeat {width} sts, {height} rows
    key |-| rye, |x| flour
{rows}
{shift}
swatch drawing, {way}
    motif drawn in rye, flour
    needle 3.5 mm
    washed 22 sts and 26 rows in 10 cm

sizes one two
piece strip, {way}
{edge}    cast on {stitches} sts in drawing
    work in drawn on drawing, from the edge
    work {rounds} rows
    bind off
"""


@st.composite
def strips(draw: st.DrawFn) -> str:
    width, height = draw(st.integers(2, 17)), draw(st.integers(1, 5))
    lone = st.integers(0, width - 1).map(lambda at: "-" * at + "x" + "-" * (width - at - 1))
    rows = draw(
        st.lists(st.one_of(lone, st.text("-x", min_size=width, max_size=width)), min_size=height, max_size=height)
    )
    assume(any("x" in row for row in rows) and any("-" in row for row in rows))
    flat = draw(st.booleans())
    shift = draw(st.integers(0, width - 1))
    return SPEC.format(
        width=width,
        height=height,
        rows="\n".join(f"    | {' '.join(row)} |" for row in rows),
        shift=f"    next shifts {shift} sts\n" if shift else "",
        way="worked flat" if flat else "in the round",
        edge=f"    edge {draw(st.integers(0, 2))} sts each side in rye\n" if flat else "",
        stitches=draw(st.integers(24, 60)),
        rounds=2 * draw(st.integers(6, 30)),
    )


@settings(max_examples=60)
@given(strips())
def test_floats_of_any_motif_are_those_of_its_fabric(text: str) -> None:
    done = written(text)
    assert done.pattern is not None, [one.message for one in done.problems]
    with pytest.MonkeyPatch.context() as patch:
        check_fabrics(done, patch)  # it asserts, run by run; a motif may have none


HAT = """wale 1
pattern "Hat"
    use "mill-yarns.wale"

motif drawn
    repeat {width} sts, {height} rows
    key |-| rye, |x| flour
{rows}

swatch drawing, in the round
    motif drawn in rye, flour
    needle 3.5 mm
    washed 22 sts and 26 rows in 10 cm

sizes one two
piece hat, in the round
    cast on {stitches} sts in drawing
    work in drawn on drawing, from the edge
    work {rounds} rounds
    crown {wedges} wedges over 9 cm, in pattern
"""


@st.composite
def hats(draw: st.DrawFn) -> str:
    width, height = draw(st.integers(2, 12)), draw(st.integers(1, 5))
    row = st.text("-x", min_size=width, max_size=width)
    rows = draw(st.lists(row, min_size=height, max_size=height))
    assume(any("x" in row for row in rows) and any("-" in row for row in rows))
    return HAT.format(
        width=width,
        height=height,
        rows="\n".join(f"    | {' '.join(row)} |" for row in rows),
        stitches=draw(st.integers(60, 90)),
        rounds=draw(st.integers(1, 12)),
        wedges=draw(st.integers(4, 8)),
    )


@settings(max_examples=40)
@given(hats())
def test_floats_of_any_crown_in_pattern_are_those_of_its_fabric(text: str) -> None:
    done = written(text)
    assert done.pattern is not None, [one.message for one in done.problems]
    with pytest.MonkeyPatch.context() as patch:
        check_fabrics(done, patch)  # it asserts, run by run; a motif may have none


def test_a_post_lost_at_a_joint_is_passed_by_hand() -> None:
    # A stitch of flour at column 6 of 6, 72 sts in 6 wedges of 12: flour at 6 and 12. Round 1 joins 11 and 12 and keeps
    # column 11, so a wedge of 11 has flour at 6 alone: over the joint 5 sts (7 to 11) and 5 (1 to 5), 10 in all.
    rows = "    | x - - - - - |"
    done = written(HAT.format(width=6, height=1, rows=rows, stitches=72, rounds=8, wedges=6))
    # Limit at 22 sts in 10 cm: 6. So at each of the five joints; from round 0 (its last st is flour) into round 1 (five
    # before column 6) it passes 5 sts only, within the limit. Of 10 the middle three are 4, 5 and 6.
    own = [one for one in crown_floats(done.spec, done.plan) if (one.size, one.round) == (0, 1) and one.wedge]
    assert [(one.wedge, one.stitches, one.before) for one in own] == [(wedge, 10, 5) for wedge in (1, 2, 3, 4, 5)]
    assert {one.catch for one in own} <= {(4,), (5,), (6,)}
    assert not [one for one in crown_floats(done.spec, done.plan) if one.round == 0]
    assert [one.code for one in done.problems if one.code == "N620"] == ["N620"]


def test_w117_on_the_fabric_runs_of_8_are_caught_at_3_4_or_5(monkeypatch) -> None:
    # W117: 22 sts in 10 cm, catch runs longer than 6; in a run of 8 at st 3, 4 or 5.
    # https://www.moderndailyknitting.com/community/stranded-colorwork-consider-the-float/
    rows = "    | - - - - - - - - x |"
    done = written(
        SPEC.format(width=9, height=1, rows=rows, shift="", way="in the round", edge="", stitches=45, rounds=12)
    )
    assert done.spec is not None and done.plan is not None
    (one,) = long_floats(done.spec, done.plan)
    assert (one.stitches, one.catch) == (8, ((3, 4, 5),))
    assert most_stitches(done.spec, done.spec.swatches["drawing"]) == 6 and catches(6, 6) == ()
    assert check_fabrics(done, monkeypatch) > 100
