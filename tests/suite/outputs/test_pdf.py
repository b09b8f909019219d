"""The printed page: tagged, bookmarked, the package's own fonts only, the same bytes each time, no complaint."""

from __future__ import annotations

import hashlib
import io
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pypdf
import pytest
from outputs_sample import FLOUR, RYE, grist, millrace

from wale.outputs import pdf
from wale.pattern import Chart, Paragraph, Pattern, Section, Steps

EPOCH = 1_700_000_000  # 2023-11-14 22:13:20 UTC


@pytest.fixture(scope="module")
def reader() -> pypdf.PdfReader:
    # Without a list for complaints any warning of the typesetter raises: this is the test of it, too.
    return pypdf.PdfReader(io.BytesIO(pdf.render(millrace(), epoch=EPOCH)))


@pytest.fixture(scope="module")
def words(reader: pypdf.PdfReader) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))


def titles(outline: list[Any]) -> list[str]:
    return [title for one in outline for title in (titles(one) if isinstance(one, list) else [one.title])]


def test_the_front_page_holds_title_sizes_and_contents(reader: pypdf.PdfReader) -> None:
    front = reader.pages[0].extract_text()
    for word in ("Millrace", "Sizes XS (S, M, L, XL, 2XL, 3XL)", "Contents", "Materials", "Abbreviations"):
        assert word in front


def test_all_parts_are_printed(words: str) -> None:
    for said in (
        "provisionally cast on 147 (159, 171, 183, 195, 207, 219) sts.",
        "Purl 1 row: this is the fold.",
        "Row 28 (WS):",
        "Finished measures",
        "Please check",
        "E neck width 16.0 16.5 17.0 17.5 18.0 18.5 19.0",
    ):
        assert said in words


def test_every_page_names_the_pattern_and_counts(reader: pypdf.PdfReader) -> None:
    total = len(reader.pages)
    for number, page in enumerate(reader.pages, 1):
        said = page.extract_text()
        assert f"{number} / {total}" in said
        assert "Millrace" in said


def test_the_large_chart_is_split_into_six_parts_one_a_page(reader: pypdf.PdfReader) -> None:
    # 120 columns of 2 mm or more need two parts across 168 mm; 160 rows three up: sixty, sixty, forty.
    found = [re.findall(r"Part (\d) of 6", page.extract_text()) for page in reader.pages]
    assert [part for parts in found for part in parts] == list("123456")
    assert max(map(len, found)) <= 2


def test_the_file_is_tagged_and_says_its_language(reader: pypdf.PdfReader) -> None:
    root: Any = reader.trailer["/Root"]
    assert root["/StructTreeRoot"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    metadata = root["/Metadata"].get_data().decode()
    assert "pdfuaid:part" in metadata


def test_figures_have_alternative_texts_and_header_cells_are_tagged(reader: pypdf.PdfReader) -> None:
    kinds: dict[str, list[Any]] = {}

    def walk(node: Any) -> None:
        node = node.get_object()
        if isinstance(node, pypdf.generic.ArrayObject):
            for child in node:
                walk(child)
        elif isinstance(node, pypdf.generic.DictionaryObject):
            kinds.setdefault(str(node.get("/S")), []).append(node)
            if "/K" in node:
                walk(node["/K"])

    walk(reader.trailer["/Root"]["/StructTreeRoot"]["/K"])
    # One drawing, one small chart, six parts of the large one, six legend cells, one schematic.
    assert len(kinds["/Figure"]) == 1 + 1 + 6 + 6 + 1
    assert all(figure.get("/Alt") for figure in kinds["/Figure"])
    assert kinds["/TH"]
    assert len(kinds["/H1"]) == 1
    assert len(kinds["/Table"]) == 3


def test_bookmarks_are_the_headings(reader: pypdf.PdfReader) -> None:
    assert titles(reader.outline) == [
        "Millrace", "Materials", "Gauge", "Sizes", "Abbreviations", "Back", "Hem and body", "Neck & shoulders",
        "Chart: Grist", "Schematic: Back", "Charts", "Chart: The whole back",
    ]  # fmt: skip


def test_metadata_come_from_the_pattern_and_the_epoch(reader: pypdf.PdfReader) -> None:
    data = reader.metadata
    assert data is not None
    assert data.title == "Millrace"
    assert data.author is None
    assert data["/Keywords"] == "knitting, pullover, stranded"
    assert data["/CreationDate"] == data["/ModDate"] == "D:20231114221320Z"


def test_only_the_fonts_of_the_package_are_used_and_all_are_embedded(reader: pypdf.PdfReader) -> None:
    names = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index, union-attr]
            for kin in font.get_object()["/DescendantFonts"]:
                descriptor = kin.get_object()["/FontDescriptor"]
                assert "/FontFile2" in descriptor
                names.add(str(kin.get_object()["/BaseFont"]).partition("+")[2])
    assert {re.sub("-(Semi-Bold|Italic)$", "", name) for name in names} == {"Wale-Sans", "Wale-Serif"}


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("letter", (612, 792))])
def test_the_paper_is_the_pattern_s(paper: str, size: tuple[int, int]) -> None:
    # A4 is 210 by 297 mm, letter 8.5 by 11 inches, 72 points an inch.
    pattern = Pattern("Sluice", "", ("M",), paper, None, (), "wale")
    box = pypdf.PdfReader(io.BytesIO(pdf.render(pattern, epoch=0))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="A4 or letter"):
        pdf.render(Pattern("Sluice", "", ("M",), "A5", None, (), "wale"), epoch=0)


