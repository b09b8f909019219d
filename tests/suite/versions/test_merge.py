"""Merging by blocks, lines and sizes: what each side did is written out by hand, and so is what they make together."""

from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES

from wale.versions.merge import Marks, merge
from wale.versions.parts import parts_of

BASE = """wale 1

-- the crew's vest
pattern "Hopper"
    use "mill-yarns.wale"

sizes women S M L
    ease bust 10 cm
    ease wrist 5 (5, 6) cm   -- snug

piece back, worked flat
    cast on bust/2 in easy
    rib     6 cm, 2x2
    work    in grist on easy, centred
    work    to 40 (41, 42) cm
    bind off

piece front, as back
"""


MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8").split("\n")


def changed(*pairs, text=BASE):
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def test_any_text_is_taken_apart_and_put_together():
    for path in EXAMPLES.glob("*.wale"):
        text = path.read_text("utf-8")
        assert "\n".join(parts_of(text).lines) == text.removesuffix("\n")


LINES = st.lists(
    st.sampled_from(
        (
            *("piece back, worked flat", "    rib 6 cm, 2x2", "        more", "", "-- note", "    -- inner"),
            *("let a = 1 cm", "<<<<<<< ours", "    | x . |", "sizes S M", "\tease bust 5 (6)  -- odd", "wale 1"),
            '    about "a -- b"',
        )
    )
)


@given(LINES)
def test_strange_lines_too(lines):
    assert parts_of("".join(line + "\n" for line in lines)).lines == lines


@given(LINES, LINES)
def test_where_one_side_changed_nothing_the_other_is_taken(one, other):
    old, new = ("".join(line + "\n" for line in lines) for lines in (one, other))
    assert merge(old, old, old).text == old
    for done in (merge(old, new, old), merge(old, old, new), merge(old, new, new)):
        assert not done.conflicts
        assert [" ".join(line.split()) for line in done.text.split("\n") if line.strip()] == [
            " ".join(line.split()) for line in new.split("\n") if line.strip()
        ]


def test_different_lines_of_one_block_next_to_each_other():
    ours = changed(("rib     6 cm", "rib     7 cm"), ("bind off", "bind off  -- loosely"))
    theirs = changed(
        ("cast on bust/2", "cast on bust/2 + 1 cm"), ("-- the crew's vest", "-- the crew's vest\n-- mended")
    )
    both = changed(
        ("rib     6 cm", "rib     7 cm"),
        ("bind off", "bind off  -- loosely"),
        ("cast on bust/2", "cast on bust/2 + 1 cm"),
        ("-- the crew's vest", "-- the crew's vest\n-- mended"),
    )
    assert merge(BASE, ours, theirs).text == merge(BASE, theirs, ours).text == both


def test_the_same_line_is_marked_and_nothing_else():
    ours = changed(("rib     6 cm", "rib     7 cm"))
    theirs = changed(("rib     6 cm", "rib     8 cm"), ("ease bust 10 cm", "ease bust 12 cm"))
    done = merge(BASE, ours, theirs, Marks(ours="HEAD", theirs="longer"))
    marked = "<<<<<<< HEAD\n    rib     7 cm, 2x2\n=======\n    rib     8 cm, 2x2\n>>>>>>> longer"
    assert done.text == changed(("    rib     6 cm, 2x2", marked), ("ease bust 10 cm", "ease bust 12 cm"))
    assert done.conflicts == ("piece back",)
    with_base = merge(BASE, ours, theirs, Marks(9, with_base=True)).text
    assert "<<<<<<<<< ours\n" in with_base and "||||||||| base\n    rib     6 cm, 2x2\n=========\n" in with_base


def test_both_sides_add_a_size():
    ours = changed(
        ("women S M L", "women S M L XL"), ("5 (5, 6) cm", "5 (5, 6, 6) cm"), ("40 (41, 42)", "40 (41, 42, 43)")
    )
    theirs = changed(
        ("women S M L", "women XS S M L"), ("5 (5, 6) cm", "4 (5, 5, 6) cm"), ("40 (41, 42)", "39 (40, 41, 42)")
    )
    both = changed(
        ("women S M L", "women XS S M L XL"),
        ("5 (5, 6) cm", "4 (5, 5, 6, 6) cm"),
        ("40 (41, 42)", "39 (40, 41, 42, 43)"),
    )
    assert merge(BASE, ours, theirs).text == merge(BASE, theirs, ours).text == both


