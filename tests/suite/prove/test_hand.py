"""Rows typed in by hand on the machine; the expected stitches are counted beside them."""

from __future__ import annotations

import pytest

from wale.prove.reader import lines_of, read_by_hand
from wale.prove.trial import Trial, work_through


def work(*lines: str) -> Trial:
    return work_through("piece", "one", lines_of([read_by_hand(line) for line in lines], ("one",), 0), {})


def counts(*lines: str) -> list[int]:
    trial = work(*lines)
    assert trial.stop is None, trial.stop
    return [row.stitches for row in trial.rows]


def looks(*lines: str) -> list[str]:
    return [row.ops.decode() for row in work(*lines).rows]


FLAT = "Cast on 10 sts."
ROUND = "Cast on 12 sts. Join to a round."


@pytest.mark.parametrize(
    ("row", "count"),
    [
        ("Row 1 (RS): k6, m1, k4.", 11),
        ("Row 1 (RS): knit 6, k2tog, purl 2.", 9),
        ("Row 1: (k2, m1) 4 times, k2.", 14),
        ("Row 1: (k1, k2tog) twice, k to the end.", 8),
        ("Row 1: k2tog all round.", 5),
        ("Row 1: k2tog 3 times, k4.", 7),
        ("Row 1: k to the last 2 sts, k2tog.", 9),
        ("Row 1: *k1, k2tog; repeat from * to the last 1 st, k1.", 7),
        ("Row 1: *k1, k2tog; repeat from * 2 times more, k1.", 7),
        ("Row 1: ((k1, yo) 2 times, k1) 3 times, k1.", 16),
        ("Row 1: sl1, k1, psso, k to the end.", 9),
        ("Row 1: sk2p, s2kp, k3tog, k1.", 4),
        ("Row 1: kfb, k8, kfb.", 12),
        ("Row 1: bind off 4 sts, k to the end.", 6),
        ("Row 1: k5, cast on 3 sts, k5.", 13),
        ("Row 1: knit.", 10),
        ("NEXT ROW (RS): K10.", 10),
    ],
)
def test_a_row_leaves_so_many_stitches(row: str, count: int) -> None:
    assert counts(FLAT, row) == [count]


def test_double_stitches_are_counted_as_one_and_found_again() -> None:
    # k7 leaves 3; the first after the turn is doubled, the next row ends before it, and the next after that before
    # the one doubled at the other end: 7, then 6 - 1, then 5 - 1 - 1 ... worked, 10 on the needle throughout.
    rows = ("Row 1 (RS): k7, turn.", "Row 2 (WS): ds, p5, turn.", "Row 3 (RS): ds, k to the double stitch, turn.")
    more = ("Row 4 (WS): ds, p to the double stitch, p1, turn.", "Row 5 (RS): ds, k to the end.")
    trial = work(FLAT, *rows, *more)
    assert trial.stop is None, trial.stop
    assert [len(row.ops) for row in trial.rows] == [7, 6, 5, 5, 9]
    assert counts(FLAT, *rows, *more) == [10] * 5


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("Row 2 (WS): p to the double stitch.", "there is no double stitch ahead"),
        ("Row 2 (WS): p1, ds, p to the end.", "a double stitch is made right after the turn"),
    ],
)
def test_double_stitches_that_cannot_be_are_found(row: str, told: str) -> None:
    trial = work(FLAT, "Row 1 (RS): k7, turn.", row)
    assert trial.stop is not None
    assert told in str(trial.stop)


def test_wrong_side_rows_are_seen_from_the_right_side() -> None:
    # From the left of a WS row: k1 p2 ssp p5; on the right side, from its right end: 5 knit, decrease, 2 knit, 1 purl.
    assert looks(FLAT, "Row 1 (RS): p1, k9.", "Row 2 (WS): k1, p2, ssp, p5.") == ["pkkkkkkkkk", "kkkkkLkkp"]


