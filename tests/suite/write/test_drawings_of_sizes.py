"""Pictures of all sizes and fabrics, of garments planned by hand (see garments.py): 2 sts and 3 rows to the cm."""

from __future__ import annotations

from fractions import Fraction

import pytest
from garments import AT, GRAIN, cowl, hat, pullover
from msgspec.structs import replace
from support import EXAMPLES, SPEC, world

from wale.colour import contrast
from wale.driver import compile_spec, render
from wale.materials import Gauge, Motif, Swatch
from wale.pattern import Drawings, Table
from wale.plan import Plan
from wale.spec import Spec
from wale.write.drawing import drawing
from wale.write.looks import in_grey, looks, patch

LARGE = Motif("large", AT, (tuple("rrrrrf"), tuple("rrrrff")), (AT, AT), (("rye", "-"), ("flour", "x")), 0)
COLOURED = replace(LARGE, rows=tuple(tuple({"r": "rye", "f": "flour"}[one] for one in row) for row in LARGE.rows))


def groups(garment: tuple[Spec, Plan], sizes: tuple[int, ...]) -> dict[str, Drawings]:
    found = looks(*garment, sizes)
    assert all(isinstance(one, Drawings) for one in found)
    return {one.title: one for one in found if isinstance(one, Drawings)}


def with_large(garment: tuple[Spec, Plan]) -> tuple[Spec, Plan]:
    """The garment, in a spec that has a swatch of a larger motif too, at 1 st and 2 rows to the cm."""
    spec, plan = garment
    gauge = Gauge(Fraction(1), Fraction(2), AT)
    swatch = Swatch("coarse", AT, False, "motif", "large", ("rye", "flour"), Fraction(5), gauge)
    swatches, motifs = {**spec.swatches, "coarse": swatch}, {**spec.motifs, "large": COLOURED}
    return replace(spec, swatches=swatches, motifs=motifs), plan


def test_each_printed_size_has_its_picture_and_no_other() -> None:
    for sizes, names in (((0, 1, 2), "SML"), ((2,), "L")):
        items = groups(pullover(), sizes)["The sizes"].items
        assert [one.caption[:7] for one in items] == [f"Size {name}:" for name in names]
        assert [f", size {name}: " in one.words for one, name in zip(items, names, strict=True)] == [True] * len(names)


def test_outlines_are_as_wide_and_long_as_planned() -> None:
    # Bust 102, 112, 122 sts less the two edge stitches, 2 to the cm; hip 92, 102, 112; 10 + 20 + 24 cm to the shoulder.
    for one, bust, hip in zip(
        groups(pullover(), (0, 1, 2))["The sizes"].items, (50, 55, 60), (45, 50, 55), strict=True
    ):
        front = one.parts[-2].outline
        assert max(x for x, _ in front) - min(x for x, _ in front) == pytest.approx(bust)
        assert max(y for _, y in front) == pytest.approx(54)
        foot = [x for x, y in front if y == 0]
        assert max(foot) - min(foot) == pytest.approx(hip)


def test_captions_count_repeats() -> None:
    # M: 110 sts of 4 are 27.5; 162 rows of 4 are 40.5; the front neck is the last 24 rows: 138 of 4 are 34.5.
    body = groups(pullover(), (1,))["The sizes"].items[0]
    assert body.caption == "Size M: grain 27.5 times across, 40.5 times up; the front neck cuts in after 34.5"
    # The hat: 80 sts of 4 in the round, 30 + 18 rounds.
    round_ = groups(hat(), (0,))["The sizes"].items[0]
    assert round_.caption == "Size one: grain 20 times around, 12 times up"


def test_a_patch_is_whole_repeats_in_the_washed_gauge() -> None:
    spec, _ = pullover()
    colour, grey = patch(spec, GRAIN, spec.swatches["easy"])
    for one in (colour, grey):
        (part,) = one.parts
        assert part.cell == pytest.approx((1 / 2, 1 / 3))
        # A repeat is 2 by 4/3 cm: three of them are the first to be 5 cm wide or more.
        assert max(x for x, _ in part.outline) == pytest.approx(6)
        up = max(y for _, y in part.outline) * 3 / 4
        assert up == pytest.approx(round(up))
        assert 4 <= up <= 5
        assert one.ruler == "cm"
        assert "2 cm by 1.3 cm" in one.caption
    assert colour.parts[0].tile == drawing(*pullover(), 1).parts[0].tile  # type: ignore[union-attr]
    assert "grey" in grey.words
    assert "grey" not in colour.words


