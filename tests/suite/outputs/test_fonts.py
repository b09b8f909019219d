"""Fonts: the list agrees with the files, licences are there, what a text needs is found."""

from __future__ import annotations

import io
from importlib import resources
from pathlib import Path

from fontTools.ttLib import TTFont

from wale.outputs import fonts

FOLDER = resources.files("wale.outputs").joinpath("fonts")
ROOT = Path(__file__).parents[3]


def test_the_list_names_the_characters_of_each_file() -> None:
    earlier: dict[tuple[str, int, str], set[int]] = {}
    for face in fonts.faces():
        font = TTFont(io.BytesIO(FOLDER.joinpath(f"{face.file}.woff2").read_bytes()))
        own = set(font.getBestCmap())
        seen = earlier.setdefault((face.family, face.weight, face.style), set())
        listed = {code for first, last in face.ranges for code in range(first, last + 1)}
        assert listed == own - seen
        seen |= own


def test_both_forms_of_a_font_have_the_same_glyphs() -> None:
    for face in fonts.needed(""):
        plain = TTFont(io.BytesIO(fonts.truetype(face.address)))
        packed = TTFont(io.BytesIO(FOLDER.joinpath(f"{face.file}.woff2").read_bytes()))
        assert plain.getBestCmap() == packed.getBestCmap()
        assert plain["head"].modified == packed["head"].modified


def test_figures_are_of_one_width() -> None:
    for face in fonts.needed(""):
        font = TTFont(io.BytesIO(fonts.truetype(face.address)))
        names = font.getBestCmap()
        assert len({font["hmtx"][names[ord(digit)]][0] for digit in "0123456789"}) == 1


def test_the_fonts_stay_below_600_kilobytes_and_come_with_their_licence() -> None:
    assert sum(len(file.read_bytes()) for file in FOLDER.iterdir()) < 600_000
    for name in ("source-serif-4", "source-sans-3"):
        assert "SIL OPEN FONT LICENSE" in (ROOT / "docs" / "licences" / f"{name}.txt").read_text("utf-8")


def test_signs_of_the_trade_can_be_drawn() -> None:
    assert all(map(fonts.drawable, "½¼¾×−–—…°±′″“”‘’•·äéçžł ελ мя\u00a0\n"))
    assert not fonts.drawable("水")


def test_scripts_are_added_where_they_occur() -> None:
    assert {face.subset for face in fonts.needed("12 × 3½")} == {"latin"}
    assert {face.subset for face in fonts.needed("žluť")} == {"latin", "latin-ext"}
    assert {face.subset for face in fonts.needed("мельница")} == {"latin", "cyrillic"}


def test_a_rare_fraction_is_spelt_out_and_an_unknown_sign_is_named() -> None:
    assert fonts.settable("⅓ inch") == ("1⁄3 inch", ())
    assert fonts.settable("a水b火水") == ("a\ufffdb\ufffd\ufffd", ("水", "火"))
