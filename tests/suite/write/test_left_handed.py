"""Patterns for the left hand: proven to be the mirror image, and worded, drawn and numbered as one."""

from __future__ import annotations

import base64
import io
import json
import re
from functools import cache

import pytest
from msgspec.structs import replace
from PIL import Image, ImageOps
from support import EXAMPLES, PLAIN, SPEC, world

from wale.driver import Compiled, check_spec, compile_spec, render
from wale.knitting import knit_pattern
from wale.outputs import chart as charts
from wale.outputs import chart_file
from wale.outputs.chart import Room
from wale.pattern import Bullets, Chart, Definitions, Paragraph, Pattern, Section, Steps
from wale.prove.facts import Printed
from wale.prove.mirrored import mirrored
from wale.prove.proof import prove
from wale.prove.reader import read
from wale.source import Source
from wale.write.facts import facts, printed
from wale.write.left_handed import PHRASES

NAMES = ("millrace-pullover", "sluice-hat", "first-cowl")
EVERY = pytest.mark.parametrize("name", NAMES)
SHEAR = f"""wale 1

pattern "Slips"

{PLAIN}
yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif slant
    repeat 4 sts, 4 rows
    key |-| rye, |x| flour
    | x - - - |
    | - x - - |
    | - - x - |
    | - - - x |

swatch easy, worked flat
    motif  slant in rye, flour
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

sizes women S M

piece panel, worked flat
    cast on 24 cm in plain
    work in slant on easy, from the edge
    work 10 cm
    bind off
"""


PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
NECKBAND = PULLOVER[PULLOVER.index("back neck, front neck in plain-round") :]
HOOD = "front neck, back neck in plain\n    hood 60 cm wide, 33 cm deep, overlap 6 sts\n"
COLLAR = "front neck, back neck in plain\n    shawl collar 20 cm, 1x1\n"
OPENED = (
    PULLOVER.replace(NECKBAND, HOOD),
    PULLOVER.replace(NECKBAND, COLLAR).replace("8 cm deep, round", "20 cm deep, square"),
)
"""A hood and a collar that open in front, where another side comes first."""


@cache
def both(name: str) -> tuple[Compiled, Compiled]:
    """Compile an example for either hand, with all that follows row by row."""
    there = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    sizes = ("XS", "L") if name == "millrace-pullover" else ()
    right, left = (
        compile_spec(there, SPEC, sizes, ("charts", "rows", "drawings"), is_left_handed=is_left)
        for is_left in (False, True)
    )
    return right, left


def page(done: Compiled) -> Pattern:
    assert done.pattern is not None
    return done.pattern


def taken(done: Compiled, pattern: Pattern) -> Printed:
    assert done.spec is not None and done.plan is not None
    return printed(done.spec, done.plan, pattern, done.sizes)


def found(done: Compiled, pattern: Pattern) -> list[str]:
    assert done.spec is not None and done.plan is not None
    return [one.message for one in prove(taken(done, pattern), facts(done.spec, done.plan, done.sizes))]


def drawn(done: Compiled) -> list[Chart]:
    return [part for section in page(done).sections for part in section.parts if isinstance(part, Chart)]


def texts(sections: tuple[Section, ...]) -> list[str]:
    told = []
    for part in (part for section in sections for part in section.parts):
        if isinstance(part, Steps | Bullets):
            told += [f"{item.strong} {item.text}" for item in part.items]
        elif isinstance(part, Paragraph):
            told.append(f"{part.strong} {part.text}")
        elif isinstance(part, Definitions):
            told += [f"{term}: {meaning}" for term, meaning in part.items]
        elif isinstance(part, Chart):
            told += [*part.notes, *(colour.name for colour in part.colours)]
    return told


@EVERY
def test_it_is_proven_as_the_mirror_image_of_the_same_plan(name: str) -> None:
    # The proof has the facts of the right hand's plan, and the words with left and right exchanged.
    right, left = both(name)
    assert right.proof is not None and left.proof is not None
    assert left.proof.facts == right.proof.facts
    assert (left.proof.printed.hand, right.proof.printed.hand) == ("left", "right")
    assert left.proof.record()["hand"] == "left"
    assert left.proof.stitches == right.proof.stitches > 0


