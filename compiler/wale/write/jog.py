"""The jog of a motif worked in the round: a remark where its chart begins, once in a piece."""

from __future__ import annotations

from wale.materials import Motif
from wale.plan import Section
from wale.write.context import Context
from wale.write.lines import Line

_STEP = (
    "Note (not proven): the jog. Rounds are worked in a spiral, so where one ends and the next begins the motif steps "
    "up by one round. The step lies along the marked start of the round; wear that at the back or at a side (common "
    "practice, no source)."
)
_PLAINEST = "The rounds start at the column of the chart whose colour changes in the fewest rows."
_SOFTEN = (
    "To soften it where plain rounds follow the motif, slip the first stitch of the second plain round purlwise, "
    "and darn the ends in across the step (common practice, no source)."
)


def jog_lines(at: Context, section: Section, slot: str) -> list[Line]:
    """Say by how much the motif steps at the start of the round, where that lies, and how to soften it.

    Nothing for work in rows, for a motif that is the same in every row, and after the piece's first motif.

    Args:
        section: the one with which the motif begins.
        slot: what the remark's own address is made from.
    """
    motif = at.motif(section)
    first = next((one for one in at.piece.sections if at.motif(one) is not None), None)
    if not at.piece.is_tube or motif is None or section is not first:
        return []
    if motif.is_texture:
        return []
    plain = plain_columns(motif)
    if len(plain) == motif.width:
        return []
    count = at.first_count(section)
    start = at.start_columns(section, count)[0] - 1
    last = (start + count - 1) % motif.width
    assert section.fabric is not None
    texts = [_STEP, _PLAINEST if section.fabric.fit.at_plainest else "", _seen(motif, plain, start, last)]
    if count % motif.width:
        texts.append("The last repeat of the round is not whole, so the motif breaks off there too.")
    return [at.remark(f"{slot}.jog", " ".join([*filter(None, texts), _SOFTEN]))]


def plain_columns(motif: Motif) -> dict[int, str]:
    """Give the columns of a motif, from 0 at the right, that have one yarn in every row, with that yarn."""
    yarns = {one: {motif.cell(one, row) for row in range(motif.period)} for one in range(motif.width)}
    return {one: next(iter(found)) for one, found in yarns.items() if len(found) == 1}


def _seen(motif: Motif, plain: dict[int, str], start: int, last: int) -> str:
    """Say how far a column of one yarn hides the step, or would."""
    if start in plain or last in plain:
        which, yarn = ("first", plain[start]) if start in plain else ("last", plain[last])
        return f"The {which} stitch of each round is {yarn} in every chart row, so the step shows little."
    if not plain:
        return ""
    yarn = plain[min(plain)]
    return (
        f"In {motif.name} it would show least beside a column that is all {yarn}, but the round does not start at one."
    )