def test_a_character_without_glyph_is_complained_of_and_never_taken_from_the_system() -> None:
    pattern = Pattern("Sluice 水", "Žluťoučký, ελιά, мельница, ⅓", ("M",), "A4", None, (), "wale")
    with pytest.raises(pdf.TypesettingError, match=r"no glyph for 水 \(U\+6C34\)"):
        pdf.render(pattern, epoch=0)
    complaints: list[str] = []
    page = pypdf.PdfReader(io.BytesIO(pdf.render(pattern, epoch=0, complaints=complaints))).pages[0]
    assert complaints == ["no glyph for 水 (U+6C34)"]
    assert "Sluice �" in page.extract_text()
    assert "ελιά, мельница" in page.extract_text()


def test_a_warning_of_the_typesetter_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    read = pdf.document.read_style
    monkeypatch.setattr(pdf.document, "read_style", lambda name: read(name) + "p { no-such-property: 1 }")
    pattern = Pattern("Sluice", "", ("M",), "A4", None, (Section("a", "A", (Paragraph("b"),)),), "wale")
    with pytest.raises(pdf.TypesettingError, match="no-such-property"):
        pdf.render(pattern, epoch=0)


def test_the_same_pattern_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib; from outputs_sample import millrace; from wale.outputs import html, pdf, text; "
        "p = millrace(large=False); print(hashlib.sha256(pdf.render(p, epoch=1700000000)).hexdigest(), "
        "hashlib.sha256((html.render(p) + text.render(p)).encode()).hexdigest())"
    )
    paths = os.pathsep.join([str(Path(__file__).parent), *sys.path])
    digests = [
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": paths},
        ).stdout.split()
        for seed in ("1", "2")
    ]
    assert len(digests[0][0]) == hashlib.sha256().digest_size * 2
    assert digests[0] == digests[1]


def test_steps_are_numbered_from_their_start(words: str) -> None:
    # The reader sets markers apart from their items.
    assert re.search(r"\b23\.", words)


@pytest.mark.parametrize("lines", range(25, 33))
def test_the_last_line_never_stands_on_a_page_alone(lines: int) -> None:
    steps = Steps(tuple(Paragraph(f"Knit row {n}.") for n in range(lines)))
    pattern = Pattern("Sluice", "", ("M",), "A4", None, (Section("a", "A", (steps,)),), "wale")
    last = pypdf.PdfReader(io.BytesIO(pdf.render(pattern, epoch=0))).pages[-1].extract_text()
    assert "Made with wale" in last
    assert "Knit row" in last


@pytest.mark.parametrize("before", range(20, 28))
def test_a_heading_keeps_two_steps(before: int) -> None:
    above = Steps(tuple(Paragraph(f"Knit row {n}.") for n in range(before)))
    below = Steps(tuple(Paragraph(f"Sew seam {n}.") for n in range(6)))
    pattern = Pattern(
        "Sluice", "", ("M",), "A4", None, (Section("a", "A", (above,)), Section("b", "Making up", (below,))), "wale"
    )
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf.render(pattern, epoch=0))).pages[1:]]
    page = next(page for page in pages if "Making up" in page)
    assert "Sew seam 0" in page
    assert "Sew seam 1" in page


def test_a_chart_of_too_many_pages_is_printed_as_an_overview() -> None:
    chart = Chart("Sky", grist(500, 800), (RYE, FLOUR), 0.9, True, (1, 12, 1, 28))
    pattern = Pattern("Sluice", "", ("M",), "A4", None, (Section("charts", "Charts", (chart,)),), "wale")
    pages = pypdf.PdfReader(io.BytesIO(pdf.render(pattern, epoch=0))).pages
    assert len(pages) == 2
    assert re.search(r"cell by cell it would fill \d\d pages", re.sub(r"\s+", " ", pages[1].extract_text()))


def test_only_what_is_linked_to_keeps_an_id(reader: pypdf.PdfReader) -> None:
    # Sections are linked to by the contents; steps, tables and pictures are not.
    assert len(reader.named_destinations) == len(millrace().sections)
