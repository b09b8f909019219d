"""The stitch of plain fabrics and ribs, and rows on which stitches are gained or lost evenly: wrong ones are found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from prove_corruptions import refute
from support import EXAMPLES, PLAIN
from test_front_bands import ALONG

from wale.prove.evened import _is_even
from wale.shaping.phrases import Phrase, Plain, Repeat
from wale.write.evenly import even_row

TIGHT = PLAIN[PLAIN.index("swatch") :].replace("plain", "tight").replace("20 sts", "19 sts")
PANEL = f"""wale 1

pattern "Sluice"

{PLAIN}
{TIGHT}
sizes one

piece panel, worked flat
    edge      0 sts each side
    cast on   50 cm in plain
    work      28 rows
    shape     to 46 cm over 10 cm
    work      2 rows
    work      in tight
    work      28 rows
    bind off
"""
TUBE = PANEL.replace("worked flat", "in the round").replace("    edge      0 sts each side\n", "")
TUBE = TUBE.replace(
    "    work      28 rows\n    shape     to 46 cm over 10 cm\n    work      2 rows\n",
    "    rib       10 rows, 2x2\n    work      28 rows\n",
)


@pytest.mark.parametrize("text", [PANEL, TUBE])
def test_another_plain_fabric_is_found(text: str) -> None:
    refute(text, "panel", "stockinette", "garter")


def test_another_fabric_above_the_neck_s_first_row_is_found() -> None:
    refute(ALONG, "back", "stockinette", "garter")
    refute(ALONG, "left-front", "stockinette", "garter")


def test_another_rib_of_as_many_stitches_is_found() -> None:
    """100 sts are 25 ribs of 2x2, 50 of 1x1 and 20 of 3x2."""
    for rib, words in (("1x1", "(k1, p1) 50 times"), ("3x2", "(k3, p2) 20 times")):
        refute(TUBE, "panel", "2x2 rib: (k2, p2) 25 times", f"{rib} rib: {words}")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("ssk, work to the last 3 sts, k2tog", "k2tog, work to the last 3 sts, ssk"),
        ("ssk, work to the last 3 sts, k2tog", "k2tog, work to the last 3 sts, k2tog"),
        ("m1L, work to the last 1 st, m1R", "yo, work to the last 1 st, yo"),
        ("m1L, work to the last 1 st, m1R", "m1, work to the last 1 st, m1"),
        ("1 edge st, ssk, work to the last 3 sts, k2tog, 1", "3 edge sts, ssk, work to the last 5 sts, k2tog, 3"),
        ("1 edge st, m1L, work to the last 1 st, m1R, 1", "3 edge sts, m1L, work to the last 3 sts, m1R, 3"),
    ],
)
def test_a_shaping_of_another_kind_or_place_is_found(old: str, new: str) -> None:
    text = PANEL.replace("edge      0 sts", "edge      1 st")
    text = text.replace(
        "    work      in tight\n", "    shape     to 50 cm over 10 cm\n    work      2 rows\n    work      in tight\n"
    )
    refute(text, "panel", old, new)


@pytest.mark.parametrize(
    "words",
    [
        "k10, k3tog, k10, k3tog, k10, k2tog, k62",
        "k10, sssk, k10, sssk, k10, k2tog, k62",
        "k10, s2kp, k10, s2kp, k10, k2tog, k62",
        "k2tog 6 times, m1, k88",
        "k10, k2tog, k10, k2tog, k10, k2tog, k60, k2tog twice",
        "(p18, k2tog) 5 times",
        "(k18, k2tog) 4 times, p18, k2tog",
        "(k17, k2tog) 4 times, k22, k2tog",
    ],
)
def test_a_row_that_is_not_evened_so_is_found(words: str) -> None:
    """100 sts become 95, by 5 times k2tog with 18 plain ones before each."""
    refute(TUBE, "panel", "(k18, k2tog) 5 times", words)


MITTENS = (EXAMPLES / "sack-mittens.wale").read_text("utf-8")
MITTS = (EXAMPLES / "hopper-mitts.wale").read_text("utf-8")
FLAPS = (EXAMPLES / "spillway-hat.wale").read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "piece", "old", "new"),
    [
        (MITTENS, "mitten", "slip the marker, m1R, k to the marker", "slip the marker, m1R, p to the marker"),
        (MITTENS, "mitten", "(k2, k2tog)", "(p2, k2tog)"),
        (MITTS, "mitt", "in 1x1 rib.", "in 2x2 rib."),
        (FLAPS, "hat", "k1, ssk, k to the last 3 sts", "k1, ssk, p to the last 3 sts"),
    ],
)
def test_another_fabric_in_rows_told_one_by_one_is_found(text: str, piece: str, old: str, new: str) -> None:
    refute(text, piece, old, new)


def worked(phrases: tuple[Phrase, ...]) -> str:
    """A row with a letter for each stitch."""
    row = ""
    for one in phrases:
        if isinstance(one, Plain):
            row += "k" * one.stitches
        else:
            row += worked(one.phrases) * one.times if isinstance(one, Repeat) else "m" * one.times
    return row


@given(st.integers(4, 300), st.integers(-150, 300), st.booleans())
def test_every_row_that_is_written_counts_as_even(before: int, change: int, in_round: bool) -> None:
    most = before if in_round else before - 1
    if change and -((most - (0 if in_round else 1)) // 2) <= change <= most:
        row = worked(even_row(before, change, in_round=in_round).phrases())
        assert _is_even(row.encode(), in_round=in_round)


@pytest.mark.parametrize(("row", "flat", "around"), [
    ("kkmkkmkk", True, False), ("kkmkkmk", True, True), ("mkkkmkkkkkk", False, False), ("mkmkkkm", False, False),
    ("kkkkm", True, True), ("kkkk", True, True),
])  # fmt: skip
def test_what_is_even(row: str, flat: bool, around: bool) -> None:
    """Stretches between differ by one at most; a flat row's ends are longer by two, a round's joined by one."""
    assert (_is_even(row.encode(), in_round=False), _is_even(row.encode(), in_round=True)) == (flat, around)
