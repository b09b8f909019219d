"""One knitted piece held against what was planned: counts, sides, charts, colours, leans, mirrors, ends."""

from __future__ import annotations

from collections.abc import Sequence

from wale.prove.fabric import (
    CENTRED_DEC,
    INC,
    KNIT,
    LEFT_CROSS,
    LEFT_DEC,
    LEFT_DEEP,
    LEFT_INC,
    PURL,
    RIGHT_CROSS,
    RIGHT_DEC,
    RIGHT_DEEP,
    RIGHT_INC,
    SLIPPED,
    TWISTED,
    Contradiction,
    Fabric,
    Finding,
    Row,
    insist,
)
from wale.prove.facts import Facts, PieceFacts, RowFact

TEXTURES = ("Rib", "Garter", "Seed", "Moss", "Rolled edge")
"""Parts of a fabric that are a textured edge."""
_SHAPED = bytes((LEFT_DEC, RIGHT_DEC, LEFT_INC, RIGHT_INC, INC))


def compare(fabric: Fabric, fact: PieceFacts, facts: Facts, lines: Sequence[str]) -> list[Finding]:
    """Hold a piece against its facts.

    Args:
        lines: the printed lines of this size, for the findings.

    Returns:
        The first row that differs, or the end where that differs; empty where all agrees.
    """
    colours = _Colours(fabric, fact, facts)
    row: Row | None = None
    try:
        insist(fabric.cast_on == fact.cast_on, f"{fabric.cast_on} sts are cast on, not {fact.cast_on}")
        insist(fabric.joined == fact.joined, f"{fabric.joined} are joined, not {fact.joined}")
        insist(fabric.picked == fact.picked, f"{_picks(fabric.picked)} are picked up, not {_picks(fact.picked)}")
        _yarn("cast on", fabric.cast_on_yarn, fact.cast_on_yarn)
        insist(fabric.steek == fact.steek, f"the steek has {fabric.steek} sts at the ends of a round, not {fact.steek}")
        textures = tuple(part for part in fabric.parts if part[0] in TEXTURES)
        insist(textures == fact.textures, f"its edges are {textures}, not {fact.textures}")
        before = fact.cast_on
        for row, planned in zip(fabric.rows, fact.rows, strict=False):
            _row(row, planned)
            _apart(row, fact)
            _stitch(row, planned, fact)
            colours.check(row, planned)
            if planned.shaped:
                _lean(row, planned, grows=planned.stitches > before and not planned.part)
            before = planned.stitches
            if fact.mirrors and planned.is_even and row.chart and not row.part and len(row.ops) == row.stitches:
                insist(row.colours == row.colours[::-1], "the colours do not mirror about the middle")
        if len(fabric.rows) != len(fact.rows):
            insist(False, f"there are {len(fabric.rows)} rows, not {len(fact.rows)}")
        _end(fabric, fact)
    except Contradiction as error:
        line = lines[row.line] if row is not None else ""
        return [Finding(fabric.piece, fabric.size, row.number if row is not None else 0, line, str(error))]
    return []


def _row(row: Row, planned: RowFact) -> None:
    """Hold a row against its plan; where it is as planned, which is the rule, no message is made up."""
    left = row.stitches - row.waiting - len(row.ops)
    alike = (
        row.number == planned.number
        and row.stitches == planned.stitches
        and row.side == planned.side
        and row.part == planned.part
        and row.chart_row == planned.chart_row
        and row.chart == planned.chart
        and (row.waiting, left) == planned.waiting
        and planned.start in (0, row.start)
        and _on_needle(row, planned)
    )
    if not alike:
        _differs(row, planned)


def _on_needle(row: Row, planned: RowFact) -> bool:
    return not planned.needle or row.needle == planned.needle or row.needle.startswith(f"{planned.needle} ")


