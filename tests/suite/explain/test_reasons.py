"""Every number that is printed has a reason, and every reason's arithmetic holds."""

from fractions import Fraction

from arithmetic import reckon

from wale.quantity import show_decimal, show_signed
from wale.write.bands import band_lines
from wale.write.context import Context
from wale.write.lines import Length
from wale.write.measurements import deviation_table, finished_table
from wale.write.pieces import piece_lines
from wale.write.schematics import schematics


def figures(line):
    return [part for part in (*line.lead, *line.parts) if not isinstance(part, str)]


def printed(reason):
    """A reason's value as the pattern prints it."""
    return show_decimal(reason.value, 1) if reason.unit == "cm" else str(reason.value)


def owned(reasons, owner):
    """The printed values of one piece's or band's reasons, lengths and counts apart."""
    mine = [one for one in reasons if one.address.split(".")[0] == owner]
    lengths = {printed(one) for one in mine if one.unit == "cm"}
    return lengths, {one.value for one in mine if one.unit != "cm"}


def missing(lines, reasons, owner):
    lengths, counts = owned(reasons, owner)
    return [
        (line.slot, figure)
        for line in lines
        for figure in figures(line)
        if (
            str(figure) not in lengths if isinstance(figure, Length) else getattr(figure, "value", figure) not in counts
        )
    ]


def test_each_expression_gives_its_wish_or_number_exactly(garment):
    wrong = [(one.address, one.size) for one in garment.reasons if reckon(one.expression) != one.exact]
    assert not wrong


def test_each_number_follows_from_its_arithmetic(garment):
    """The wish rounded as the reason tells is the number; without a wish the formula itself is."""
    wrong = [(one.address, one.size) for one in garment.reasons if reckon(one.whole or one.expression) != one.value]
    assert not wrong


def test_what_no_solver_chose_is_exact(garment):
    """A number without unknown and without deviation is what its formula gives."""
    fixed = [one for one in garment.reasons if not one.unknown and one.deviation is None]
    assert fixed and all(one.exact == one.value for one in fixed)


def test_each_figure_of_the_steps_has_a_reason(garment):
    spec, plan = garment.done.spec, garment.done.plan
    for size, name in enumerate(plan.sizes):
        reasons = list(garment.of(name).values())
        for piece in plan.pieces:
            lines = piece_lines(Context(spec, plan, piece, size))
            assert sum(len(figures(line)) for line in lines) > 5
            assert missing(lines, reasons, piece.name) == []
        for band, planned in zip(spec.bands, plan.bands, strict=True):
            lines = band_lines(Context(spec, plan, plan.pieces[0], size), band, planned)
            assert missing(lines, reasons, band.name) == []


def test_each_finished_measure_has_a_reason(garment):
    spec, plan = garment.done.spec, garment.done.plan
    for size, name in enumerate(plan.sizes):
        lengths = [one for one in garment.of(name).values() if one.unit == "cm"]
        values = {printed(one) for one in lengths} | {show_signed(one.value, 1) for one in lengths}
        for row in finished_table(spec, plan, [size]).rows:
            assert row[1] in values, row


def test_each_measure_of_the_schematics_has_a_reason(garment):
    spec, plan = garment.done.spec, garment.done.plan
    for size, name in enumerate(plan.sizes):
        values = {printed(one) for one in garment.of(name).values() if one.unit == "cm"}
        for drawn in schematics(spec, plan, [size]):
            assert [one.name for one in drawn.dimensions if one.values[0] not in values] == []


def test_each_deviation_has_a_reason(garment):
    spec, plan = garment.done.spec, garment.done.plan
    for size, name in enumerate(plan.sizes):
        reasons = garment.of(name)
        for row in deviation_table(spec, plan, [size]).rows:
            address, unit = row[0].split(", ")
            reason = reasons[address if unit == "sts" else f"{address}.rows"]
            assert row[1] == f"{reason.value} ({show_signed(reason.deviation, 2)})"


def test_chart_columns_of_the_shaping_table_have_reasons(pullover):
    """By hand, size M: 157 sts are 155 in chart, 77 beside the centre; the axis is column 5, 5 - 77 = 0 (mod 12)."""
    reasons = pullover.of("M")
    assert reasons["back.shape[1].shaping[1].stitches"].value == 157
    assert reasons["back.shape[1].shaping[1].column"].value == 1
    assert reasons["back.shape[1].shaping[1].column-ws"].value == (5 + 77) % 12 + 1


def test_a_level_by_hand(pullover):
    """Bust 93.98 cm (37 inches) and 14 cm of ease, half of it at 40 sts in 13.6 cm, an edge stitch on each side."""
    reason = pullover.of("M")["back.bust"]
    wish = (Fraction("93.98") + 14) / 2
    assert reckon(reason.expression) == wish * Fraction(40) / Fraction("13.6") + 2
    assert reason.deviation == (reason.value - 2) * Fraction("13.6") / 40 - wish
    inputs = {one.name: one.value for one in reason.inputs}
    assert inputs["bust, body"] == Fraction("93.98") and inputs["bust, ease"] == 14
    assert "bust/2 = 53.99 cm" in reason.formula and reason.formula.endswith("= 160.79")


def test_inputs_reach_through_let_lines(pullover):
    """`sleeve-length = neck-to-wrist - back.bust/2`: the measure, not the bust's own, and the solved width."""
    names = [one.name for one in pullover.of("M")["sleeve.shape[1].rows"].inputs]
    assert "neck-to-wrist, body" in names and "back.bust.width" in names
    assert "let sleeve-length = neck-to-wrist - back.bust/2" in names
    assert "bust, body" not in names


def test_inherited_counts_have_the_same_unknown(pullover):
    reasons = pullover.of("M")
    assert reasons["front.bust"].unknown == reasons["back.bust"].unknown
    assert reasons["front.neck.rows"].unknown != reasons["back.neck.rows"].unknown


def test_rules_are_told_in_words(pullover):
    rules = pullover.of("M")["back.bust"].rounding
    assert "centred on a stitch (divided by 2, remainder 1)" in rules
    assert any(rule.startswith("within 1.5 cm") for rule in rules)


def test_addresses_stand_in_knitting_order_and_once_a_size(garment):
    keys = [(one.address, one.size) for one in garment.reasons]
    assert len(set(keys)) == len(keys)
    addresses = list(dict.fromkeys(address for address, _ in keys))
    sizes = garment.done.plan.sizes
    for address in addresses:
        mine = [("", *sizes).index(size) for key, size in keys if key == address]
        assert mine == sorted(mine)
