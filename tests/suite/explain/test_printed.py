"""Every number of the text output has a reason whose arithmetic gives it, or belongs to a class by its own rule."""

import re
from fractions import Fraction

import pytest
from arithmetic import reckon
from msgspec.structs import replace
from support import EXAMPLES, SHARED, world

from wale.driver import compile_spec, render
from wale.explain import drafted, told
from wale.explain.printed import numbers
from wale.explain.structure import CLASSES

NUMBER = re.compile(r"\d+(?:\.\d+)?")
COWL = """
piece cowl, in the round
    cast on 62 cm in plain-round
    rib     3 cm, 2x2
    work    in grist on easy-round, whole repeats
"""
DRIFT = f"""
motif drift
    repeat 8 sts, 8 rows
    key    |-| rye, |x| flour
{"    | - - - - - - - - |" * 5}
    | x - - - - - - - |
    | - - - - - - - x |
    | - x - - - - - - |

swatch drifting, in the round
    motif  drift in rye, flour
    needle 3.5 mm
    washed 22 sts and 26 rows in 10 cm
{COWL.replace("grist on easy-round, whole repeats", "drift on drifting, from the edge")}"""
MOTIF = "motif made\n    repeat {sts} sts, {rows} rows\n    key    |-| rye, |x| flour\n{cells}\n"


def drawn(*lines):
    """The cowl in a motif of its own, the top line last knitted, as (line, text in its place)."""
    cells = "\n".join(f"    | {' '.join(line)} |" for line in lines)
    motif = MOTIF.format(sts=len(lines[0]), rows=len(lines), cells=cells)
    swatch = DRIFT[DRIFT.index("swatch drifting") : DRIFT.index(" 10 cm\n")].replace("drift in", "made in")
    swatch = swatch.replace("drifting", "made")
    return COWL, f"\n{motif}\n{swatch} 10 cm\n{COWL.replace('grist on easy-round', 'made on made')}"


CUT = COWL.replace(
    "    cast on 62 cm in plain-round\n    rib     3 cm, 2x2\n", "    steek 7 sts\n    cast on 62 cm in easy-round\n"
)
RESTS = (COWL, DRIFT.replace("|    |", "|\n    |"))
"""A yarn that rests for five rounds, and passes too far over the end of a round."""
LACE = (
    "|<| cable-4-left\n    | o - - - - o - - - - - - - |",
    "|<| cable-4-left, |y| yo, |/| k2tog, |s| ssk\n    | o - - - - o - y s - / y - |",
)
MIRRORING = {
    "mirrors about rows": drawn("x---", "xx--", "x---", "----"),
    "mirrors about gaps": drawn("xx--", "xxxx", "----"),
    "mirrors some stitches along": drawn("---xx-", "---x--", "x-----", "xx----", "------"),
    "its mirror image higher": drawn("---x", "--xx", "x---", "xx--"),
    "half a turn": drawn("-x--", "xx--", "x---"),
    "repeats after two": drawn("x-x-", "-x-x", "----"),
    "bands": drawn("------", "x--x--", "-xx-xx", "x--x--", "------", "xx----", "-xx---"),
}
"""What a chart's caption says of a motif, with one that it says it of."""
PLAIN = "starts at the plainest column"
PRINTS = {
    "the pullover": ("millrace-pullover", (), "", ""),
    "the pullover in M": ("millrace-pullover", ("M",), "", ""),
    "a folded neckband": ("millrace-pullover", ("M",), "2.5 cm, 1x1", "2.5 cm, 1x1, folded"),
    "straight shoulders": ("hopper-vest", ("M",), "shoulders slope slope, short rows", "shoulders straight"),
    "the vest": ("hopper-vest", (), "", ""),
    "a V that begins within the armholes": ("hopper-vest", (), "let vee      = neck-width", "let vee      = 22 cm"),
    "armholes shaped on any row": (
        "hopper-vest",
        (),
        "2 * underarm, named chest",
        "underarm, on any row, named chest",
    ),
    "a square neck with mitres": (
        "hopper-vest",
        ("S", "M"),
        "neck neck-width wide, vee deep, V",
        "neck neck-width wide, 8 cm deep, square",
    ),
    "the pullover in three sizes": ("millrace-pullover", ("XS", "2XL", "3XL"), "", ""),
    "the hat": ("sluice-hat", (), "", ""),
    "the hat in small": ("sluice-hat", ("small",), "", ""),
    "the cowl": ("first-cowl", (), "", ""),
    "cables": ("quern-gansey", ("S", "M"), "", ""),
    "cables over the end": ("quern-gansey", ("M",), "| o < < < < o - o - o - o - |", "| < < - - < < < < - - - < < |"),
    "lace": ("quern-gansey", ("M",), *LACE),
    "a square neck": ("millrace-pullover", ("S", "M"), "8 cm deep, round", "8 cm deep, square"),
    "a knitted hem": ("millrace-pullover", (), "folded, purl ridge", "folded, purl ridge, knitted together"),
    "a cuff too tight": ("millrace-pullover", (), "wrist 5 cm", "wrist -6 cm"),
    "a cuff too tight in other sizes": ("millrace-pullover", ("M",), "wrist 5 cm", "wrist -6 cm"),
    "strands to catch": ("millrace-pullover", ("M",), "units cm", "units cm\n    floats 3 sts"),
    "a yarn that rests": ("first-cowl", (), *RESTS),
    **{name: ("first-cowl", (), *made) for name, made in MIRRORING.items()},
    "a steek": ("first-cowl", (), COWL, CUT),
    "a version": ("first-cowl", (), "    use", '    version 1.2\n    changes "The rib has 12 rows."\n    use'),
    "a start at the plainest column": (
        "sluice-hat",
        (),
        "easy-round, whole repeats",
        f"easy-round, whole repeats, {PLAIN}",
    ),
    "seven wedges": ("sluice-hat", (), "6 wedges over 9 cm", "7 wedges over 9 cm"),
}