def test_short_rows_turn_among_waiting_stitches() -> None:
    trial = work(FLAT, "Row 1: k6, turn.", "Row 2: p4, turn.", "Row 3: k to the end.", "Row 4: p.")
    # After row 1 four stitches wait at the left, after row 2 two at the right; row 3 takes up 4 + 4.
    assert [len(row.ops) for row in trial.rows] == [6, 4, 8, 10]
    assert [row.waiting for row in trial.rows] == [0, 2, 2, 0]
    assert [row.stitches for row in trial.rows] == [10] * 4
    assert (trial.live, trial.stop) == (10, None)


def test_rows_are_repeated_by_label_by_number_and_until() -> None:
    twice = ("Row 1: k2tog, k to the end.", "Row 2: purl.")
    assert counts(FLAT, *twice, "Repeat rows 1 and 2 2 times.") == [9, 9, 8, 8, 7, 7]
    assert counts(FLAT, *twice, "Repeat the last 2 rows once.") == [9, 9, 8, 8]
    assert counts(FLAT, *twice, "Repeat rows 1 and 2 until 7 sts are left.") == [9, 9, 8, 8, 7, 7]
    assert len(counts(FLAT, *twice, "Repeat rows 1 and 2 until 8 rows are worked.")) == 8
    assert counts(FLAT, "Rows 1 to 3: kfb, k to the end.") == [11, 12, 13]


def test_even_rows_go_on_in_the_fabric() -> None:
    assert looks(FLAT, "Knit 2 rows.", "Work 2 rows even.", "Purl 1 row.") == ["k" * 10, "p" * 10] * 2 + ["p" * 10]
    assert looks(FLAT, "Work 2 rows in stockinette.") == ["k" * 10] * 2
    assert looks(ROUND, "Work 1 round in 2x2 rib.") == ["kkpp" * 3]


def test_stitches_wait_on_holders_and_come_back() -> None:
    trial = work(
        ROUND,
        "Put the next 5 sts on a holder.",
        "Work back and forth over these 7 sts.",
        "Row 1 (WS): p7.",
        "Join to a round.",
        "Round 1: pick up and knit 2 sts along the side, k the 5 held sts, k7. 14 sts.",
        "Put the last 4 sts on a holder.",
        "Bind off.",
    )
    assert (trial.stop, trial.held, trial.bound_off, trial.live) == (None, (4,), 10, 0)
    assert [row.side for row in trial.rows] == ["WS", "round"]
    assert [one.found for one in trial.stated] == [(7,), (14,)]


def test_markers_divide_the_count() -> None:
    trial = work(
        ROUND,
        "Round 1: k4, place a marker, k5, place a marker, k3. 4, 5 and 3 sts.",
        "Round 2: k to 2 sts before the marker, k2tog, slip the marker, m1, k to the marker, slip the marker, k3. "
        "3, 6 and 3 sts.",
        "Round 3: k to the marker, remove the marker, k to the end. 9 and 3 sts.",
        "Knit 2 sts; the round starts here.",
        "There are 7 and 5 sts.",
    )
    assert trial.stop is None
    assert [one.message for one in trial.stated] == [""] * 4


def test_a_round_whose_row_turns_is_worked_flat_from_there() -> None:
    trial = work(ROUND, "Round 1: k8, turn.", "Row 2 (WS): p4, turn.", "Row 3 (RS): k to the end.", "Join to a round.")
    assert [row.side for row in trial.rows] == ["round", "WS", "RS"]
    assert (trial.stop, trial.live) == (None, 12)


def test_lines_of_compiled_patterns_and_of_hands_go_together() -> None:
    trial = work(
        "Cast on 10 sts in rye on 3 mm needles.",
        "Work 2 rows in stockinette in rye.",
        "Row 3 (RS): k2tog, k to the end. 9 sts.",
        "Work 3 rows in stockinette in rye.",
        "Bind off all 9 sts in rye.",
    )
    assert (trial.stop, trial.bound_off, [row.stitches for row in trial.rows]) == (None, 9, [10, 10, 9, 9, 9, 9])


