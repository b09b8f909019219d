"""Checks of the worked examples on parts of garments: yokes, raglans, caps, cuffs, heels on a strip."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import product

from worked import Row, example

from wale.motifs.symmetry import smallest
from wale.motifs.tiling import Tiling
from wale.shaping.cap import cap_decreases, cap_height
from wale.shaping.gauge import nearest, stitches
from wale.shaping.heel import strip_heel
from wale.shaping.proportions import share
from wale.shaping.yoke import raglan_depths, raglan_neck, yoke_counts


@example("W071")
def neck_of_a_raglan(row: Row) -> None:
    garment, neck = row.given[:2]
    back, sleeve = row.wanted[:2]
    assert raglan_neck(neck, garment) == (back, sleeve)


@example("W072")
def depth_of_a_raglan(row: Row) -> None:
    sleeve_top, worked = row.given
    assert raglan_depths(worked, sleeve_top) == tuple(row.wanted)


@example("W075")
def height_of_a_cap(row: Row) -> None:
    armhole, bind_off, least, most, allowance = row.given
    height, rows_per_inch, exact, rows = (row.wanted[i] for i in (3, 4, 5, 6))
    assert (least, most, allowance) == (31, 48, 3)
    assert {cap_height(armhole, bind_off, chest) for chest in (least, 40, most)} == {height}
    assert cap_height(armhole, bind_off, 30) - height == height - cap_height(armhole, bind_off, 49) == Fraction(1, 2)
    assert stitches(height, rows_per_inch) == exact and nearest(exact) == rows


@example("W076")
def decreases_of_a_cap(row: Row) -> None:
    total, *parts = (int(n) for n in row.given)
    assert cap_decreases(total, *parts) == row.wanted[1] == row.wanted[0] / 2


@example("W103")
@example("W105")
def heel_on_a_strip(row: Row) -> None:
    if row.id == "W103":
        heel, strip = (int(n) for n in row.given)
        first, between, half = (int(re.findall(r"=(\d+)(?:;|$)", part)[0]) for part in row.expected.split("; "))
        made = strip_heel(heel, strip)
        assert made is not None and (made.first, made.between, made.half) == (first, between, half)
    else:
        heel, strip = (int(n) for n in row.wanted)
        assert strip_heel(heel, strip) is not None


@example("W107")
def ankle_of_a_stocking(row: Row) -> None:
    assert "by a quarter" in row.expected
    assert share(row.given[0], 100 - 25) == row.wanted[0]


@example("W118")
def cuff_of_a_mitten(row: Row) -> None:
    percent, multiple, hand, gauge, count = row.given
    assert stitches(hand, gauge) == count
    assert nearest(share(count, percent), int(multiple)) == row.wanted[0]


@example("W119")
def rounds_of_a_yoke(row: Row) -> None:
    assert yoke_counts(int(row.given[0])) == tuple(row.wanted)


@example("W120")
def parts_of_a_body(row: Row) -> None:
    body, *percents = row.given
    assert [share(body, percent) for percent in percents] == row.wanted


@example("W128")
def strips_under_rotation(row: Row) -> None:
    def alike(width: int) -> int:
        # A strip whose smallest repeat is p stitches wide stands in p rotations, each of which comes once.
        strips = product("ab", repeat=width)
        return int(sum(Fraction(1, smallest(Tiling((strip,)))[0]) for strip in strips))

    assert [alike(width) for width in range(1, 9)] == row.wanted