def test_a_large_motif_is_shown_once_and_no_longer_than_half_as_much_again() -> None:
    spec, _ = pullover()
    # 60 sts are 30 cm: one repeat; 400 rows would be 133 cm, and 45 cm are shown.
    wide = replace(COLOURED, rows=(("rye",) * 59 + ("flour",),) * 400, row_spans=(AT,) * 400)
    outline = patch(spec, wide, spec.swatches["easy"])[0].parts[0].outline
    assert max(outline) == pytest.approx((30, 45))


def test_inches_have_a_ruler_of_their_own() -> None:
    spec, plan = pullover()
    colour, _ = groups((replace(spec, units="inch"), plan), (1,))["The fabrics"].items
    assert colour.ruler == "inch"
    # 2 cm are 0.79 inches, 4/3 cm are 0.52.
    assert colour.caption == "grain on easy: a repeat is 0.8 inches by 0.5 inches"


def test_grey_is_as_light_as_the_colour() -> None:
    # Green has a relative luminance of 0.7152: 255 * (1.055 * 0.7152 ** (1 / 2.4) - 0.055) = 219.9.
    assert in_grey((("#ffffff", "#000000", "#00ff00"),)) == (("#ffffff", "#000000", "#dcdcdc"),)
    for colour in ("#8a5a2b", "#efe6d2", "#1d5560", "#050102"):
        ((grey,),) = in_grey(((colour,),))
        assert grey[1:3] == grey[3:5] == grey[5:7]
        assert contrast(colour, grey) < 1.02


def test_motifs_of_other_swatches_are_tried_on_the_same_outline() -> None:
    found = groups(with_large(pullover()), (0, 1, 2))
    assert [one.caption.partition(":")[0] for one in found["The fabrics"].items] == [
        "grain on easy",
        "grain on easy, in grey",
        "large on coarse",
        "large on coarse, in grey",
    ]
    worked, tried = found["Other motifs, size M"].items
    assert [worked.caption, tried.caption] == ["In grain on easy", "In large on coarse"]
    assert worked.parts[-2].outline == tried.parts[-2].outline
    assert tried.parts[-2].cell == pytest.approx((1, 1 / 2))
    assert len(tried.parts[-2].tile[0]) == 6
    assert "Other motifs, size M" not in groups(pullover(), (1,))


def test_a_motif_knitted_the_other_way_is_not_tried() -> None:
    spec, plan = pullover()
    round_ = replace(spec.swatches["easy"], name="easy-round", in_round=True)
    finer = replace(spec.swatches["easy"], name="finer", washed=Gauge(Fraction(3), Fraction(4), AT))
    spec = replace(spec, swatches={**spec.swatches, "easy-round": round_, "finer": finer})
    captions = [one.caption for one in groups((spec, plan), (1,))["Other motifs, size M"].items]
    assert captions == ["In grain on easy", "In grain on finer"]


def test_plain_garments_show_their_sizes_alone() -> None:
    found = groups(cowl(), (0,))
    assert list(found) == ["The sizes"]
    assert [one.caption for one in found["The sizes"].items] == ["Size one"]


def test_they_are_drawn_on_request_alone_and_the_typesetter_has_no_complaint() -> None:
    hats = world((EXAMPLES / "sluice-hat.wale").read_text("utf-8"))
    plain, drawn_ = compile_spec(hats, SPEC), compile_spec(hats, SPEC, (), ("drawings",))
    assert plain.pattern is not None
    assert drawn_.pattern is not None
    # beside the section of drawings just the table of colours, below the charts
    changed = [one for one in drawn_.pattern.sections if one not in plain.pattern.sections]
    assert [one.id for one in changed] == ["charts", "looks"]
    (charts,) = [one for one in plain.pattern.sections if one.id == "charts"]
    assert [part for part in changed[0].parts if part not in charts.parts] == [
        part for part in changed[0].parts if isinstance(part, Table)
    ]
    content, complaints = render(drawn_, "pdf", hats)
    assert content.startswith(b"%PDF")
    assert complaints == ()