def _apart(row: Row, fact: PieceFacts) -> None:
    """See that a border or a band looks as planned at both ends, as long as it stands."""
    if not fact.apart or row.number > fact.apart_to:
        return
    right, left = (bytes(_FACES[one] for one in look) for look in fact.apart[row.side == "WS"])
    fits = row.ops[: len(right)] == right and row.ops[len(row.ops) - len(left) :] == left
    insist(fits, "the border is not garter" if right and left else "the front band does not look as planned")


def _stitch(row: Row, planned: RowFact, fact: PieceFacts) -> None:
    """See that a plain row is in the fabric that was planned, and that one told by its stitches looks like its own."""
    if planned.stitch and row.stitch != planned.stitch:
        insist(False, f"it is worked in {row.stitch or 'no plain fabric'}, not in {planned.stitch}")
    if planned.plain:
        right, left = map(len, fact.apart[row.side == "WS"]) if fact.apart else (0, 0)
        other, told = (PURL, "purl") if planned.plain == "k" else (KNIT, "knit")
        insist(other not in row.ops[right : len(row.ops) - left], f"some stitches look {told}, which was not planned")


def _differs(row: Row, planned: RowFact) -> None:
    insist(row.number == planned.number, f"row {planned.number} was planned here")
    insist(row.part == planned.part, f"the {planned.part or 'whole'} side was planned here")
    insist(row.side == planned.side, f"it is a {row.side} row, not a {planned.side} row")
    insist(row.stitches == planned.stitches, f"there are {row.stitches} sts after it, not {planned.stitches}")
    insist((row.chart, row.chart_row) == (planned.chart, planned.chart_row), f"it is not {_told(planned)}")
    waiting = (row.waiting, row.stitches - row.waiting - len(row.ops))
    insist(waiting == planned.waiting, f"{waiting} sts wait at its ends, not {planned.waiting}")
    if planned.start:
        insist(row.start == planned.start, f"it starts at chart column {row.start}, not {planned.start}")
    insist(_on_needle(row, planned), f"it is worked on {row.needle}, not on {planned.needle}")


def _told(planned: RowFact) -> str:
    return f"row {planned.chart_row} of chart {planned.chart}" if planned.chart else "plain"


LOOKS = {
    "knit": KNIT,
    "purl": PURL,
    "slip": SLIPPED,
    "yo": INC,
    "k2tog": RIGHT_DEC,
    "ssk": LEFT_DEC,
    "k3tog": RIGHT_DEEP,
    "sssk": LEFT_DEEP,
    "s2kp": CENTRED_DEC,
}


_FACES = {"k": KNIT, "p": PURL}


def _look(stitch: str) -> int:
    """Give how a planned stitch of a texture looks."""
    if stitch.startswith("cable-"):
        return LEFT_CROSS if stitch.endswith("left") else RIGHT_CROSS
    return LOOKS[stitch]


