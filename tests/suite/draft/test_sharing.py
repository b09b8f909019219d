"""What a piece shares with those before it, against a comparison of each with each."""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked

from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout
from wale.draft.sharing import own_from

HEAD = 'wale 1\npattern "Shared"\n    use "mill-yarns.wale"\nsizes one\n'
ROWS = "    cast on 20 sts in plain\n    work 2 rows\n    work 4 rows\n    bind off\n"
AS = "    bind off\n"
CHAIN = f"{HEAD}piece a, worked flat\n{ROWS}piece b, as a\n{AS}piece c, worked flat\n{ROWS}piece d, as b\n{AS}"


def alike(one: Layout, other: Layout) -> int:
    """Count the sections with which two pieces begin alike."""
    count = 0
    if one.fold == other.fold and one.crown is None and other.crown is None:
        for first, second in zip(one.sections, other.sections, strict=False):
            ends = [[of.levels[at].key for at in (at_.first, at_.last)] for of, at_ in ((one, first), (other, second))]
            if first != second or ends[0] != ends[1]:
                break
            count += 1
    return count


@pytest.mark.parametrize("text", [*(path.read_text("utf-8") for path in sorted(EXAMPLES.glob("*.wale"))), CHAIN])
def test_shared_sections_are_those_of_some_piece_before(text: str) -> None:
    spec = checked(text).spec
    layouts = [lay_out(spec, piece)[0] for piece in spec.pieces] if spec is not None else []
    own = [max((alike(other, one) for other in layouts[:place]), default=0) for place, one in enumerate(layouts)]
    assert own_from(layouts) == own


def test_a_piece_made_as_another_shares_all_its_sections() -> None:
    spec = checked(CHAIN).spec
    assert spec is not None
    layouts = [lay_out(spec, piece)[0] for piece in spec.pieces]
    assert own_from(layouts) == [0, 2, 0, 2]