def test_both_sides_add_a_size_in_the_same_place():
    ours = changed(
        ("women S M L", "women S M L 2XL"), ("5 (5, 6) cm", "5 (5, 6, 7) cm"), ("40 (41, 42)", "40 (41, 42, 45)")
    )
    theirs = changed(
        ("women S M L", "women S M L XL"), ("5 (5, 6) cm", "5 (5, 6, 6) cm"), ("40 (41, 42)", "40 (41, 42, 43)")
    )
    both = changed(
        ("women S M L", "women S M L XL 2XL"),
        ("5 (5, 6) cm", "5 (5, 6, 6, 7) cm"),
        ("40 (41, 42)", "40 (41, 42, 43, 45)"),
    )
    assert merge(BASE, ours, theirs).text == merge(BASE, theirs, ours).text == both


def test_one_adds_a_size_the_other_mends_a_value():
    ours = changed(("women S M L", "women S M L XL"), ("5 (5, 6) cm", "5 (5, 6, 6) cm"))
    theirs = changed(("5 (5, 6) cm", "5 (5.5, 6) cm"))
    both = changed(("women S M L", "women S M L XL"), ("5 (5, 6) cm", "5 (5.5, 6, 6) cm"))
    assert merge(BASE, ours, theirs).text == both
    clash = merge(BASE, changed(("5 (5, 6) cm", "5 (4, 6) cm")), theirs)
    assert clash.conflicts == ("sizes",) and clash.text.count("ease wrist") == 2


def test_lists_with_values_of_bodies():
    base = "sizes S M\nbody mine\n    measure bust 97 cm\npiece back\n    work 4 (5, 6) cm\n"
    ours = base.replace("S M", "S M L").replace("4 (5, 6)", "4 (5, 5.5, 6)")
    theirs = base.replace("S M", "XS S M").replace("4 (5, 6)", "3 (4, 5, 6)")
    assert merge(base, ours, theirs).text == base.replace("S M", "XS S M L").replace("4 (5, 6)", "3 (4, 5, 5.5, 6)")


def test_blocks_added_moved_and_taken_away():
    ours = changed(
        ("piece front, as back\n", "piece front, as back\n\nband hem\n    pick up along back neck in easy\n")
    )
    theirs = changed(("piece front, as back\n", "piece front, as back\n\njoin\n    seam sides, mattress stitch\n"))
    both = ours + "\njoin\n    seam sides, mattress stitch\n"
    assert merge(BASE, ours, theirs).text == both
    gone = merge(BASE, changed(("\npiece front, as back\n", "")), changed(("rib     6", "rib     7")))
    assert gone.text == changed(("\npiece front, as back\n", ""), ("rib     6", "rib     7"))
    first = "piece front, as back\n\n" + changed(("\npiece front, as back\n", ""))
    assert merge(BASE, first, changed(("bust 10", "bust 12"))).text == first.replace("bust 10", "bust 12")


def test_one_takes_away_what_the_other_changed():
    ours = changed(("\npiece front, as back\n", ""))
    theirs = changed(("piece front, as back\n", "piece front, as back\n    neck 18 cm wide, 8 cm deep\n"))
    done = merge(BASE, ours, theirs)
    assert done.conflicts == ("piece front",)
    tail = "<<<<<<< ours\n=======\n\npiece front, as back\n    neck 18 cm wide, 8 cm deep\n>>>>>>> theirs\n"
    assert done.text == ours + tail


def test_two_steps_added_at_one_place_clash_for_their_order_counts():
    ours = changed(("    bind off\n", "    work    3 cm\n    bind off\n"))
    theirs = changed(("    bind off\n", "    rib     3 cm, 1x1\n    bind off\n"))
    done = merge(BASE, ours, theirs)
    assert done.conflicts == ("piece back",)
    assert "<<<<<<< ours\n    work    3 cm\n=======\n    rib     3 cm, 1x1\n>>>>>>> theirs\n    bind off\n" in done.text