class _Colours:
    """The colours of rows as planned, in the palette of the fabric."""

    def __init__(self, fabric: Fabric, fact: PieceFacts, facts: Facts) -> None:
        self._index = {yarn: bytes((number,)) for number, yarn in enumerate(fabric.palette)}
        self._fact, self._motifs, self._together = fact, facts.motifs, facts.together
        self._tiles: dict[tuple[str, int], bytes] = {}

    def check(self, row: Row, planned: RowFact) -> None:
        """See that every stitch has the colour of its planned cell."""
        worked = len(row.ops)
        if planned.columns:
            right, left = planned.edges
            tile, inner = b"".join(map(self._of, planned.columns)), worked - right - left
            ends = self._of(self._fact.edge_yarn) if right + left else b""
            laid = ends * right + (tile * (inner // len(tile) + 1))[:inner] + ends * left
            insist(
                row.colours == laid, f"its columns are not by turns in {' and '.join(dict.fromkeys(planned.columns))}"
            )
            return
        if not planned.chart:
            if row.colours != self._of(planned.yarn) * worked:
                insist(False, f"it is not all in {planned.yarn}")
            return
        right, left = planned.edges
        if planned.yarn:
            self._texture(row, planned)
            whole = self._of(planned.yarn) * row.stitches
        else:
            whole = b"".join(self._cut(planned, start, length) for start, length in planned.runs)
        yarns = planned.steek or (self._fact.edge_yarn,) * (right + left)
        edges = b"".join(map(self._of, yarns))
        whole = edges[:right] + whole[right : len(whole) - left] + edges[right:]
        insist(len(whole) == row.stitches, "the planned columns are not so many as its stitches")
        cut = whole[row.waiting : row.waiting + worked]
        if row.colours != cut:
            place = next(number for number, (a, b) in enumerate(zip(row.colours, cut, strict=True)) if a != b)
            insist(False, f"stitch {row.waiting + place + 1} from the right has another colour than planned")

    def _texture(self, row: Row, planned: RowFact) -> None:
        """See that plain stitches of a texture look as planned, and edge stitches knit; those of a border are apart."""
        tile = self._motifs[planned.chart][planned.chart_row - 1]
        columns = [(start + number) % len(tile) for start, length in planned.runs for number in range(length)]
        # stitches of two runs are no neighbours
        before = [sum(length for _, length in planned.runs[:run]) for run in range(len(planned.runs))]
        spots = [before[run] + place + run for run, (_, length) in enumerate(planned.runs) for place in range(length)]
        right, left = planned.edges
        free = set(range(max(right, row.waiting), min(len(columns) - left, row.waiting + len(row.ops))))
        if planned.shaped in ("right", "both"):
            free.discard(right + planned.inside[0])
        if planned.shaped in ("left", "both"):
            free.discard(len(columns) - left - 1 - planned.inside[1])
        looks = {place: tile[columns[place]] for place in free}
        at = {spots[place]: place for place in free}
        for group in self._together[planned.chart][planned.chart_row - 1]:
            for start in {
                spot - group.index(column) for spot, column in zip(spots, columns, strict=True) if column in group
            }:
                whole = [
                    at[spot] for spot, column in enumerate(group, start) if spot in at and columns[at[spot]] == column
                ]
                if len(whole) < len(group):
                    looks.update(dict.fromkeys(whole, "knit"))
        for place, look in sorted(looks.items()):
            told = row.ops[place - row.waiting]
            insist(told == _look(look), f"stitch {place + 1} from the right is not {look}, as planned")

    def _of(self, yarn: str) -> bytes:
        if yarn not in self._index:
            insist(False, f"nothing is worked in {yarn or 'the edge yarn'}")
        return self._index[yarn]

    def _cut(self, planned: RowFact, start: int, length: int) -> bytes:
        key = (planned.chart, planned.chart_row)
        if key not in self._tiles:
            cells = self._motifs[planned.chart][planned.chart_row - 1]
            self._tiles[key] = b"".join(self._of(yarn) for yarn in cells)
        tile = self._tiles[key]
        start %= len(tile)
        return (tile * ((start + length) // len(tile) + 1))[start : start + length]


def _lean(row: Row, planned: RowFact, *, grows: bool) -> None:
    """See that a row is shaped on its planned stitches and nowhere else, each leaning with its edge."""
    first = planned.edges[0] + planned.inside[0] - row.waiting
    last = row.stitches - 1 - planned.edges[1] - planned.inside[1] - row.waiting
    looks = (LEFT_DEC, RIGHT_DEC)
    if grows:
        looks = (INC, INC) if row.side == "WS" else (LEFT_INC, RIGHT_INC)
    ends = zip(("right", "left"), (first, last), looks, strict=True)
    wanted = {place: look for end, place, look in ends if planned.shaped in (end, "both")}
    # a texture has decreases of its own: look at the places of the shaping alone
    is_texture = bool(planned.chart and planned.yarn)
    found = {place: op for place, op in enumerate(row.ops) if op in _SHAPED and (place in wanted or not is_texture)}
    places = " and ".join(str(row.waiting + place + 1) for place in wanted)
    insist(found == wanted, f"it is not shaped on stitch {places} from the right alone, leaning with its edge")


def _yarn(what: str, told: str, planned: str) -> None:
    insist(not planned or told == planned, f"it is {what} in {told or 'no yarn that is named'}, not in {planned}")


def _end(fabric: Fabric, fact: PieceFacts) -> None:
    fold = fabric.rows[fabric.fold - 1].ops if fabric.fold else b""
    insist(fold.count(INC) == fact.eyelets, f"the fold has {fold.count(INC)} eyelets, not {fact.eyelets}")
    insist(fold.count(SLIPPED) == fact.slips, f"the fold has {fold.count(SLIPPED)} slipped sts, not {fact.slips}")
    twisted = sum(TWISTED in row.ops for row in fabric.rows)
    insist(twisted == fact.twisted, f"{twisted} rows of rib are twisted, not {fact.twisted}")
    insist(fabric.held == fact.held, f"{fabric.held} sts wait on holders, not {fact.held}")
    insist(fabric.bound_off == fact.bound_off, f"{fabric.bound_off} sts are bound off, not {fact.bound_off}")
    insist(fabric.cord == fact.cord, f"it is bound off with a cord of {fabric.cord} sts, not of {fact.cord}")
    _yarn("bound off", fabric.bind_off_yarn, fact.bind_off_yarn)
    insist(fabric.drawn == fact.drawn, f"{fabric.drawn} sts are drawn together, not {fact.drawn}")
    told = f"the buttonholes are {fabric.holes} on row {fabric.hole_row}, not {fact.holes} on row {fact.hole_row}"
    insist((fabric.hole_row, fabric.holes) == (fact.hole_row, fact.holes), told)
    insist(fabric.insets == fact.insets, f"pockets are opened at {fabric.insets}, not at {fact.insets}")
    told = f"the start of the round moves by {fabric.starts}, not by {fact.starts} (rows before, stitches)"
    insist(fabric.starts == fact.starts, told)
    told = f"markers stand after {fabric.divided}, not after {fact.divided} (row, stitches before each)"
    insist(fabric.divided == fact.divided, told)
    told = f"the band has buttonholes {fabric.band_holes}, not {fact.band_holes}"
    insist(fabric.band_holes == fact.band_holes, told)
    insist(fabric.live == fact.live, f"{fabric.live} sts are left on the needle, not {fact.live}")
    insist(fabric.marks == fact.marks, f"the marks {fabric.marks} are not {fact.marks}")
    told = f"the hem is knitted in on row {fabric.hem_join} above the fold, not {fact.hem_join}"
    insist(fabric.hem_join == fact.hem_join, told)
    worked = b"".join(row.ops for row in fabric.rows)
    more, fewer = (sum(map(worked.count, kinds)) for kinds in ((INC, LEFT_INC, RIGHT_INC), (LEFT_DEC, RIGHT_DEC)))
    fewer += 2 * sum(map(worked.count, (CENTRED_DEC, LEFT_DEEP, RIGHT_DEEP)))
    turned, turns = (fabric.marked, fabric.mitres), (fact.marked, fact.mitres)
    insist(turned == turns, f"the mitres stand on sts and rounds {turned}, not {turns}")
    insist(fabric.underarms == fact.underarms, f"{fabric.underarms} sts are underarms, not {fact.underarms}")
    insist(fabric.waiting == fact.waiting, f"{fabric.waiting} sts wait on holders, not {fact.waiting}")
    left = sum(fabric.held) + sum(fabric.waiting) + fabric.bound_off + fabric.drawn + fabric.live
    insist(fabric.cast_on + fabric.added + more - fewer - fabric.deeper == left, "stitches got lost")


def _picks(picked: Sequence[tuple[int, str]]) -> str:
    return ", ".join(f"{count} sts along {edge}" for count, edge in picked) or "no sts"
