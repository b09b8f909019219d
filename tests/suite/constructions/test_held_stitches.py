"""Courses that hold stitches for a later one: without that one nothing takes them up, and what lacks is named."""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked, codes


@pytest.mark.parametrize(
    ("name", "old", "new", "lacks"),
    [
        ("sack-mittens", "    thumb   5 (5.5, 6) cm\n", "", "thumb 5 cm"),
        ("headrace-raglan", "    sleeves to wrist over arm-length, cuff ribbing\n", "", "sleeves to wrist"),
        ("tailrace-yoke", "    sleeves to wrist over arm-length, cuff ribbing\n", "", "sleeves to wrist"),
        ("penstock-socks", "heel    flap", "afterthought heel", "heel wedge"),
    ],
)
def test_stitches_that_nothing_takes_up(name: str, old: str, new: str, lacks: str) -> None:
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    assert old in text
    done = checked(text.replace(old, new))
    assert codes(done) == ["E405"] and "nothing takes up again" in done.problems[0].message
    assert lacks in done.problems[0].help