def test_eases_added_by_both_sides_stand_together():
    ours = changed(("    ease bust 10 cm\n", "    ease bust 10 cm\n    ease hip 6 cm\n"))
    theirs = changed(("    ease bust 10 cm\n", "    ease bust 10 cm\n    ease waist 20 cm\n"))
    both = changed(("    ease bust 10 cm\n", "    ease bust 10 cm\n    ease hip 6 cm\n    ease waist 20 cm\n"))
    assert merge(BASE, ours, theirs).text == both


def test_a_new_layout_does_not_clash_with_a_new_number():
    ours = changed(("    rib     6 cm, 2x2", "    rib 6 cm,  2x2"))
    theirs = changed(("rib     6 cm", "rib     7 cm"))
    assert merge(BASE, ours, theirs).text == theirs


def test_comments_of_both_sides_are_kept():
    ours = changed(("    bind off", "    -- before the fair\n    bind off"))
    theirs = changed(("    bind off", "    -- not too tight\n    bind off"))
    done = merge(BASE, ours, theirs)
    assert done.text == changed(("    bind off", "    -- before the fair\n    -- not too tight\n    bind off"))
    ours, theirs = changed(("-- snug", "-- tight")), changed(("-- snug", "-- loose"))
    done = merge(BASE, ours, theirs)
    assert not done.conflicts and "-- tight" in done.text and "-- loose" in done.text


def test_line_ends_and_mark_of_ours():
    ours = "\ufeff" + changed(("bust 10", "bust 12")).replace("\n", "\r\n")
    done = merge(BASE, ours, changed(("rib     6", "rib     7")))
    assert done.text == "\ufeff" + changed(("bust 10", "bust 12"), ("rib     6", "rib     7")).replace("\n", "\r\n")


def test_both_add_a_file():
    assert merge("", BASE, BASE).text == BASE
    done = merge("", BASE, changed(("bust 10", "bust 12")))
    assert done.conflicts == ("sizes",) and done.text.count("<<<<<<<") == 1


NUMBERED = [at for at, line in enumerate(MILLRACE) if line.startswith("    ") and " 1" in line]


@given(st.sampled_from(NUMBERED), st.sampled_from(NUMBERED))
def test_changes_of_any_two_lines_come_together(one, other):
    def with_change(*places):
        return "\n".join(line.replace(" 1", " 2") if at in places else line for at, line in enumerate(MILLRACE))

    base, both = with_change(), with_change(one, other)
    assert merge(base, with_change(one), with_change(other)).text == both
    assert merge(base, with_change(other), with_change(one)).text == both


def test_a_new_comment_outlives_the_line_that_the_other_side_took_away():
    ours = changed(
        ("    ease wrist 5 (5, 6) cm   -- snug\n", "    -- ask the miller\n    ease wrist 5 (5, 6) cm   -- snug\n")
    )
    theirs = changed(("    ease wrist 5 (5, 6) cm   -- snug\n", ""))
    kept = changed(("    ease wrist 5 (5, 6) cm   -- snug\n", "    -- ask the miller\n"))
    assert merge(BASE, ours, theirs).text == merge(BASE, theirs, ours).text == kept


def test_a_base_that_git_could_not_settle_widens_no_conflict():
    open_base = "<<<<<<< one\n    rib     7 cm, 2x2\n=======\n    rib     8 cm, 2x2\n>>>>>>> other"
    base = changed(("    rib     6 cm, 2x2", open_base))
    ours = changed(("rib     6 cm", "rib     7 cm"), ("bust 10", "bust 12"))
    theirs = changed(("rib     6 cm", "rib     8 cm"), ("to 40", "to 39"))
    marked = "<<<<<<< ours\n    rib     7 cm, 2x2\n=======\n    rib     8 cm, 2x2\n>>>>>>> theirs"
    both = changed(("    rib     6 cm, 2x2", marked), ("bust 10", "bust 12"), ("to 40", "to 39"))
    assert merge(base, ours, theirs).text == both
