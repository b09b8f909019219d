"""`wale motif` from end to end: text that compiles, defaults, warnings and refusals."""

import io
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from picture_drawn import GRIST, HEX, drawn, rows, saved
from support import MILL_YARNS

from wale.cli import main
from wale.files import MemoryWorld

sys.path.append(str(Path(__file__).parents[1] / "resolve"))

from resolve_frame import framed, resolved, spec_of

MOTIF = rows(GRIST)
# The swatch `easy` has 40 sts in 13.6 cm and 40 rows in 12.2 cm: a stitch of 9 pixels is 9 * 12.2 / 13.6 high.
EAR = saved(drawn(MOTIF, 3, 2, 9, 9 * 12.2 / 13.6, noise=25))
SMALL = saved(drawn(MOTIF, 1, 1, 3, 3))
LISTED = f"rye={HEX['-']},flour={HEX['x']}"
SPEC = ("--spec", "mill-yarns.wale")


@pytest.fixture
def run(capsysbinary):
    def go(*arguments, **files):
        world = MemoryWorld({"mill-yarns.wale": MILL_YARNS, "ear-of-rye.png": EAR, **files})
        code = main(["motif", *arguments], world)
        out, err = capsysbinary.readouterr()
        return code, out.decode(), err.decode(), world

    return go


def typed(motif):
    return [tuple("rye" if mark == "-" else "flour" for mark in row) for row in reversed(motif)]


def test_the_block_stands_in_the_spec_that_has_the_yarns(run):
    code, out, err, _ = run("ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy")
    assert code == 0 and "8 sts, 10 rows: the picture holds 3 × 2 repeats" in err
    motif = spec_of(out).motifs["ear-of-rye"]
    assert list(motif.rows) == typed(MOTIF)
    assert motif.origin == (("source", "a picture, ear-of-rye.png"),)
    assert "-- rights" in out and "-- credit" in out


def test_what_is_told_of_it_stands_in_the_motif(run):
    _, out, _, _ = run(
        "ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy", "--name", "grist-two",
        "--source", "A door's carving", "--rights", "Free to knit", "--credit", "The crew",
    )  # fmt: skip
    told = spec_of(out).motifs["grist-two"].origin
    assert told == (("source", "A door's carving"), ("rights", "Free to knit"), ("credit", "The crew"))


def test_yarns_of_no_spec_make_a_file_that_a_spec_can_use(run):
    code, _, err, world = run("ear-of-rye.png", "--width", "8", "--colours", LISTED, "--out", "ear.wale")
    assert code == 0 and "taken as square" in err and "wrote ear.wale" in err
    used = world.files["ear.wale"].decode()
    main_file = framed('pattern "Ears"\n    use "ear.wale"\nmotif field, as ear-of-rye\n    flipped\n')
    main_file = main_file.replace(main_file[main_file.index("yarn rye") : main_file.index("motif seed")], "")
    spec, problems = resolved(main_file, {"ear.wale": used})
    assert spec is not None and [one.code for one in problems if one.is_error] == []
    assert spec.yarns["rye"].colour == HEX["-"]
    assert len(spec.motifs["field"].rows) == len(spec.motifs["ear-of-rye"].rows) == 9  # 10 rows of 12.2/13.6 each


def test_what_is_written_stands_in_the_one_layout(run):
    _, _, _, world = run("ear-of-rye.png", "--width", "8", "--colours", LISTED, "--out", "ear.wale", "--mirror", "both")
    assert main(["format", "--check", "ear.wale"], world) == 0


def test_floats_and_symmetry_on_demand(run):
    code, out, err, _ = run("ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy", "--max-float", "3")
    assert code == 0 and "changed for floats of at most 3" in err
    for row in spec_of(out).motifs["ear-of-rye"].rows:
        if len(set(row)) > 1:
            text = "".join(yarn[0] for yarn in row) * 2
            assert "rrrr" not in text and "ffff" not in text
    code, out, err, _ = run("ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy", "--mirror", "sides")
    assert code == 0 and "changed to mirror" in err
    assert spec_of(out).motifs["ear-of-rye"].axes()


