"""Half pieces, the bands along them and their buttonholes: counts by hand, motif, proof, and what is refused."""

from __future__ import annotations

import pytest
from prove_corruptions import refute
from support import EXAMPLES, PLAIN, checked, errors, planned, written
from test_floats_proven import knitted as proven

from wale.actions import Mark
from wale.draft import halves
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC
from wale.shaping.buttonholes import buttonholes

BODY = (
    """wale 1

pattern "Weir"

"""
    + PLAIN
    + """
sizes medium
    measure bust 100 cm
    measure hip  104 cm
    ease bust 0 cm, hip 0 cm

piece back, worked flat
    cast on   hip/2 in plain
    work      5 cm
    shape     to bust/2 over 10 cm
    work      to 40 cm
    mark      underarm
    work      to 60 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece left-front, as back, left half
    opening 3 cm
    neck    18 cm wide, 8 cm deep, round

piece right-front, as left-front, mirrored

join
    seam back shoulders with left-front shoulders, mattress stitch
    seam back shoulders with right-front shoulders, mattress stitch
    seam sides, mattress stitch

band button-band
    pick up along left-front front-edge in plain
    rib     3 cm, 2x2

band buttonhole-band
    pick up along right-front front-edge in plain
    rib         3 cm, 2x2
    buttonholes 5 of 2 sts, first 2 cm from the ends
"""
)
CARDIGAN = (EXAMPLES / "weir-cardigan.wale").read_text("utf-8")
SET_IN = (EXAMPLES / "sluice-cardigan.wale").read_text("utf-8")
ROPE = """motif rope
    repeat   9 sts, 6 rows
    stitches |.| knit, |-| purl, |>| cable-6-right
    | - . . . . . . - - |
    | - . . . . . . - - |
    | - . . . . . . - - |
    | - . . . . . . - - |
    | - . . . . . . - - |
    | - > > > > > > - - |

swatch roped, worked flat
    motif  rope in rye
    needle 4 mm
    washed 24 sts and 28 rows in 10 cm

sizes medium
"""
"""A rope beside a furrow: it does not mirror, so neither do the halves' stitches."""
ROPED = BODY.replace("sizes medium\n", ROPE).replace(
    "    work      5 cm\n", "    work in rope on roped, from the edge\n    work 5 cm\n"
)
VARIANTS = {
    "plain": BODY,
    "in a texture that does not mirror": ROPED,
    "in steps": BODY.replace("short rows", "bound off in steps"),
    "no slope": BODY.replace("slope 3 cm", "slope 1 mm"),
    "square": BODY.replace("8 cm deep, round", "8 cm deep, square"),
    "on any row": BODY.replace("over 10 cm", "over 10 cm, on any row"),
    "no opening": BODY.replace("opening 3 cm", "opening 0 cm"),
    "right half first": BODY.replace("left half", "right half"),
    "the neck of the back": BODY.replace("    neck    18 cm wide, 8 cm deep, round\n", ""),
    "in two colours": CARDIGAN,
    "set in, a V neck": SET_IN,
    "set in, a round neck": SET_IN.replace("min(neck-width, 16 cm) deep, V", "8 cm deep, round"),
    "set in, right half first": SET_IN.replace("left half", "right half"),
    "in two colours, in steps": CARDIGAN.replace("short rows", "bound off in steps").replace(
        "three-needle bind-off", "mattress stitch"
    ),
}


def by_piece(done, monkeypatch):
    """Give the fabrics of the first size by piece, proven."""
    size = done.plan.sizes[0]
    return {one.piece: one for one in proven(done, monkeypatch) if one.size == size}