def test_its_words_are_not_those_of_the_right_hand() -> None:
    right, left = both("millrace-pullover")
    assert found(left, replace(page(left), hand="right"))
    assert found(right, replace(page(right), hand="left"))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("on the left shoulder at the end of row 2", "on the right shoulder at the end of row 2"),
        ("m1R, work in chart to the last 1 st, m1L", "m1L, work in chart to the last 1 st, m1R"),
        ("ssk, work in chart to the last 3 sts, k2tog", "k2tog, work in chart to the last 3 sts, ssk"),
        ("are on the left needle", "are on the right needle"),
        ("Right side: go on", "Left side: go on"),
    ],
)
def test_a_word_of_the_wrong_hand_is_found(old: str, new: str) -> None:
    _, left = both("millrace-pullover")
    known = taken(left, page(left))
    pieces = tuple(
        replace(piece, steps=tuple(step.replace(old, new) for step in piece.steps)) for piece in known.pieces
    )
    assert pieces != known.pieces
    assert left.spec is not None and left.plan is not None
    assert prove(replace(known, pieces=pieces), facts(left.spec, left.plan, left.sizes))


def test_shoulders_bound_off_in_steps_are_mirrored_too() -> None:
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8").replace(", short rows", ", bound off in steps")
    text = text.replace("shoulders, three-needle bind-off", "shoulders, mattress stitch")
    left = compile_spec(world(text), SPEC, is_left_handed=True)
    told = [text for text in texts(page(left).sections) if "shoulder at the start" in text]
    assert told and all(
        "on the left shoulder at the start of row" in text and ", on the right at" in text for text in told
    )
    assert left.proof is not None and left.proof.printed.hand == "left"


@EVERY
def test_charts_are_mirrored_and_their_words_stay(name: str) -> None:
    right, left = map(drawn, both(name))
    assert len(right) == len(left) > 0
    for one, other in zip(right, left, strict=True):
        assert other.from_left and not one.from_left
        assert [row[::-1] for row in one.rows] == list(other.rows)
        assert (one.repeat, one.starts, one.centre) == (other.repeat, other.starts, other.centre)
        if one.repeat is not None:
            assert one.words == other.words


def placed(svg: str, wide: float = 0.0) -> list[tuple[str, float, float]]:
    """Give the texts of a picture with their places from the top and the left; from the right where its width is told.

    In tenths of a mm, halves either way: sorted by text and height.
    """
    found = re.findall(r'<text x="([\d.]+)" y="([\d.]+)"[^>]*>([^<]+)<', svg)
    return sorted((text, float(y), abs(wide - float(x))) for x, y, text in found)


def picture(svg: str) -> Image.Image:
    found = re.search(r'href="data:image/png;base64,([^"]+)"', svg)
    assert found
    return Image.open(io.BytesIO(base64.b64decode(found[1]))).convert("RGB")


@EVERY
@pytest.mark.parametrize("width", [168.0, 70.0])
def test_the_picture_of_a_chart_is_the_mirror_image(name: str, width: float) -> None:
    room = Room(width, 200.0, 4.6)
    for one, other in zip(*map(drawn, both(name)), strict=True):
        for right, left in zip(charts.tiles(one, room, "c"), charts.tiles(other, room, "c"), strict=True):
            assert (right.columns, right.rows) == (left.columns, left.rows)
            assert right.width == pytest.approx(left.width)
            assert len(one.rows) * len(one.rows[0]) > 20_000 or (
                ImageOps.mirror(picture(right.svg)).tobytes() == picture(left.svg).tobytes()
            )
            for seen, mirror in zip(placed(right.svg, right.width), placed(left.svg), strict=True):
                assert seen == (mirror[0], mirror[1], pytest.approx(mirror[2], abs=0.02))