class Print:
    """A pattern as text, its numbers as they were found, and its reasons by address and size."""

    def __init__(self, spec, sizes):
        place = world(spec)
        done = compile_spec(place, "a.wale", sizes)
        assert done.pattern is not None, done.problems
        self.sizes, self.plan = done.sizes, done.plan
        self.text = render(done, "text", place)[0].decode()
        drafts, models = drafted(done.spec, done.plan, done.sources, done.sizes)
        self.numbers = numbers(done.pattern, done.spec, done.plan, done.sizes, drafts)
        self.reasons = {(one.address, one.size): one for one in told(drafts, models, done.spec.units)}

    def reasons_of(self, number):
        """The reasons of a number, one a size that it is printed for; one alone where it is the same in all."""
        if ("", number.address) in {(size, address) for address, size in self.reasons}:
            return [self.reasons[number.address, ""]]
        return [self.reasons[number.address, self.plan.sizes[size]] for size in number.sizes]

    def of(self, *words):
        """The numbers of the texts that hold all of some words, as (figures, address or class)."""
        mine = (one for one in self.numbers if all(word in one.text for word in words))
        return [(one.figures, one.address or one.kind) for one in mine]


NOT_YET = ("flume-pullover", "sluice-cardigan")
OTHERS = sorted(
    {path.stem for path in EXAMPLES.glob("*.wale")} - {one[0] for one in PRINTS.values()} - {*SHARED, *NOT_YET}
)
"""The rest of the examples, in all sizes."""
PRINTS |= {f"the {name}": (name, (), "", "") for name in OTHERS}


@pytest.fixture(scope="module", params=PRINTS)
def printed(request):
    """Give every example, in all sizes and in some, and others with one line changed."""
    name, sizes, old, new = PRINTS[request.param]
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    assert old in text
    return Print(text.replace(old, new, 1), sizes)