def test_stitches_by_hand() -> None:
    """At 2 sts in a cm, an edge stitch taken up at each side: 50 cm are 102 sts, (50 - 3) / 2 = 23.5 cm are 49.

    The neck of 18 cm takes 36, each shoulder (102 - 36) / 2 = 33, and half the neck 49 - 33 = 16: 7.5 cm and the edge
    stitch that the band takes up. 102 - 2 * 49 = 4 lie at the opening. (52 - 3) / 2 = 24.5 cm are 51 sts, two shapings
    more, as the back's 106.
    """
    back, left, right = planned(BODY).pieces
    assert [level.counts[0] for level in back.levels] == [106, 102]
    assert [level.counts[0] for level in left.levels] == [level.counts[0] for level in right.levels] == [51, 49]
    assert [(top.neck[0], top.shoulder[0]) for top in (back.top, left.top)] == [(36, 33), (16, 33)]
    # the centre of the neck of 36 is 12, 4 of them at the opening: 4 on either side, and 12 in steps
    assert (left.top.centre[0], sum(left.top.steps[0])) == (4, 12)
    assert left.levels[1].width(0) == 23.5


def test_picked_up_by_the_ratio_of_gauges() -> None:
    """20 sts and 28 rows make 5 sts for 7 rows: 14, 28 and 70 rows make 10, 20 and 50.

    60 cm are 168 rows. Of the last 56, 22 are the neck's and one more lies below it: 33 rows are left, 24 sts. 104 in
    all; 2x2 rib flat wants 4 k + 2, and 102 and 106 are as near: the larger.
    """
    plan = planned(BODY)
    rows = [section.rows[0] for section in plan.piece("left-front").sections]
    neck = plan.piece("left-front").top.neck_rows[0]
    assert rows == [14, 28, 70, 56] and neck == 22
    assert [band.stitches for band in plan.bands] == [(106,), (106,)]


def test_buttonholes_by_hand() -> None:
    """Of 106 sts 5 holes of 2 leave 96; 2 cm are 4 sts at each end; 88 in 4 stretches are 22 each."""
    (gaps,) = planned(BODY).bands[1].holes
    assert gaps == (4, 22, 22, 22, 22, 4)
    assert sum(gaps) + 5 * 2 == 106


def test_a_single_buttonhole_lies_in_the_middle_and_too_many_do_not_fit() -> None:
    assert buttonholes(12, 1, 2, 3) == (5, 5)
    assert buttonholes(12, 4, 2, 1) is None
    assert buttonholes(13, 4, 2, 1) == (1, 1, 1, 1, 1)