def test_the_ground_comes_first_and_yarns_are_those_of_the_swatch(run):
    _, out, _, _ = run("ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy", "--yarns", "flour,rye")
    assert "|-| flour, |x| rye" in out
    _, out, _, _ = run("ear-of-rye.png", "--width", "8", *SPEC, "--on", "easy")
    assert "|-| rye, |x| flour" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "--width"),
        (("--width", "8"), "which yarns?"),
        (("--width", "8", "--on", "easy", "--colours", LISTED), "--spec"),
        (("--width", "1", "--colours", LISTED), "--width"),
        (("--width", "8", "--colours", "rye"), "rye=#8a5a2b"),
        (("--width", "8", "--colours", "in=#123456,on=#ffffff"), "--colours"),
        (("--width", "8", "--colours", "rye=#8a5a2b"), "2 to 8 yarns"),
        (("--width", "8", "--colours", LISTED, "--name", "two words"), "--name"),
        (("--width", "8", "--colours", LISTED, "--rights", 'a "quoted" word'), "--rights"),
        (("--width", "8", "--colours", LISTED, "--credit", "two\nlines"), "--credit"),
        (("--width", "8", "--colours", LISTED, "--mirror", "sideways"), "--mirror"),
    ],
)
def test_a_call_that_is_wrong_says_how(run, arguments, words):
    code, out, err, _ = run("ear-of-rye.png", *arguments)
    assert (code, out) == (2, "") and words in err


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("--on", "esy"), "E212"),
        (("--yarns", "rye,flor"), "E211"),
        (("--on", "easy", "--width", "40", "--height", "400"), "E924"),
        (("--on", "easy", "--width", "7", "--max-float", "1"), "E925"),
    ],
)
def test_what_cannot_be_made_is_refused_with_its_code(run, arguments, code):
    done, out, err, _ = run("ear-of-rye.png", "--width", "8", *SPEC, *arguments)
    assert (done, out) == (1, "") and f"error[{code}]" in err and "nothing was written" in err


def test_files_that_cannot_be_had(run):
    assert "E901" in run("no.png", "--width", "8", "--colours", LISTED)[2]
    assert "E901" in run("ear-of-rye.png", "--width", "8", "--spec", "no.wale")[2]
    assert "E921" in run("mill-yarns.wale", "--width", "8", "--colours", LISTED)[2]
    large = b"\x89PNG" + bytes(50_000_001)
    assert "E922" in run("large.png", "--width", "8", "--colours", LISTED, **{"large.png": large})[2]
    code, out, err, _ = run("ear-of-rye.png", "--width", "8", "--spec", "a.wale", **{"a.wale": "wale 1\nyarn rye\n"})
    assert (code, out) == (1, "") and "E206" in err
    done, _, err, world = run("ear-of-rye.png", "--width", "8", "--colours", LISTED, "--out", "mill-yarns.wale")
    assert done == 2 and "E908" in err and world.files["mill-yarns.wale"] == MILL_YARNS


def test_a_picture_in_one_yarn_is_warned_of(run):
    code, out, err, _ = run("ear-of-rye.png", "--width", "8", "--colours", "rye=#b0977a,soot=#000010")
    assert code == 0 and "warning[W926]" in err and "key    |-| rye\n" in out


def test_names_from_files(run):
    for file, name in (("Ear 2.PNG", "ear-2"), ("in.png", "figure"), ("2ears.png", "figure"), ("Ähre.png", "ähre")):
        _, out, _, _ = run(file, "--width", "8", *SPEC, "--on", "easy", **{file: EAR})
        assert name in spec_of(out).motifs


ODD = st.text(st.characters(codec="utf-8") | st.sampled_from('"“»|#-\u202e\n\t'), min_size=1, max_size=20)


@settings(max_examples=40, deadline=None)
@given(ODD)
def test_any_words_are_told_as_they_are_or_refused(words):
    out = io.BytesIO()
    world = MemoryWorld({"ear.png": SMALL})
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("wale.commands.motif.emit", out.write)
        code = main(["motif", "ear.png", "--width", "8", "--colours", LISTED, f"--credit={words}"], world)
    if code == 0:
        block = out.getvalue().decode().partition("motif ear")[2]
        assert spec_of(f"motif ear{block}").motifs["ear"].origin[1:] == (("credit", words),)
    else:
        assert code == 2 and not out.getvalue()
        assert not words.isprintable() or set(words) & set('"“”„«»‟')


def test_a_file_s_name_that_is_no_text_is_told_without_it(run):
    code, out, _, _ = run("\udce4hre\u202e.png", "--width", "8", *SPEC, **{"\udce4hre\u202e.png": SMALL})
    assert code == 0
    assert spec_of(out).motifs["hre"].origin == (("source", "a picture, hre.png"),)
