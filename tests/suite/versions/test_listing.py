"""What git shows of one version: the typed lines as they are, and below them numbers that are reckoned here by hand."""

import pytest
from support import EXAMPLES, PLAIN, SPEC, world

from wale.driver import check_source
from wale.files import DiskWorld
from wale.source import Source
from wale.versions.listing import is_garment, listing


def listed(text, **others):
    source = Source(SPEC, text)
    return listing(source, check_source(world(text, **others), source))


def numbers(text, **others):
    return [
        line.removeprefix("        = ") for line in listed(text, **others).split("\n") if line.startswith("        = ")
    ]


@pytest.mark.parametrize("name", ["millrace-pullover", "sluice-hat", "first-cowl"])
def test_the_typed_lines_are_all_there(name):
    source = DiskWorld().read(str(EXAMPLES / f"{name}.wale"))
    shown = listing(source, check_source(DiskWorld(), source))
    kept = [line for line in shown.split("\n") if not line.startswith("        = ")]
    assert "\n".join(kept) == source.text and len(shown) > len(source.text)


def test_a_file_of_yarns_is_no_garment():
    assert not is_garment(DiskWorld().read(str(EXAMPLES / "mill-yarns.wale")))
    assert is_garment(Source("a.wale", "wale 1\npiece back\n"))


def test_cells_of_a_motif_made_of_another():
    text = f"""wale 1

pattern "Panel"

{PLAIN}
motif ear
    repeat 3 sts, 2 rows
    key    |-| rye, |x| flour
    | - - x |
    | x - x |

motif drop, as ear
    flipped
    mirrored

motif turned
    repeat 3 sts, 1 row
    key    |-| rye, |x| flour
    | - - x |
    mirrored

yarn flour
    count  2/8 Nm wool
    colour #f0e6d0

sizes one
    measure bust 80 cm

piece back, worked flat
    cast on 80 sts in plain
    work    10 cm
    bind off
"""
    shown = listed(text).split("\n")
    at = shown.index("    mirrored")
    assert shown[at + 1 : at + 4] == ["        = | x - x |", "        = | x - - |", ""]
    assert shown[shown.index("    | x - x |") + 1] == ""
    assert "        = | x - - |" in shown[shown.index("motif turned") :]


def test_counts_rows_and_lengths_stand_below_their_lines():
    text = f"""wale 1

pattern "Panel"

{PLAIN}
sizes small large
    measure bust 80 (90) cm
    ease    bust 8 cm

let deep = 10 cm

piece back, worked flat
    cast on bust/2   -- with room
            in plain
    work    deep
    bind off

piece front, as back
"""
    # 20 sts and 28 rows in 10 cm: 44 (49) cm are 88 (98) sts, 10 cm are 28 rows
    shown = listed(text).split("\n")
    at = shown.index("            in plain")
    assert shown[at + 1 : at + 4] == [
        "        = back.bust: 88 (98) sts, 44.0 (49.0) cm",
        "    work    deep",
        "        = back.work[1]: 28 rows, 10.0 cm",
    ]
    assert shown[shown.index("piece front, as back") + 1 :] == [
        "        = front.bust: 88 (98) sts, 44.0 (49.0) cm",
        "        = front.work[1]: 28 rows, 10.0 cm",
        "",
    ]
    assert "        = sizes: small, large" in shown


def test_inches_where_the_pattern_has_them():
    text = f"""wale 1

pattern "Panel"
    units inch

{PLAIN}
sizes one
    measure bust 80 cm

piece back, worked flat
    cast on 102 sts in plain
    work    10 inch
    bind off
"""
    # 102 sts at 2 in a cm are 51 cm, 20.1 inches; 10 inches are 25.4 cm, 71.1 rows; even: 72, 25.7 cm, 10.1
    assert numbers(text)[-2:] == ["back.cast-on: 102 sts, 20.1 inches", "back.work[1]: 72 rows, 10.1 inches"]


def test_an_error_stands_below_its_line_and_one_of_another_file_at_the_end():
    text = 'wale 1\n\npattern "Panel"\n\npiece back, worked flat\n    cast on 80 sts in lost\n    bind off\n'
    assert numbers(text)[0].startswith("no numbers: E")
    missing = text.replace("\n\npiece", '\n    use "gone.wale"\n\npiece')
    shown = listed(missing).split("\n")
    assert shown[shown.index('    use "gone.wale"') + 1].startswith("        = no numbers: E901")
