"""An invented pattern with everything that a page can hold: seven sizes, two charts, a schematic, a drawing."""

from __future__ import annotations

from wale.pattern import (
    Bullets,
    Caution,
    Chart,
    ChartColour,
    ChartStart,
    Definitions,
    Dimension,
    Drawing,
    DrawnPart,
    Paragraph,
    Pattern,
    Schematic,
    Section,
    Steps,
    Table,
)

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")
RYE = ChartColour("rye", "#8a5a2b", "")
FLOUR = ChartColour("flour", "#efe6d2", "dot")


def grist(rows: int, columns: int) -> tuple[tuple[int, ...], ...]:
    """A small lattice of diamonds, bottom row first."""
    return tuple(
        tuple(int((c + r) % 12 in (5, 6) or (c - r) % 12 in (5, 6)) for c in range(columns)) for r in range(rows)
    )


def small_chart() -> Chart:
    cells = [list(row) for row in grist(28, 24)]
    for row in range(24, 28):
        for column in (0, 1, 22, 23):
            cells[row][column] = -1
    starts = tuple(
        ChartStart(
            f"{piece} {', '.join(size for size, one in zip(SIZES, columns, strict=True) if one == column)}", column
        )
        for piece, columns in (("back", (1, 1, 7, 7, 8, 12, 12)), ("sleeve", (2, 3, 3, 4, 9, 9, 11)))
        for column in dict.fromkeys(columns)
    )
    words = tuple(
        (
            f"Row {n} ({'RS' if n % 2 else 'WS'}):",
            ", ".join(f"{1 + (n + i) % 4} {'flour' if i % 2 else 'rye'}" for i in range(9)),
        )
        for n in range(1, 29)
    )
    return Chart(
        "Grist",
        tuple(map(tuple, cells)),
        (RYE, FLOUR),
        0.9,
        True,
        (1, 12, 1, 28),
        starts,
        words,
        ("The repeat above starts 6 sts along.",),
    )


