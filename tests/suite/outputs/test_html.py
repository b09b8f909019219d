"""The web page: one file, landmarks, headings in order, names for pictures, ids that hold still."""

from __future__ import annotations

import re
import subprocess
import sys
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from outputs_sample import SIZES, millrace

from wale.outputs import document, html
from wale.pattern import Bullets, Paragraph, Pattern, Section, Steps, Table

VOID = {"meta", "link", "br", "img", "input", "hr"}
SVG_EMPTY = {"path", "rect", "image", "polygon"}


class Page(HTMLParser):
    """Collects elements as (tag, attributes, tags of the ancestors) and checks that they nest."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None], tuple[str, ...]]] = []
        self.words: list[str] = []
        self._open: list[str] = []
        self.feed(text)
        assert not self._open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), tuple(self._open)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in SVG_EMPTY | VOID
        self.elements.append((tag, dict(attrs), tuple(self._open)))

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self._open:
            self.words.append(data)

    def all(self, *tags: str) -> list[tuple[str, dict[str, str | None], tuple[str, ...]]]:
        return [element for element in self.elements if element[0] in tags]


@pytest.fixture(scope="module")
def text() -> str:
    return html.render(millrace())


@pytest.fixture(scope="module")
def page(text: str) -> Page:
    return Page(text)


def test_the_page_has_each_landmark_once(page: Page) -> None:
    for landmark in ("header", "nav", "main", "footer", "h1", "title"):
        # An SVG has a title of its own; the page's stands in its head.
        found = [e for e in page.all(landmark) if "svg" not in e[2]]
        assert len(found) == 1, landmark


def test_the_language_and_the_screen_of_a_phone_are_declared(page: Page) -> None:
    assert page.all("html")[0][1]["lang"] == "en"
    assert {"name": "viewport", "content": "width=device-width, initial-scale=1"} in [e[1] for e in page.all("meta")]


def test_the_first_link_skips_to_the_pattern(page: Page) -> None:
    assert page.all("a")[0][1]["href"] == "#main"


def test_headings_go_down_one_level_at_a_time(page: Page) -> None:
    levels = [int(tag[1]) for tag, _, _ in page.all("h1", "h2", "h3", "h4", "h5", "h6")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_ids_are_unique_and_every_reference_has_its_target(page: Page) -> None:
    ids = [attrs["id"] for _, attrs, _ in page.elements if "id" in attrs]
    assert len(ids) == len(set(ids))
    for _, attrs, _ in page.elements:
        for reference in (attrs.get("aria-labelledby") or "").split():
            assert reference in ids
        href = attrs.get("href") or ""
        if href.startswith("#"):
            assert href[1:] in ids


def test_every_picture_has_a_name(page: Page) -> None:
    pictures = page.all("svg")
    # The drawing, two charts, five legend cells (rye, flour, no stitch; rye, flour, bran make six) and one schematic.
    assert len(pictures) == 1 + 2 + 6 + 1
    names = [e for e in page.all("title") if "svg" in e[2]]
    assert len(names) == len(pictures)
    assert all(attrs["role"] == "img" and attrs["aria-labelledby"] for _, attrs, _ in pictures)
    assert not page.all("img")


def test_header_cells_have_scope_and_tables_a_caption(page: Page) -> None:
    assert all(attrs.get("scope") in ("col", "row") for _, attrs, _ in page.all("th"))
    assert len(page.all("caption")) == len(page.all("table")) == 3


def test_tables_scroll_in_a_box_that_the_keyboard_reaches(page: Page) -> None:
    boxes = [attrs for tag, attrs, _ in page.elements if (attrs.get("class") or "").startswith("scroll")]
    assert len(boxes) == 3 + 2
    assert all(attrs["tabindex"] == "0" and attrs["role"] == "region" for attrs in boxes)


def test_the_page_needs_no_other_file_and_no_script(text: str, page: Page) -> None:
    assert not page.all("script", "link")
    addresses = re.findall(r"""(?:src|href)=["']([^"']+)|url\(([^)]+)\)""", text)
    assert {a or b for a, b in addresses if not (a or b).startswith(("#", "data:"))} == set()
    assert "@import" not in text


def test_words_are_escaped(text: str, page: Page) -> None:
    assert "mill's crew <& friends>." in "".join(page.words).replace("&#39;", "'")
    assert "<& friends>" not in text


def test_hostile_words_stay_words() -> None:
    bad = '"><script>alert(1)</script>'
    steps = Steps((Paragraph(bad, bad, bad),), bad)
    table = Table(bad, (bad, bad), ((bad, bad),), bad)
    pattern = Pattern(bad, bad, (bad,), "A4", None, (Section(bad, bad, (steps, table)),), bad, "en", (bad,))
    assert "<script" not in html.render(pattern)


def test_an_address_becomes_an_id_and_stays_readable(page: Page) -> None:
    found = {attrs["data-address"]: attrs["id"] for _, attrs, _ in page.elements if "data-address" in attrs}
    assert found["back.cast-on"] == "back-cast-on"
    assert found["back.shape[2]"] == "back-shape-2"


def test_the_same_slug_twice_is_numbered() -> None:
    ids = document.Ids()
    assert [ids.make(a) for a in ("back.edge", "back-edge", "2/8 Nm", "†")] == [
        "back-edge",
        "back-edge-2",
        "p-2-8-nm",
        "part",
    ]


def test_short_size_brackets_stay_whole_and_long_ones_keep_their_head() -> None:
    short = str(document.prose("161 (173, 185) sts & more"))
    assert short == "161\u00a0(173,\u00a0185) sts &amp; more"
    long = str(document.prose("161 (173, 185, 197, 209, 221, 233) sts"))
    assert long == "161\u00a0(173, 185, 197, 209, 221, 233) sts"
    assert str(document.prose("knit (or purl) on")) == "knit (or purl) on"


def test_all_words_of_the_pattern_are_on_the_page(page: Page) -> None:
    said = re.sub(r"\s+", " ", "".join(page.words))
    for words in (
        "Cast on: Using the 3 mm needle and rye, provisionally cast on 147 (159, 171, 183, 195, 207, 219) sts.",
        "Row 28 (WS):",
        "The repeat above starts 6 sts along.",
        "Floats on rows 5 and 19 are longer than 2.5 cm",
        "Measured after washing, laid flat.",
        f"Sizes {SIZES[0]} ({', '.join(SIZES[1:])})",
        "back XS, S (column 1)",
    ):
        assert words in said


def test_a_measure_has_one_decimal(text: str) -> None:
    # Neck width grows by 0.5 cm a size from 16: 16.0 to 19.0.
    row = text[text.index('scope="row">neck width<') :]
    assert re.findall(r'class="figures">([^<]+)<', row)[:7] == ["16.0", "16.5", "17.0", "17.5", "18.0", "18.5", "19.0"]


def test_one_size_is_not_bracketed() -> None:
    assert document.size_line(("M",)) == "Size M"
    assert document.size_line(()) == ""


def test_the_web_page_needs_no_typesetter() -> None:
    heavy = ("weasyprint", "PIL", "jinja2", "fontTools")
    code = f"import sys; import wale.outputs.html; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_steps_are_numbered_from_their_start(page: Page) -> None:
    assert [attrs.get("start") for _, attrs, _ in page.all("ol") if attrs.get("class") == "steps"] == [None, "23"]


def test_a_wide_table_is_set_smaller_and_a_long_one_may_be_split() -> None:
    wide = Table("Shaping", ("", *SIZES), tuple(("1st", *["103: 107, 2/10"] * 7) for _ in range(11)))
    small = Table("Shaping", ("", "M"), (("1st", "3"),))
    made = html.render(Pattern("Sluice", "", SIZES, "A4", None, (Section("a", "A", (wide, small)),), "wale"))
    assert re.findall(r'class="(scroll[^"]*)"', made) == ["scroll dense tight line", "scroll whole tight line"]


def test_what_stands_between_backticks_is_code_and_a_single_one_stays() -> None:
    assert str(document.prose("a line `let x = 3 (4)` <changes> it")) == (
        "a line <code>let x = 3 (4)</code> &lt;changes&gt; it"
    )
    assert str(document.prose("5` long")) == "5` long"


def columned(rows: int) -> list[int]:
    """Rows in each table that a table of four short columns becomes."""
    table = Table("Starts", ("row", "sts", "RS", "WS"), tuple((str(n), "100", "1", "12") for n in range(rows)))
    made = html.render(Pattern("Sluice", "", ("M",), "A4", None, (Section("a", "A", (table,)),), "wale"))
    page = Page(made)
    assert all("aria-labelledby" in attrs for _, attrs, _ in page.all("table")[1:])
    assert len(page.all("caption")) == len(page.all("table"))
    assert "".join(page.words).count("Starts") == 1
    return [made_table.count("<tr>") - 1 for made_table in re.findall(r"<table.*?</table>", made, re.DOTALL)]


def test_a_long_narrow_table_is_set_in_columns_of_about_twelve_rows() -> None:
    assert columned(12) == [12]
    assert columned(20) == [10, 10]
    assert columned(33) == [11, 11, 11]
    # No column is longer than thirty rows, however many there are.
    assert columned(150) == [30] * 5


def test_rows_of_a_list_keep_together_in_columns_with_their_size_first() -> None:
    """Of each size one line: its name and each row with its stitches are cells, and the words stay as they were."""
    text = "3: 61 sts, 1/11; 7: 63 sts, 12/12"
    items = (
        Paragraph(text, "XS:"),
        Paragraph("3: 9 sts, 2/4; 5: 7 sts, 1/1; 9: 5 sts, 4/2", "S:"),
        Paragraph("one; two"),
    )
    page = html.render(Pattern("P", "", ("XS", "S"), "A4", None, (Section("a", "A", (Bullets(items),)),), "wale"))
    lines = re.findall(r"<li[^>]*>(.*?)</li>", page)
    assert [re.sub(r"<[^>]+>", "", line) for line in lines[-3:]] == [f"XS: {text}", f"S: {items[1].text}", "one; two"]
    assert [re.findall(r'<\w+ class="entry">([^<]*)<', line) for line in lines[-3:]] == [
        ["XS:", "3: 61 sts, 1/11;", "7: 63 sts, 12/12"],
        ["S:", "3: 9 sts, 2/4;", "5: 7 sts, 1/1;", "9: 5 sts, 4/2"],
        [],
    ]
