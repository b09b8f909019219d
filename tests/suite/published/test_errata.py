"""The errata sheet, applied to the old print by this file's own reading of it, gives the new print."""

from __future__ import annotations

import re
from functools import cache

import pytest
from support import EXAMPLES, MILL_YARNS

from wale.driver import compile_spec, render
from wale.errata.compare import Errata, compare
from wale.errata.page import page
from wale.errata.printed import Line, printed
from wale.files import MemoryWorld
from wale.outputs import pdf
from wale.pattern import Bullets, Paragraph, Pattern, Section, Steps, Table

MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


@cache
def pattern(text: str) -> Pattern:
    done = compile_spec(MemoryWorld({"a.wale": text, "mill-yarns.wale": MILL_YARNS}), "a.wale")
    assert done.pattern is not None
    return done.pattern


def found(old: Pattern, new: Pattern) -> Errata:
    return compare(printed(old), printed(new), old.sizes, new.sizes)


def with_figures(text: str, readings: list[tuple[str, str, str, str]]) -> str:
    """Give a line with figures read otherwise; all are counted before any is changed."""
    spots = []
    for _, which, old, new in readings:
        number = ORDINALS.index(which) if which in ORDINALS else int(which[:-2] or 1) - 1 if which else 0
        places = [one.span() for one in re.finditer(r"\d+(?:[./]\d+)*", text) if one[0] == old]
        assert which or len(places) == 1
        spots.append((*places[number], new))
    for start, end, new in sorted(spots, reverse=True):
        text = text[:start] + new + text[end:]
    return text


READING = re.compile(r"(?:size (\S+), )?for (?:the (\w+) )?(\S+) read (\S+?)(?:; |\.$)")


def applied(old: Pattern, sheet: Pattern) -> list[tuple[str, str]]:
    """Follow the words of the sheet; gives section and text of each line."""
    lines: dict[str, list[list[str]]] = {}
    for line in printed(old):
        lines.setdefault(line.section, []).append([line.place[:1].upper() + line.place[1:], line.text])
    later: dict[str, list[tuple[int, int, str]]] = {}
    for section in sheet.sections[1:]:
        rows = lines.setdefault(section.title, [])
        places = [row[0] for row in rows]
        (bullets,) = section.parts
        assert isinstance(bullets, Bullets)
        for order, item in enumerate(bullets.items):
            place, text = item.strong.removesuffix(":"), item.text
            if place == "At the beginning":
                later.setdefault(section.title, []).append((0, order, text.removeprefix("insert: ")))
                continue
            if text.startswith("insert after it: "):
                at = places.index(place) + 1
                later.setdefault(section.title, []).append((at, order, text.removeprefix("insert after it: ")))
            elif text == "strike out the line.":
                rows[places.index(place)][1] = ""
            elif text.startswith("read the whole line so: "):
                rows[places.index(place)][1] = text.removeprefix("read the whole line so: ")
            else:
                readings = READING.findall(text)
                assert "; ".join(READING.sub("", text).split()) == ""
                if place in places:
                    row = rows[places.index(place)]
                    row[1] = with_figures(row[1], readings)
                else:  # a row of a table: each figure in its size's column
                    for size in dict.fromkeys(one[0] for one in readings):
                        row = rows[places.index(f"{place}, {size}")]
                        row[1] = with_figures(row[1], [one for one in readings if one[0] == size])
    for title, inserted in later.items():
        for at, _, text in sorted(inserted, reverse=True):
            lines[title].insert(at, ["", text])
    return [(title, text) for title, rows in lines.items() for _, text in rows if text]


def texts(one: Pattern) -> list[tuple[str, str]]:
    by_section: dict[str, list[str]] = {}
    for line in printed(one):
        by_section.setdefault(line.section, []).append(line.text)
    return [(title, text) for title, kept in by_section.items() for text in kept]


def test_less_ease_in_the_pullover_is_told_so_that_the_old_print_becomes_the_new_one() -> None:
    old, new = pattern(MILLRACE), pattern(MILLRACE.replace("ease bust 14 cm", "ease bust 12 cm"))
    errata = found(old, new)
    assert texts(old) != texts(new)
    assert applied(old, page(old, errata)) == texts(new)
    assert errata.redesign == ""
    (back,) = (one for one in page(old, errata).sections if one.title == "Back")
    assert "size S, for 50 read 49" in next(text for strong, text in items(back) if strong == "Step 31:")


