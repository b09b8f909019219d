"""Checks of the worked examples on counts: gauge, ribs, parts, picking up, repeats, colours."""

from __future__ import annotations

import re
from fractions import Fraction

from worked import Row, as_printed, example

from wale.colour import contrast
from wale.shaping.gauge import nearest, per_length, stitches, width
from wale.shaping.neck import neck_split
from wale.shaping.pickup import along_rows, pick_up_pattern, pick_up_ratio
from wale.shaping.proportions import drop_sleeve_length, share
from wale.shaping.repeats import half_drop, half_drop_size, repeat_fit
from wale.shaping.rib import rib_stitches


@example("W027")
def cast_on_from_a_swatch(row: Row) -> None:
    counted, over, wish = row.given
    assert [stitches(wish, per_length(int(counted), over))] == row.wanted


@example("W033")
@example("W038")
def cast_on_for_a_round(row: Row) -> None:
    gauge, wish = row.given
    assert [stitches(wish, gauge)] == row.wanted


@example("W036")
def sleeve_counts(row: Row) -> None:
    sts, rows, over, wrist, length, top = row.given[:6]
    at_wrist, at_top = stitches(wrist, sts / over), stitches(top, sts / over)
    counts = [at_wrist, nearest(at_wrist, 2), stitches(length, rows / over), at_top, nearest(at_top, 2, down=True)]
    assert counts == row.wanted


@example("W028")
def width_at_a_gauge(row: Row) -> None:
    count, sts, over = row.given
    assert as_printed(width(count, sts / over), re.findall(r"[\d.]+", row.expected)[0])


@example("W030")
def width_when_the_gauge_was_missed(row: Row) -> None:
    planned, sts, over, knitted, over_again = row.given
    assert [width(stitches(planned, sts / over), knitted / over_again)] == row.wanted


@example("W031")
def swatch_cast_on(row: Row) -> None:
    sts, over, wish = row.given
    assert [stitches(wish, sts / over)] == row.wanted


@example("W040")
def width_by_proportion(row: Row) -> None:
    sts, over, count = row.given
    assert [width(count, per_length(int(sts), over))] == row.wanted


@example("W041")
def width_by_proportion_not_whole(row: Row) -> None:
    sts, over, count = row.given
    exact = re.search(r"exact ([\d.]+)", row.expected)
    assert exact and as_printed(width(count, per_length(int(sts), over)), exact[1])


@example("W097")
def stocking_cast_on(row: Row) -> None:
    # 78 sts at 8 sts an inch are 9 3/4 inches by hand, and 9 3/4 inches are 78 sts again.
    gauge, count = row.given[0], row.wanted[0]
    assert width(count, gauge) == Fraction(39, 4)
    assert nearest(stitches(Fraction(39, 4), gauge)) == count


@example("W034")
def rib_on_fewer_stitches(row: Row) -> None:
    exact = rib_stitches(row.given[0], row.given[1] / 100)
    assert exact == row.wanted[0]
    assert nearest(exact, 2) in row.wanted[1:3] and nearest(exact, 4) in row.wanted[1:3]


@example("W037")
def drop_sleeve(row: Row) -> None:
    piece, spine_to_wrist = row.given
    assert drop_sleeve_length(spine_to_wrist, piece) == row.wanted[0]


@example("W042")
@example("W043")
def shoulders_and_neck(row: Row) -> None:
    total, *parts = (int(n) for n in row.given)
    assert neck_split(total, row.wanted[0] / 100) == tuple(parts)


@example("W067")
def part_of_the_body(row: Row) -> None:
    key, percent = row.given
    assert [share(key, percent), nearest(share(key, percent), 2)] == row.wanted


@example("W077")
def pick_up_in_small_parts(row: Row) -> None:
    picked, of, *parts = (int(n) for n in row.wanted)
    ratio = pick_up_ratio(*row.given[:2])
    assert ratio == Fraction(picked, of)
    assert pick_up_pattern(ratio) == tuple(zip(parts[::2], parts[1::2], strict=True))


@example("W078")
def pick_up_along_an_edge(row: Row) -> None:
    sts, per, over, length = row.given
    rows, picked, part, of = row.wanted
    ratio = pick_up_ratio(sts, per)
    assert stitches(length, per / over) == rows
    assert ratio == part / of and along_rows(int(rows), ratio) == picked


@example("W079")
def pick_up_three_of_four(row: Row) -> None:
    part, of = row.wanted
    assert pick_up_pattern(pick_up_ratio(*row.given[:2])) == ((part, of),)


@example("W081")
def pick_up_by_length(row: Row) -> None:
    count, length = row.given
    gauge = per_length(int(count), length)
    assert as_printed(gauge, "4.6") and Fraction("4.6") == row.wanted[0]
    assert nearest(stitches(row.wanted[2], gauge)) == row.wanted[1]


@example("W123")
@example("W124")
def contrast_of_pairs(row: Row) -> None:
    colours = re.findall(r"#[0-9A-F]{6}", row.inputs)
    printed = row.expected.split("; ")
    pairs = list(zip(colours[::2], colours[1::2], strict=True))
    assert len(pairs) == len(printed)
    assert all(as_printed(contrast(*pair), text) for pair, text in zip(pairs, printed, strict=True))


@example("W126")
def half_drop_of_a_motif(row: Row) -> None:
    w, h = (int(n) for n in row.given)
    # Paint copies of the motif at their places, each column of them half a motif above the one before it.
    canvas = {
        (u + w * a, v + h // 2 * a + h * b): (u, v)
        for a in range(5)
        for b in range(-4, 5)
        for u in range(w)
        for v in range(h)
    }
    wide, high = 4 * w, 2 * h
    assert all(half_drop(x, y, w, h) == canvas[x, y] for x in range(wide) for y in range(high))
    across = next(p for p in range(1, wide) if all(canvas[x, 0] == canvas[x + p, 0] for x in range(wide - p)))
    up = next(p for p in range(1, high) if all(canvas[0, y] == canvas[0, y + p] for y in range(high - p)))
    assert (across, up) == half_drop_size(w, h) == tuple(row.wanted[:2])


@example("W129")
def repeats_in_a_round(row: Row) -> None:
    total, *repeats = (int(n) for n in row.given)
    first, times, second, more, third, whole, rest, below, above = (int(n) for n in row.wanted)
    assert [first, second, third] == repeats
    fits = [repeat_fit(total, repeat) for repeat in repeats]
    assert [(fit.times, fit.rest) for fit in fits] == [(times, 0), (more, 0), (whole, rest)]
    assert (fits[2].below, fits[2].above) == (below, above)
