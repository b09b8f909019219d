"""What is offered where a course has no room: the smallest change, held against those beside it, each compiled."""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked, errors, mended

UP = (EXAMPLES / "grist-raglan.wale").read_text("utf-8")
DOWN = (EXAMPLES / "headrace-raglan.wale").read_text("utf-8")
DEPTH = "raglan up to neck-base over {}"
EASE = "upper-arm {},"


@pytest.mark.parametrize(
    ("text", "form", "old", "asked", "way", "short"),
    [
        # eight stitches in each decrease round, so many rounds as the depth has: too few of them in 14 cm
        (UP, DEPTH, "armhole-depth", "8 cm", "14.5 cm", "14 cm"),
        # the sleeve's stitches at the neck are what the increases leave of it
        (DOWN, EASE, "8 cm", "-9 cm", "3.5 cm", "3 cm"),
    ],
)
def test_the_smallest_change_that_fits_is_offered(
    text: str, form: str, old: str, asked: str, way: str, short: str
) -> None:
    assert text.count(form.format(old)) == 1 and errors(checked(text)) == []
    written = text.replace(form.format(old), form.format(asked))
    (found,) = [one for one in checked(written).problems if one.is_error]
    assert found.code == "E303"
    (fix,) = [one for one in found.fixes if [edit.text for edit in one.edits] == [way]]
    assert errors(checked(mended(written, fix))) == []
    assert mended(written, fix) == text.replace(form.format(old), form.format(way))
    assert errors(checked(text.replace(form.format(old), form.format(short)))) == ["E303"]


def test_each_way_out_of_a_course_works() -> None:
    written = DOWN.replace(EASE.format("8 cm"), EASE.format("-9 cm"))
    (found,) = [one for one in checked(written).problems if one.is_error]
    assert len(found.fixes) == 3
    assert [errors(checked(mended(written, fix))) for fix in found.fixes] == [[]] * 3