def items(section: Section) -> list[tuple[str, str]]:
    (bullets,) = section.parts
    assert isinstance(bullets, Bullets)
    return [(item.strong, item.text) for item in bullets.items]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("hip 8 cm", "hip 12 cm"),
        ("let slope         = 3 cm", "let slope         = 4 cm"),
        ("hem       3 cm", "hem       4 cm"),
        ('about "A drop-shoulder', 'about "A wide drop-shoulder'),
    ],
)
def test_other_changes_of_the_pullover_come_through(old: str, new: str) -> None:
    before, after = pattern(MILLRACE), pattern(MILLRACE.replace(old, new))
    assert texts(before) != texts(after)
    assert applied(before, page(before, found(before, after))) == texts(after)


def sheet(*items: str, title: str = "Back", head: tuple[str, ...] = ("M", "L")) -> Pattern:
    parts = (Steps(tuple(Paragraph(item) for item in items)), Table("Ease", ("cm", *head), (("bust", "4.0", "4.5"),)))
    return Pattern("Hopper", "", head, "A4", None, (Section("piece-back", title, parts),), "wale")


def test_a_figure_that_stands_twice_is_counted() -> None:
    errata = found(sheet("Cast on 8 (8) sts, then 8 (9)."), sheet("Cast on 8 (8) sts, then 10 (9)."))
    assert items(page(sheet(""), errata).sections[1]) == [("Step 1:", "size M, for the third 8 read 10.")]


def test_steps_struck_out_and_inserted_come_through() -> None:
    old = sheet("Cast on 8 sts.", "Work 4 rows.", "Bind off.")
    for new in (
        sheet("Cast on 8 sts.", "Bind off."),
        sheet("Cast on 8 sts.", "Work 4 rows.", "Turn.", "Turn again.", "Bind off."),
        sheet("First wash your hands.", "Cast on 9 sts.", "Work 4 rows.", "Bind off."),
        sheet("Bind off.", "Work 4 rows.", "Cast on 8 sts."),
    ):
        assert applied(old, page(old, found(old, new))) == texts(new)


def test_the_same_print_needs_no_errata() -> None:
    errata = found(sheet("Cast on."), sheet("Cast on."))
    assert errata.entries == ()
    assert page(sheet("Cast on."), errata).sections[1].title == "Nothing to change"


@pytest.mark.parametrize(
    ("new", "why"),
    [
        (sheet("Cast on 8 sts.", "Knit.", title="Front"), "no back"),
        (sheet("Cast on 8 sts.", "Knit.", head=("S", "M")), "the sizes were M, L"),
        (sheet("Cast on 9 sts.", "Purl."), "2 of 2 steps"),
    ],
)
def test_a_redesign_is_told(new: Pattern, why: str) -> None:
    assert why in found(sheet("Cast on 8 sts.", "Knit."), new).redesign


def test_half_of_the_steps_are_no_redesign() -> None:
    assert found(sheet("Cast on 8 sts.", "Knit."), sheet("Cast on 9 sts.", "Knit.")).redesign == ""


def test_the_sheet_can_be_set_without_complaint() -> None:
    errata = found(sheet("Cast on 8 sts.", "Knit."), sheet("Cast on 9 sts.", "Purl."))
    assert pdf.render(page(sheet(""), errata), epoch=0).startswith(b"%PDF")


def test_every_line_has_a_place_of_its_own() -> None:
    lines: tuple[Line, ...] = printed(pattern(MILLRACE))
    assert len({(line.section, line.place) for line in lines}) == len(lines)


def test_a_piece_s_steps_are_in_the_text_as_compared() -> None:
    # what is compared is what is printed: each step's words stand in the text output
    done = compile_spec(MemoryWorld({"a.wale": MILLRACE, "mill-yarns.wale": MILL_YARNS}), "a.wale")
    said = re.sub(r"\s+", " ", render(done, "text", MemoryWorld())[0].decode())
    steps = [line for line in printed(pattern(MILLRACE)) if line.is_step]
    assert len(steps) > 50
    assert all(line.text in said for line in steps)