def test_rows_start_and_columns_count_at_the_left() -> None:
    (chart,) = [one for one in drawn(both("millrace-pullover")[1]) if one.repeat]
    (tile,) = charts.tiles(chart, Room(168.0, 200.0, 4.6), "c")
    ends = {int(n): end for end, n in re.findall(r'text-anchor="(end|start)">(\d+)<', tile.svg)}
    assert ends == {row: "end" if row % 2 else "start" for row in range(1, 29)}
    columns = re.findall(r'<text x="([\d.]+)" [^>]*text-anchor="middle">(\d+)<', tile.svg)
    assert [n for _, n in sorted((float(x), int(n)) for x, n in columns)] == [1, 5, 10]
    assert (
        "Read odd rows from left to right, even rows from right to left. Columns are counted from the left." in tile.svg
    )


def test_heavier_lines_of_a_picture_file_count_from_column_one() -> None:
    # Twelve columns of 20 pixels: a line at each end of ten, seen from the left at 200, from the right at 40.
    right, left = both("millrace-pullover")
    (one,) = [chart for chart in drawn(right) if chart.repeat]
    (other,) = [chart for chart in drawn(left) if chart.repeat]
    images = [Image.open(io.BytesIO(chart_file.png(chart))).convert("RGB") for chart in (one, other)]
    heavy = [[x for x in (40, 200) if image.getpixel((x, 9)) == (0x1A, 0x1A, 0x1A)] for image in images]
    assert heavy == [[40], [200]]


ALLOWED = (
    r"wait on the right needle and pass to the left one|from left to right|from right to left|left and right",
    r"right[- ]hand(?:ed|s)?\b|the right hand|left[- ]hand(?:ed)?\b|left edge|at the left\b|from the left",
    r"leans? (?:left|right)|leaning (?:left|right)|right sides? ?(?:together|, the side)|(?:the|with the) right side",
    r"on the (?:left|right) shoulder at|, on the right at the|on the left needle|(?:Left|Right) side:",
    r"Left and right are as you look|on a front, the left side is|right shoulder\.$|left shoulder seam",
    r"over the right side; |for the left side\.|(?:left|right) side: |one of the left|the stitch that is left",
    r"the (?:last|side|stitches) .* left|`left` in one|your right one",
)


@EVERY
def test_no_side_is_named_but_where_it_is_meant(name: str) -> None:
    allowed = re.compile("|".join(ALLOWED))
    for text in texts(page(both(name)[1]).sections):
        rest = allowed.sub("", text)
        assert not re.search(r"\b(?:left|right)\b", rest, re.IGNORECASE), (rest, text)


def test_every_phrase_that_is_exchanged_is_printed_for_the_right_hand() -> None:
    opened = (compile_spec(world(text), SPEC, ("M",)) for text in OPENED)
    known = (*(both(name)[0] for name in NAMES), *opened)
    told = " ".join(text for done in known for text in texts(page(done).sections))
    assert [right for right, _ in PHRASES if right not in told] == []


def test_terms_say_how_they_are_made_and_lean_in_the_mirror() -> None:
    # In the mirror every movement stays and every lean turns: what makes m1L for the one hand makes m1R for the other.
    right, left = (
        dict(part.items)
        for one in both("millrace-pullover")
        for section in page(one).sections
        for part in section.parts
        if section.id == "abbreviations" and isinstance(part, Definitions)
    )
    assert right["k2tog"] == left["k2tog"].replace("leans left", "leans right")
    assert right["ssk"] == left["ssk"].replace("leans right", "leans left")
    assert right["m1L"].partition(": ")[2] == left["m1R"].partition(": ")[2]
    assert right["m1R"].partition(": ")[2] == left["m1L"].partition(": ")[2]
    assert "leaning left" in left["m1L"] and "leaning right" in left["m1R"]
    assert list(left) == sorted(left, key=lambda term: (term.lower(), term))


@EVERY
def test_no_stitch_leans_as_for_the_right_hand(name: str) -> None:
    told = " ".join(texts(page(both(name)[1]).sections))
    assert not re.search(r"k2tog: [^:]*leans right|(?:ssk|ssp): [^:]*leans left|m1L: [^:]* right|m1R: [^:]* left", told)


@EVERY
def test_mirroring_twice_gives_the_pattern_back(name: str) -> None:
    right, left = both(name)
    for section in page(left).sections[1:]:
        first = next(one for one in page(right).sections if one.id == section.id)
        for part, other in zip(section.parts, first.parts, strict=section.id != "proof"):
            if isinstance(part, Steps):
                for item, plain in zip(part.items, other.items, strict=True):  # type: ignore[union-attr]
                    assert (item.address, _words(item)) == (plain.address, _words(item)) or item == plain


