"""A search for stitches and rows that is given up: a problem, and no answer."""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked

from wale.solve import exact

MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")


def test_a_search_that_takes_too_long_is_a_problem(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pullover's seven sizes need more than three values."""
    monkeypatch.setattr(exact, "LONGEST", 3)
    done = checked(MILLRACE)
    (found,) = [one for one in done.problems if one.is_error]
    assert found.code == "E315" and found.labels[0].text == "3 pieces in 7 sizes"
    assert done.plan is None and "fewer sizes" in found.help