@pytest.mark.parametrize("text", VARIANTS.values(), ids=VARIANTS)
def test_halves_are_proven_and_mirror_each_other(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Row by row below the neck: the colours of the one are those of the other from its other end."""
    done = written(text)
    assert errors(done) == []
    found = by_piece(done, monkeypatch)
    left, right = found["left-front"], found["right-front"]
    below = min(left.neck_row, right.neck_row) - 12
    assert below > 100
    for one, other in zip(left.rows[:below], right.rows[:below], strict=True):
        if one.side == "RS" and one.stitches != other.stitches:
            # one half binds off here, where its row starts at the side, and the other on the next row
            fewer = min(one.stitches, other.stitches)
            assert left.rows[one.number].stitches == right.rows[one.number].stitches == fewer
            continue
        assert len(one.ops) == len(other.ops) == one.stitches
        yarns = [left.colour(one, stitch) for stitch in range(len(one.ops))]
        assert yarns == [right.colour(other, stitch) for stitch in reversed(range(len(other.ops)))]
        # decreases and increases are at the side alone, which lies at the right of the left half
        decreases = [stitch for stitch, look in enumerate(one.ops) if look in (LEFT_DEC, RIGHT_DEC) and one.chart]
        assert all(stitch == 1 for stitch in decreases) or text.count("right half")


@pytest.mark.parametrize(
    "text",
    [
        SET_IN.replace("1 st each side", "2 sts each side"),
        ROPED.replace("8 cm deep, round", "20 cm deep, V").replace(
            "    cast on   hip", "    edge 2 sts each side\n    cast on   hip"
        ),
    ],
    ids=["in colours", "in a texture"],
)
def test_a_v_whose_first_stitch_is_one_of_two_edge_stitches(text: str) -> None:
    """The other stays outside the chart until the first decrease; the band takes both up: the neck has one less."""
    done = written(text)
    assert errors(done) == [] and done.proof is not None


def test_the_motif_stands_on_both_fronts_as_on_the_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seen from the right side the left front is the right end of the back's rows, and the right front the left one."""
    found = by_piece(written(CARDIGAN), monkeypatch)
    back, left, right = (found[name] for name in ("back", "left-front", "right-front"))
    seen = 0
    for whole, one, other in zip(back.rows, left.rows, right.rows, strict=False):
        if one.number >= min(left.neck_row, right.neck_row) - 12 or not whole.chart:
            continue
        n = len(one.ops) - 1
        of_back = [back.colour(whole, stitch) for stitch in range(len(whole.ops))]
        assert [left.colour(one, stitch) for stitch in range(1, n)] == of_back[1:n]
        assert [right.colour(other, stitch) for stitch in range(1, n)] == of_back[-n:-1]
        if whole.number > 12:
            change = one.stitches - left.rows[one.number - 2].stitches
            assert whole.stitches - back.rows[whole.number - 2].stitches == 2 * change
        seen += 1
    assert seen > 140


@pytest.mark.parametrize(
    ("piece", "old", "new"),
    [
        ("left-front", "at the start of row 2 (WS) bind off", "at the start of row 4 (WS) bind off"),
        ("right-front", "from row 5 on, bind off", "from row 7 on, bind off"),
        ("right-front", "work to the last 3 sts, k2tog, 1 edge st", "work to the last 2 sts, k2tog, 1 edge st"),
        ("left-front", "1 edge st, ssk, work to the last 1 st", "1 edge st, k2tog, work to the last 1 st"),
        ("buttonhole-band", "work 4, (bind off 2, work 22) 5 times. ", "work 5, (bind off 2, work 22) 5 times. "),
        ("buttonhole-band", "cast on 2 sts over each gap", "cast on 3 sts over each gap"),
        ("buttonhole-band", "in rib, work 4,", "in rib, work 3, bind off 1,"),
        ("button-band", "beginning with the WS rib row", "beginning with the RS rib row"),
    ],
)
def test_a_wrong_word_is_found(piece: str, old: str, new: str) -> None:
    old = old.replace("work 22) 5 times. ", "work 22) 4 times, bind off 2, work 4. ")
    new = new.replace("work 22) 5 times. ", "work 22) 4 times, bind off 2, work 3. ")
    refute(BODY, piece, old, new)


MIRROR = "piece right-front, as left-front, mirrored"


@pytest.mark.parametrize(
    ("code", "old", "new"),
    [
        ("E515", MIRROR, "piece right-front, as left-front"),
        ("E515", MIRROR, "piece right-front, as back, mirrored"),
        ("E515", "as back, left half", "left half, worked flat"),
        ("E206", "    opening 3 cm\n", ""),
        ("E516", MIRROR, MIRROR + "\n    neck 18 cm wide, 8 cm deep"),
        ("E516", "    opening 3 cm", "    opening 3 cm\n    work 2 cm"),
        ("E517", "piece left-front, as back, left half", "piece left-front, as back"),
        ("E517", "opening 3 cm", "opening 60 cm"),
        ("E518", "buttonholes 5 of 2 sts", "buttonholes 60 of 2 sts"),
        ("E518", "buttonholes 5 of 2 sts", "buttonholes 5 of 1 st"),
        ("E518", "rib         3 cm, 2x2", "rib         2 rows, 2x2"),
        ("E518", "rib         3 cm, 2x2", "rolled      3 cm"),
        ("E216", "left-front front-edge", "back front-edge"),
        ("E405", "cast on   hip/2 in plain", "cast on   106 sts in plain"),
        ("E503", "left-front front-edge", "left-front sides"),
    ],
)
def test_what_is_refused(code: str, old: str, new: str) -> None:
    assert old in BODY
    assert code in errors(checked(BODY.replace(old, new)))


def test_lines_that_a_half_does_not_know_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is new in pieces is refused in halves until it is built for one side: so a mark, if it were unknown."""
    monkeypatch.setattr(halves, "HALVED", tuple(one for one in halves.HALVED if one is not Mark))
    assert set(errors(checked(BODY))) == {"E405"}
    monkeypatch.undo()
    monkeypatch.setattr(halves, "CURVES", ("square",))
    assert set(errors(checked(BODY))) == {"E405"}