def _words(item: Paragraph) -> int:
    return len(f"{item.strong} {item.text}".split())


def test_the_read_line_mirrored_twice_is_itself() -> None:
    for name in NAMES:
        for piece in taken(both(name)[1], page(both(name)[1])).pieces:
            for step in filter(None, piece.steps):
                for line in read(step).instructions:
                    assert mirrored(mirrored(line)) == line


TAPERED = (
    SHEAR[: SHEAR.index("motif slant")]
    + """sizes one

piece panel, worked flat
    edge    EDGE each side
    cast on 48 sts in plain
    work    10 rows
    shape   to 40 sts over 30 rows
    work    10 rows
    bind off
"""
)


@pytest.mark.parametrize("edge", ["1 st", "2 sts"])
def test_it_says_which_decrease_stands_at_which_edge(edge: str) -> None:
    done = compile_spec(world(TAPERED.replace("EDGE", edge)), SPEC, is_left_handed=True)
    told = texts(page(done).sections[:1])
    assert any("Where a right-handed knitter's left edge has k2tog, yours has ssk" in one for one in told)


def test_a_motif_that_does_not_mirror_is_told() -> None:
    done = compile_spec(world(SHEAR), SPEC, is_left_handed=True)
    told = [part.text for part in page(done).sections[0].parts if isinstance(part, Paragraph)]
    assert any(text.startswith("Chart slant does not mirror, so it comes out reversed") for text in told)
    millrace = [
        part.text for part in page(both("millrace-pullover")[1]).sections[0].parts if isinstance(part, Paragraph)
    ]
    assert not any("does not mirror" in text for text in millrace)


def test_an_author_s_note_stays_and_is_spoken_of() -> None:
    spec = SHEAR.replace("    bind off\n", '    note "Sew the tab to the left edge."\n    bind off\n')
    done = compile_spec(world(spec), SPEC, is_left_handed=True)
    told = texts(page(done).sections)
    assert any("Sew the tab to the left edge." in text for text in told)
    assert any("left and right in them are those of the right hand" in text for text in told)


def test_the_drawing_is_mirrored_about_its_middle() -> None:
    right, left = (page(one).drawing for one in both("millrace-pullover"))
    assert right is not None and left is not None
    for one, other in zip(right.parts, left.parts, strict=True):
        assert other.outline == tuple((-x, y) for x, y in one.outline)
        assert other.tile == tuple(row[::-1] for row in one.tile)
        assert (other.turn, other.cell) == (-one.turn, one.cell)


def test_the_page_and_the_plan_agree() -> None:
    _, left = both("sluice-hat")
    html = render(left, "html", world(""))[0].decode()
    assert "For the left hand" in html and "Addresses are those of the right hand" in html
    right = render(both("sluice-hat")[0], "html", world(""))[0].decode()
    assert html.count('href="#why-') == right.count('href="#why-') > 0
    plan = json.loads(render(left, "json", world(""))[0])
    assert plan["hand"] == "left"
    assert {**plan, "hand": "right"} == json.loads(render(both("sluice-hat")[0], "json", world(""))[0])


def test_its_text_is_knitted_from_the_file_as_well() -> None:
    there = world((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    right, left = (
        knit_pattern(Source("a.txt", render(one, "text", there)[0].decode()))
        for one in (compile_spec(there, SPEC, ("M",), is_left_handed=is_left) for is_left in (False, True))
    )
    assert left.problems == right.problems == ()
    assert [[(row.number, row.stitches) for row in one.rows] for one in left.trials] == [
        [(row.number, row.stitches) for row in one.rows] for one in right.trials
    ]
    assert {one.rows[-1].part for one in left.trials} == {"left", ""}
    assert {one.rows[-1].part for one in right.trials} == {"right", ""}


def test_a_spec_with_errors_gives_no_pattern_for_either_hand() -> None:
    there = world("wale 1\n\npattern\n")
    assert compile_spec(there, SPEC, is_left_handed=True).problems == check_spec(there, SPEC).problems
