"""Published worked examples: every expected number is read from tests/data/worked_examples.csv, with its source."""

from __future__ import annotations

import pytest

pytest.register_assert_rewrite("worked_counts", "worked_parts", "worked_shaping")

import worked_counts  # noqa: E402, F401
import worked_parts  # noqa: E402, F401
import worked_shaping  # noqa: E402, F401
from worked import CHECKS, KINDS, ROWS, Row  # noqa: E402


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.kind}-{row.id}-{row.source}"[:110] for row in ROWS])
def test_agrees_with_its_source(row: Row) -> None:
    assert row.id in CHECKS, f"no check of {row.id} ({row.kind}; {row.source})"
    CHECKS[row.id](row)


def test_every_check_and_every_kind_has_a_row() -> None:
    assert set(CHECKS) == {row.id for row in ROWS}
    assert set(KINDS) <= {row.kind for row in ROWS}