def large_chart() -> Chart:
    colours = (RYE, FLOUR, ChartColour("bran", "#c59a5f", "x"))
    cells = tuple(
        tuple(2 if (r // 20 + c // 30) % 5 == 0 and cell else cell for c, cell in enumerate(row))
        for r, row in enumerate(grist(160, 120))
    )
    return Chart("The whole back", cells, colours, 0.88, False, (1, 12, 1, 28))


def back_schematic() -> Schematic:
    outline = (
        (0.0, 0.0), (50.0, 0.0), (50.0, 12.0), (46.0, 24.0), (53.0, 40.0), (53.0, 58.0), (35.0, 61.0), (34.0, 59.0),
        (19.0, 59.0), (18.0, 61.0), (0.0, 58.0), (0.0, 40.0), (4.0, 24.0), (0.0, 12.0),
    )  # fmt: skip

    def grow(first: float, step: float) -> tuple[str, ...]:
        return tuple(f"{first + step * n:.1f}" for n in range(7))

    return Schematic(
        "Back",
        "M",
        outline,
        (((0.0, 3.0), (50.0, 3.0)), ((0.0, 40.0), (53.0, 40.0))),
        (
            Dimension("A", "hip", (0.0, 0.0), (50.0, 0.0), grow(44.0, 3.0)),
            Dimension("B", "waist", (4.0, 24.0), (46.0, 24.0), grow(36.0, 3.0)),
            Dimension("C", "bust", (0.0, 40.0), (53.0, 40.0), grow(47.0, 3.0)),
            Dimension("D", "shoulder", (35.0, 61.0), (53.0, 61.0), grow(14.0, 2.0)),
            Dimension("E", "neck width", (18.0, 61.0), (35.0, 61.0), grow(16.0, 0.5)),
            Dimension("F", "hem to underarm", (0.0, 0.0), (0.0, 40.0), grow(40.0, 0.0)),
            Dimension("G", "armhole", (53.0, 40.0), (53.0, 58.0), grow(16.0, 1.0)),
            Dimension("H", "body length", (53.0, 0.0), (53.0, 61.0), grow(59.0, 1.0)),
            Dimension("I", "neck depth", (26.5, 59.0), (26.5, 61.0), grow(2.0, 0.0)),
        ),
    )


def pullover_drawing() -> Drawing:
    tile = tuple(tuple("#efe6d2" if cell else "#8a5a2b" for cell in row) for row in grist(12, 12))
    cell = (0.34, 0.3)
    body = ((0.0, 3.0), (53.0, 3.0), (53.0, 58.0), (35.0, 61.0), (33.0, 55.0), (26.5, 53.0), (20.0, 55.0), (18.0, 61.0),
            (0.0, 58.0))  # fmt: skip
    left = ((0.0, 40.0), (0.0, 58.0), (-30.0, 24.0), (-22.0, 17.0))
    right = tuple((53.0 - x, y) for x, y in left)
    cuff = ((-30.0, 24.0), (-34.0, 19.5), (-26.0, 12.5), (-22.0, 17.0))
    plain = (("#8a5a2b",),)
    return Drawing(
        (
            DrawnPart(
                ((18.0, 61.0), (20.0, 59.0), (33.0, 59.0), (35.0, 61.0), (33.0, 55.0), (20.0, 55.0)), plain, cell
            ),
            DrawnPart(left, tile, cell),
            DrawnPart(right, tile, cell),
            DrawnPart(cuff, plain, cell),
            DrawnPart(tuple((53.0 - x, y) for x, y in cuff), plain, cell),
            DrawnPart(body, tile, cell),
            DrawnPart(((0.0, 0.0), (53.0, 0.0), (53.0, 3.0), (0.0, 3.0)), plain, cell),
        ),
        "The pullover laid flat: a lattice of flour diamonds on rye, hem and cuffs in rye",
    )


def _shaping() -> Steps:
    items = [
        Paragraph("Using the 3 mm needle and rye, provisionally cast on 147 (159, 171, 183, 195, 207, 219) sts.",
                  "Cast on:", "back.cast-on"),
        Paragraph("Work 12 (12, 12, 12, 14, 14, 14) rows in stockinette, ending after a WS row.",
                  "Facing:", "back.facing"),
        Paragraph("Purl 1 row: this is the fold.", "Turning row (RS):", "back.turn"),
        Paragraph("Change to the 3.5 mm needle and work row 1 of the chart: 1 st rye, begin at the triangle of "
                  "your size, repeat the 12 sts to the last st, 1 st rye; 161 (173, 185, 197, 209, 221, 233) sts.",
                  "Next row (RS):", "back.work[1]"),
    ]  # fmt: skip
    for n in range(18):
        items.append(
            Paragraph(
                "K1, ssk, work in the chart to the last 3 sts, k2tog, k1; repeat on every 4th row 5 (5, 6, 6, 7, 7, 8) "
                f"times, then every 6th row 4 times; {161 - 2 * n} ({173 - 2 * n}, {185 - 2 * n}) sts remain.",
                "Each decrease row (RS):",
                f"back.shape[{n + 1}]",
            )
        )
    return Steps(tuple(items), "Hem and body")


def millrace(paper: str = "A4", *, large: bool = True) -> Pattern:
    """The Millrace pullover, made up for these tests; with the chart of the whole back if `large`."""
    measures = Table(
        "Finished measures",
        ("cm", *SIZES),
        (
            ("To fit bust", *(str(78 + 8 * n) for n in range(7))),
            ("Bust", *(str(94 + 6 * n) for n in range(7))),
            ("Body length", *(f"{59 + n}.5" for n in range(7))),
            ("Sleeve length", *(f"{50 - n / 2:.1f}" for n in range(7))),
        ),
        "Measured after washing, laid flat. The ease at the bust is 14 cm.",
    )
    yarn = Table(
        "Yarn by size",
        ("Yarn", *SIZES),
        (("rye", *(f"{310 + 25 * n} g" for n in range(7))), ("flour", *(f"{180 + 15 * n} g" for n in range(7)))),
    )
    sections = (
        Section(
            "materials",
            "Materials",
            (
                Definitions(
                    (
                        ("rye", "2/8 Nm wool, 400 m per 100 g, the colour of the mill's own flour sacks, 100 g cones"),
                        ("flour", "2/8 Nm wool, 400 m per 100 g"),
                        ("Needles", "3.5 mm for the body, 3 mm for the facing, 3.25 mm for the bands"),
                    )
                ),
                yarn,
            ),
        ),
        Section(
            "gauge",
            "Gauge",
            (
                Paragraph("40 sts = 13.6 cm and 40 rows = 12.2 cm in grist on 3.5 mm needles, washed."),
                Bullets(
                    (
                        Paragraph("Facing: 28 sts and 40 rows in 10 cm."),
                        Paragraph("Bands: 27 sts and 38 rows in 10 cm."),
                    )
                ),
                Caution("Please check", "The swatch was not stretched, so whether it goes on is not known."),
            ),
        ),
        Section("sizes", "Sizes", (measures,)),
        Section(
            "abbreviations",
            "Abbreviations",
            (
                Definitions(
                    (
                        ("k", "knit"),
                        ("k2tog", "knit 2 together: a decrease that leans to the right"),
                        (
                            "ssk",
                            "slip 2 sts one by one as if to knit, put the left needle through the fronts of both and "
                            "knit them together: a decrease that leans to the left; keep the first st loose so that "
                            "both decreases look alike on the two-colour fabric",
                        ),
                        ("RS, WS", "right side, wrong side"),
                    )
                ),
            ),
        ),
        Section(
            "back",
            "Back",
            (
                Paragraph("Worked flat from the hem up. The chart is read from right to left on RS rows."),
                _shaping(),
                Steps(
                    (Paragraph("Work short rows over 40 sts.", "Shoulders:", "back.shoulders"),),
                    "Neck & shoulders",
                    23,
                ),
                Caution("Caution", "Floats on rows 5 and 19 are longer than 2.5 cm: catch them once."),
                small_chart(),
                back_schematic(),
            ),
        ),
        Section("charts", "Charts", (large_chart(),) if large else (Paragraph("See the back."),)),
    )
    return Pattern(
        title="Millrace",
        about="A drop-shoulder pullover in two colours, worked flat from the hem up, for the mill's crew <& friends>.",
        sizes=SIZES,
        paper=paper,
        drawing=pullover_drawing(),
        sections=sections,
        compiler="wale 0.1.0",
        keywords=("knitting", "pullover", "stranded"),
    )