def test_a_count_that_is_not_so_is_told_and_the_rest_is_knitted() -> None:
    trial = work(FLAT, "Row 1: k2tog, k8. 8 sts.", "Row 2: purl. 9 sts.", "Bind off all 8 sts.")
    assert [(one.row, one.told, one.found) for one in trial.stated] == [
        (1, (8,), (9,)),
        (2, (9,), (9,)),
        (2, (8,), (9,)),
    ]
    assert [one.message for one in trial.stated if one.message] == [
        "there are 9 sts, not 8",
        "there are 9 sts on the needle, not 8",
    ]
    assert (trial.stop, trial.bound_off) == (None, 9)


def test_labels_out_of_turn_are_told() -> None:
    (one,) = work(FLAT, "Row 1: knit.", "Row 4: knit.").stated
    assert one.message == "row 4 stands where row 2 should"
    fine = work(FLAT, "Row 1: knit.", "Work 4 rows even.", "Row 6: knit.", "Row 7: knit.", "Row 1: knit.")
    assert (fine.stated, fine.stop) == ((), None)


@pytest.mark.parametrize(
    ("lines", "row", "why"),
    [
        (("Row 1: k8, k2tog twice.",), 0, "2 left where k2tog twice needs 4"),
        (("Row 1: k11.",), 0, "10 left where k11 needs 11"),
        (("Row 1: k9.",), 0, "1 st left unworked"),
        (("Row 1: (k2, k2tog) 3 times.",), 0, "not enough stitches"),
        (("Row 1: (k2, k2tog) to the end.",), 0, "takes 4 sts; 2 of 10 would be left over"),
        (("Row 1: k3tog to the end.",), 0, "takes 3 sts at a time; 1 of 10"),
        (("Row 1: k to the last 12 sts, k12.",), 0, "10 left before the end, not 12"),
        (("Row 1: k to the marker, k2.",), 0, "there is no marker ahead"),
        (("Row 1: k1, place a marker, k9.", "Row 2: p8, p2tog."), 1, "a marker stands between"),
        (("Row 1: (m1) to the end.",), 0, "no end"),
        (("Row 1: k2, turn, k8.",), 0, "nothing can be worked after the turn"),
        (("Row 1 (RS): knit.", "Row 2 (RS): knit."), 1, "is a WS row, not a RS row"),
        (("Round 1: knit.",), 0, "flat"),
        (("Row 1: knit.", "Work 3 rounds even."), 1, "the work is flat"),
        (("Row 1: k the 5 held sts, k10.",), 0, "no sts wait on holders, not 5"),
        (("Repeat row 3 2 times.",), 0, "no row 3 to repeat"),
        (("Row 1: knit.", "Repeat row 1 until 8 sts are left."), 2, "never come to 8 sts"),
        (
            ("Row 1: k2tog, k to the end.", "Row 2: purl.", "Repeat rows 1 and 2 until 3 rows are worked."),
            4,
            "4 rows are worked",
        ),
        (("Row 1: k5, turn.", "Work 2 rows even."), 1, "wait from a turn"),
        (("Row 1: k5, turn.", "Bind off all 10 sts in rye."), 1, "wait from a turn"),
        (("Bind off.", "Row 1: knit."), 0, "no stitches"),
        (("Row 1: (((m1) 999999 times) 999999 times) 999999 times, k10.",), 0, "more stitches than anybody knits"),
        (("Work 999999 rows even.",), 0, "too many"),
    ],
)
def test_what_cannot_be_worked_stops_with_its_reason(lines: tuple[str, ...], row: int, why: str) -> None:
    stop = work(FLAT, *lines).stop
    assert stop is not None
    assert why in stop.message
    assert (stop.line, stop.row) == (len(lines), row)
