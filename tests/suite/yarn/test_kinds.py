"""What kind of yarn each one is: the designer's own yarns (common practice, no source), and strands held together."""

import pytest
from mill_cloth import CLOTH
from specs import compiled

from wale.yardage.kind import kind_words
from wale.yardage.report import strands_of


def kind(count, strands=1):
    text = CLOTH.format(plain="", specked="").replace(
        "count  100 m per 100 g", f"count {count}\n    strands {strands}", 1
    )
    spec, _ = compiled(text)
    return dict(kind_words(spec))["rye, its kind"]


@pytest.mark.parametrize(
    ("count", "length", "tex", "named"),
    [
        ("3/28 Nm", 933, 107, "class 0 Lace"),  # 9.33 m a gram, a lace yarn; 1,400 m on a cone of 150 g
        ("8/36 Nm", 450, 222, "class 1 Super Fine"),  # 4.5, sold as fingering
        ("4/20 Nm", 500, 200, "class 1 Super Fine"),  # 5, sold as fine fingering
        ("5/28 Nm", 560, 179, "class 1 Super Fine"),  # 5.6, sold as fine fingering
    ],
)
def test_the_designer_s_yarns(count, length, tex, named):
    words = kind(count)
    assert words.startswith(f"{length} m per 100 g, {tex} tex; {named}")
    assert "Craft Yarn Council" in words and "common practice" in words


def test_a_cone_of_lace_yarn():
    spec, _ = compiled(CLOTH.format(plain="", specked="").replace("count  100 m per 100 g", "count 3/28 Nm", 1))
    assert spec.yarns["rye"].metres_per_100g * 150 / 100 == 1400


def test_held_double_it_is_half_as_long():
    # 4.67 m a gram: class 1; the needles of the single are the lace's
    words = kind("3/28 Nm", 2)
    assert "2 strands together 467 m per 100 g, class 1 Super Fine, needles 2.25 mm (US 1) to 3.25 mm (US 3)" in words


def test_strands_of_a_yarn_in_yarns_made_of_others():
    text = CLOTH.format(plain="", specked="") + ("\nyarn dusk\n    strands rye + rye + flour\n    colour #9b7a5c\n")
    spec, _ = compiled(text)
    assert (strands_of(spec, "rye"), strands_of(spec, "flour")) == (2, 1)


def test_a_yarn_made_of_others_has_a_kind_of_its_own():
    # 100 m with 100 m in 100 g each make 50 m, 2000 tex: super bulky or jumbo, as 100 g are under 100 m.
    text = CLOTH.format(plain="", specked="").replace("stockinette in rye", "stockinette in dusk")
    text += "\nyarn dusk\n    strands rye + flour\n    colour #9b7a5c\n"
    words = dict(kind_words(compiled(text)[0]))
    assert words["dusk, its kind"].startswith("50 m per 100 g, 2000 tex; class 6 Super Bulky or 7 Jumbo")
    assert {"rye, its kind", "flour, its kind"} <= set(words)