@pytest.fixture(scope="module")
def pullover():
    return Print((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"), ("M",))


def test_rests_and_ends_of_rounds_are_reckoned():
    # flour rests in rounds 4 to 8; at 22 sts in 10 cm the limit is 6 sts. 62 cm are 136 sts, 17 repeats: after the
    # first stitch of a round 135 more follow, 7 of them past its last flour; the next begins with 7 of rye.
    (old, new), text = RESTS, (EXAMPLES / "first-cowl.wale").read_text("utf-8")
    shown = Print(text.replace(old, new, 1), ())
    rows = "rests.drift.drifting.flour.5-round"
    assert shown.of("flour, once used in chart row 3, rests") == [
        ("3", "row"), ("5", f"{rows}.rows"), ("1.9", f"{rows}.length")
    ]  # fmt: skip
    (over,) = [one for one in shown.of("over the end of rounds") if one[1].startswith("overs.")]
    assert over == ("14", "overs.1.stitches")


def test_places_where_a_motif_mirrors_from_top_to_bottom_have_their_reasons():
    """Of four rows the first and third are axes: rows 0 and 2, counted from 0."""
    (old, new), text = MIRRORING["mirrors about rows"], (EXAMPLES / "first-cowl.wale").read_text("utf-8")
    shown = Print(text.replace(old, new, 1), ())
    assert shown.of("It mirrors from top to bottom") == [
        ("1", "chart.made-round.flip[1]"), ("3", "chart.made-round.flip[2]")
    ]  # fmt: skip
    formula = shown.reasons["chart.made-round.flip[2]", ""].formula
    assert formula == "2 (row counted from 0) + 1 = 3"


@pytest.mark.parametrize("sizes", [("M",), ("S", "3XL")])
def test_only_estimated_grams_of_the_sheet_for_a_test_knit_have_no_reason(sizes):
    """What docs/explain.md says of the sheets on request; gauges and measures are those of the pattern itself."""
    place = world((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    done = compile_spec(place, "a.wale", sizes, ("test-knit",))
    drafts, models = drafted(done.spec, done.plan, done.sources, done.sizes)
    sheet = replace(done.pattern, sections=tuple(one for one in done.pattern.sections if one.id == "test-knit"))
    found = numbers(sheet, done.spec, done.plan, done.sizes, drafts)
    grams = {row[1] for part in sheet.sections[0].parts if "Grams" in getattr(part, "caption", "") for row in part.rows}
    assert {one.text for one in found if not one.address and not one.kind} == grams - {""}
    reasons = {(one.address, one.size): one for one in told(drafts, models)}
    for one in found:
        for size in one.sizes if one.address.startswith(("back", "front", "sleeve")) else ():
            assert rounds_to(reasons[one.address, done.plan.sizes[size]].value, one.figures), one
    assert sum(one.address.startswith("gauge.") for one in found) == 8


def figures_of(text):
    """The numbers of a text output in order, without those that its layout adds and names of sizes (2XL, 3-months).

    The layout numbers sections and steps at the start of a line, one by one, and names the compiler on the last.
    """
    last, before, kept = 0, "", []
    for line in text.split("\n"):
        numbered = re.match(r"(\d+)\. ", line)
        if numbered and (not before or int(numbered[1]) == last + 1):
            last, line = int(numbered[1]), line[numbered.end() :]
        before = line
        if not line.startswith("Made with wale"):
            kept.append(line)
    return NUMBER.findall(re.sub(r"\b(?:\dXL|\d+-months)\b", "", "\n".join(kept)))


def rounds_to(value, figures):
    """Whether an exact number is printed as figures: halves away from zero at as many decimals; "2 1/2" exactly."""
    if "/" in figures:
        return value == sum(map(Fraction, figures.split()))
    shift = 10 ** len(figures.partition(".")[2])
    size = (abs(value) * shift * 2 + 1) // 2
    return Fraction(figures) * shift == (size if value >= 0 else -size)


def test_every_number_of_the_text_is_looked_at(printed, request):
    """The numbers that were found are those of the text output, one by one and in its order."""
    # The cowl whose yarn rests has a short chart, those of four to seven rows the shortest.
    name = request.node.callspec.params["printed"]
    fewer = dict.fromkeys((*MIRRORING, "a steek"), 100) | dict.fromkeys((f"the {one}" for one in OTHERS), 80)
    least = {"a yarn that rests": 200, **fewer}.get(name, 300)
    found = [figure for one in printed.numbers if one.kind != "size" for figure in NUMBER.findall(one.figures)]
    assert len(found) > least and found == figures_of(printed.text)


def test_every_number_has_a_reason_or_a_class(printed):
    nothing = [(one.figures, one.text) for one in printed.numbers if not one.address and one.kind not in CLASSES]
    assert nothing == []


def test_every_reason_gives_the_number_as_printed(printed):
    """The formula, reckoned in exact fractions, is the number after the rounding that it tells."""
    wrong = []
    for number in printed.numbers:
        for reason in printed.reasons_of(number) if number.address else ():
            value = reckon(reason.whole or reason.expression)
            if value != reason.value or not rounds_to(value, number.figures):
                wrong.append((number.figures, number.address, reason.size, value))
            if not reason.whole and "/" not in number.figures and value != Fraction(number.figures):
                assert any("printed to" in rule for rule in reason.rounding), reason
    assert wrong == []


def test_lengths_in_inches_have_their_reasons():
    """Reasons reckon in cm: each length, divided by 2.54, is what is printed."""
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8").replace("units cm", "units inch", 1)
    inches = Print(text, ("M",))
    assert [one for one in inches.numbers if not one.address and not one.kind] == []
    for number in inches.numbers:
        for reason in inches.reasons_of(number) if number.address else ():
            value = reckon(reason.whole or reason.expression)
            length = value / Fraction("2.54") if reason.unit == "cm" else value
            assert value == reason.value and rounds_to(length, number.figures), (number, reason)


def test_few_numbers_are_without_a_reason(printed):
    """Classes hold what is order, name or citation: less than a third, most of them labels of chart rows."""
    classed = [one for one in printed.numbers if one.kind]
    assert len(classed) * 3 < len(printed.numbers)
    assert {one.kind for one in classed} <= CLASSES.keys()


@pytest.mark.parametrize(
    "words, expected",
    [
        (["Cast on 147"], [("147", "back.cast-on"), ("3", "needles[1].mm"), ("2 1/2", "needles[1].us")]),
        (["at most, with a mild"], [("30", "care[1].figure[1]")]),
        (["62.6 for"], [("62.6", "ring.body.neck-opening.pulled"), ("55.9", "ring.body.neck-opening.passes")]),
        (["275 to 305"], [("275", "yarn.rye.least"), ("305", "yarn.rye.most")]),
        (["cones of 100 g to buy"], [("100", "yarn.rye.put-up[1].weight")]),
        (["147 (-0.14)"], [("147", "back.cast-on"), ("-0.14", "back.cast-on.deviation")]),
        (["Work 20 rows"], [
            ("20", "back.work[1].rows"), ("1", "back.work[1].chart-first"), ("20", "back.work[1].chart-last"),
        ]),
        (["Work steps"], [("1", "step"), ("18", "step"), ("19", "step")]),
        (["28.8 sts and"], [
            ("29.4", "gauge.easy.stitches"), ("32.8", "gauge.easy.rows"), ("10", "gauge.easy.over"),
            ("3.5", "needles[3].mm"), ("4", "needles[3].us"),
            ("28.8", "gauge.easy.counted.stitches"), ("33.3", "gauge.easy.counted.rows"),
            ("10", "gauge.easy.counted.over"),
        ]),
        (["p1, (p2, k2)"], [
            ("1", "sleeve.edge"), ("2", "sleeve.rib[1].knit"), ("2", "sleeve.rib[1].purl"),
            ("13", "sleeve.rib[1].repeats"),
            ("2", "sleeve.rib[1].knit"), ("1", "sleeve.edge"),
        ]),
        (["bind off 4 sts once", "from row 3 on"], [
            ("3", "front.top.left.row"), ("4", "front.neck.step[1]"), ("3", "front.neck.step[2]"),
            ("2", "front.neck.step[3]"), ("1", "front.neck.step[4]"), ("3", "front.neck.step[4].times"),
        ]),
        (["(k12, m1) twice"], [
            ("12", "back.hem.facing.even.change"), ("12", "back.hem.facing.even.figure[1]"), ("1", "term"),
            ("11", "back.hem.facing.even.figure[3]"), ("1", "term"),
            ("9", "back.hem.facing.even.figure[4]"), ("12", "back.hem.facing.even.figure[5]"), ("1", "term"),
            ("12", "back.hem.facing.even.figure[6]"), ("159", "back.hem.facing.even.after"),
        ]),
    ],
)  # fmt: skip
def test_numbers_lead_to_their_own_reasons(pullover, words, expected):
    """By reading, size M: which number of the plan each figure of a line tells."""
    assert pullover.of(*words)[: len(expected)] == expected


def test_what_is_on_hand_is_printed_where_less_is_bought_for_it(pullover):
    """The yarn file has 3 cones of 100 g of rye on hand, and none of flour."""
    assert pullover.of("g on hand, so less to buy")[-1] == ("300", "yarn.rye.on-hand")
    assert " ".join(pullover.text.split()).count("g on hand") == 1


def test_every_class_is_documented():
    page = (EXAMPLES.parent / "docs" / "explain.md").read_text("utf-8")
    rows = dict(re.findall(r"^\| ([a-z ]+) \| (.+) \|$", page[page.index("## Numbers without") :], re.M))
    assert {kind: rows.get(kind) for kind in CLASSES} == CLASSES
