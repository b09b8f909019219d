"""Bad specs: one slip gives one problem, nothing raises, and hostile arithmetic is refused."""

import random
import re
from collections import Counter
from pathlib import Path

import pytest
from resolve_frame import codes, framed, resolved

from wale.parse.parser import parse
from wale.resolve import resolve
from wale.source import Source

EXAMPLES = Path(__file__).parents[3] / "examples"
GARMENTS = ("first-cowl", "millrace-pullover", "sluice-hat")


def load_example(name):
    path = EXAMPLES / name.text
    return parse(Source(name.text, path.read_text("utf-8"))) if path.exists() else None


@pytest.mark.parametrize("name", GARMENTS)
def test_examples_resolve_without_a_problem(name):
    tree, problems = parse(Source(f"{name}.wale", (EXAMPLES / f"{name}.wale").read_text("utf-8")))
    spec, found = resolve(tree, load_example)
    assert problems == found == []
    assert spec is not None


def test_the_shared_motif_keeps_its_floats_short():
    tree, _ = parse(Source("first-cowl.wale", (EXAMPLES / "first-cowl.wale").read_text("utf-8")))
    spec, _ = resolve(tree, load_example)
    motif = spec.motifs["grist"]
    for row in motif.rows:
        ring = row * 2
        runs = [
            len(run) for yarn in ("rye", "flour") for run in re.findall("x+", "".join("x-"[c == yarn] for c in ring))
        ]
        assert max(runs) <= 5
        assert set(row) == {"rye", "flour"}
    # 12 stitches, half-shifted: the period is twice 14 rows, and it mirrors on stitches six apart
    assert (motif.width, len(motif.rows), motif.shift, motif.period) == (12, 14, 6, 28)
    assert [axis.denominator for axis in motif.axes()] == [1, 1]
    assert motif.axes()[1] - motif.axes()[0] == 6


@pytest.mark.parametrize(
    ("snippet", "expected"),
    [
        # one slip, however many lines use what is broken
        ("yarn rye\n    count 2/8 Nm wool\n    colour #8a5a2b\n    strands 0\n", ["E222"]),
        (
            "swatch plain, worked flat\n    fabric stockinette in rye\n    needle 90 mm\n"
            "    washed 20 sts and 30 rows in 10 cm\n",
            ["E229"],
        ),
        ("sizes women S M L\n    ease bust 10 g, hip 6 cm\n", ["E221"]),
        ('pattern "Frame"\n    tolerance 1 cm\n    tolerance 2 cm\n', ["E205"]),
        ('pattern "Frame"\n    used "yarns.wale"\n\nyarn rye\n    count 2/8 Nm wool\n    colour #8a5a2b\n', ["E202"]),
        ("sizes women S Q L\n    ease bust 10 cm, hip 6 cm\n", ["E216"]),
        ("let half = bust/2 + 3 g\nlet more = half + half\n", ["E221"]),
        ("let half = nonesuch/2\nlet more = half + nonesuch\n", ["E210"]),
        ('piece back, worked flat\n    cast on 3 g in plain\n\npiece front, as back\n    note "x"\n', ["E221"]),
        ("piece back, worked flat\n    work 3 cm\n", ["E206"]),
        # two blocks, two problems
        (
            "yarn flour\n    count 2/8 Nm wool\n    colour #efe6d2\n    strands 1.5\n\n"
            "piece back, worked flat\n    cast on 0 cm in plain\n",
            ["E222", "E228"],
        ),
    ],
)
def test_one_slip_one_problem(snippet, expected):
    spec, problems = resolved(framed(snippet))
    assert sorted(codes(problems)) == expected
    assert spec is None


@pytest.mark.parametrize(
    ("line", "bare", "listed"),
    [
        ("sizes small large\n    measure head 53 58 cm\n", "53 58 cm", "53 (58) cm"),
        ("sizes women S M L\n    ease bust 4 cm 6 cm 8 cm, hip 6 cm\n", "4 cm 6 cm 8 cm", "4 (6, 8) cm"),
        ("let slope = 2 2 3 cm\n", "2 2 3 cm", "2 (2, 3) cm"),
        ("piece back, worked flat\n    cast on 80 84 88 sts in plain\n", "80 84 88 sts", "80 (84, 88) sts"),
        (
            "piece back, worked flat\n    cast on 80 sts in plain\n    work to 40 41 42.5 cm\n",
            "40 41 42.5 cm",
            "40 (41, 42.5) cm",
        ),
    ],
)
def test_numbers_side_by_side_are_shown_in_brackets(line, bare, listed):
    text = framed(line)
    _, problems = resolved(text)
    (problem,) = [one for one in problems if one.code == "E203"]
    (edit,) = problem.fixes[0].edits
    assert f"`{listed}`" in problem.help
    assert (text[edit.span.start : edit.span.end], edit.text) == (bare, listed)
    mended = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert "E203" not in codes(resolved(mended)[1])


def test_numbers_that_make_no_list_are_given_the_form():
    _, problems = resolved(framed("sizes small large\n    measure head 53 58\n    ease head 1 cm 2 g\n"))
    helps = [one.help for one in problems if one.code == "E203"]
    assert "`53 (58)`" in helps[0] and helps[1] == "Write `ease MEASURE VALUE`."


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("work 900000000000 sts", "E221"),
        ("work 900000000000 rows", "E223"),
        ("work -3 cm", "E222"),
        ("work bust - bust", "E222"),
        ("work 3", "E221"),
        ("work 6 cm * 2 cm", "E221"),
        ("work 6 cm + 3 g", "E221"),
        ("work 10 cm / (3 - 3)", "E227"),
        ("work 10 cm / (back.bust / 1 cm)", "E227"),
        ("shape to 6 rows over 3 cm", "E221"),
        ("shape to 40 cm over 12 sts", "E221"),
        ("work 20 (21, 22, 23) cm", "E224"),
        ("work to body.nonesuch", "E210"),
        ("work to fornt.bust", "E214"),
        ("work to back.nonesuch", "E216"),
        ("work 6 stitches", "E220"),
        ("work to 3 cm, named", "E203"),
        ("hem 3 cm, folded, folded", "E205"),
        ("work in seed", "E206"),
        ("work in easy", "E206"),
        ("work in seed on easy, whole repeats, half repeats", "E204"),
        ("work in seed on easy, from the edge, centred", "E204"),
        ("work in seed on easy, meets back at nonesuch", "E216"),
        ("work in seed on easy, meets fornt at underarm", "E214"),
        ("neck 18 cm wide", "E206"),
        ("neck 18 wide, 3 cm deep", "E221"),
        ("neck back.bust/3 wide, 3 cm deep", "E253"),
        ("shoulders slope back.bust/20, short rows", "E253"),
        ("neck 18 cm wide, 3 cm deep, round, square", "E204"),
        ("shoulders slope 3 cm, short rows, bound off in steps", "E204"),
        ("rib 3 cm", "E206"),
        ("rib 3 cm, 2x2, on 3 mm, on US 4", "E205"),
        ("crown 6 wedges over 9 cm", "E250"),
        ("work in seed on easy, starts at the plainest column", "E250"),
        ("mark bust", "E207"),
        ("edge 40 sts each side", "E223"),
        ("| - x - |", "E202"),
        ("thumb gusset", "E202"),
    ],
)
def test_bad_lines_of_a_piece(line, code):
    _, problems = resolved(framed(f"piece back, worked flat\n    cast on bust/2 in plain\n    {line}\n"))
    assert codes(problems) == [code]


@pytest.mark.parametrize(
    "lines",
    [
        ["let a0 = 10000000000", *(f"let a{n} = a{n - 1} * a{n - 1}" for n in range(1, 40))],  # grows by squaring
        ["let a0 = 1 / 10000000000", *(f"let a{n} = a{n - 1} * a{n - 1}" for n in range(1, 40))],
        ["let a0 = back.bust", *(f"let a{n} = a{n - 1} + a{n - 1}" for n in range(1, 60))],  # a term that doubles
        ["let a = " + "(" * 30 + "1 cm" + ")" * 30 + " + 1 g"],
        ["let a = " + " + ".join(["1 cm"] * 400)],
        [f"let a{n} = a{n + 1} + 1 cm" for n in range(300)] + ["let a300 = 1 cm"],  # built from the last to the first
    ],
    ids=["squares", "fractions", "doubling", "brackets", "long sum", "deep"],
)
def test_hostile_arithmetic_is_refused(lines):
    tree, problems = parse(Source("main.wale", framed("\n".join(lines))))
    spec, found = resolve(tree, lambda name: None)
    assert any(problem.is_error for problem in (*problems, *found))
    assert spec is None or problems


def test_a_lost_line_is_not_complained_about_twice():
    text = framed("yarn rye\n    count 2/8 Nm wool\n    colour #8a5a2\n")
    tree, problems = parse(Source("main.wale", text))
    spec, found = resolve(tree, lambda name: None)
    assert problems != []
    assert codes(found) == []
    assert spec is None


def test_a_lost_used_file_is_not_complained_about_twice():
    spec, problems = resolved(
        framed('pattern "Frame"\n    use "gone.wale"\n\npiece arm, worked flat\n    cast on 9 cm in own\n')
    )
    assert problems == []
    assert spec is None


@pytest.mark.parametrize("seed", range(6))
def test_broken_examples_never_raise(seed):
    texts = [(EXAMPLES / f"{name}.wale").read_text("utf-8") for name in (*GARMENTS, "mill-yarns")]
    words = [word for text in texts for word in text.split(" ")]
    rng = random.Random(seed)
    seen = Counter()
    for _ in range(40):
        text = mutate(rng, rng.choice(texts[:3]) + texts[3].split("\n", 1)[1], words)
        tree, _ = parse(Source("main.wale", text.replace('"mill-yarns.wale"', '"none.wale"')))
        spec, found = resolve(tree, lambda name: None)
        seen.update(codes(found))
        assert spec is None
        for problem in found:
            span = problem.labels[0].span
            assert 0 <= span.start <= span.end <= len(tree.source.text)
    assert seen


def mutate(rng, text, words):
    for _ in range(rng.randint(1, 4)):
        lines = text.split("\n")
        place = rng.randrange(len(lines))
        match rng.randrange(5):
            case 0:
                parts = text.split(" ")
                parts[rng.randrange(len(parts))] = rng.choice(words)
                lines = " ".join(parts).split("\n")
            case 1:
                del lines[place]
            case 2:
                lines.insert(rng.randrange(len(lines)), lines[place])
            case 3:
                parts = lines[place].split(" ")
                rng.shuffle(parts)
                lines[place] = " ".join(parts)
            case 4:
                numbers = list(re.finditer(r"\d+", text))
                found = rng.choice(numbers)
                other = rng.choice(["0", "1", "99999999999", "-3", "7", "1/0", "0.001"])
                lines = (text[: found.start()] + other + text[found.end() :]).split("\n")
        text = "\n".join(lines)
    return text


def test_a_spec_in_inches_tells_of_lengths_in_inches():
    """30 inch before 28 inch shrinks; 1000 cm, the bound, is 1000 / 2.54 = 393.701 inches."""
    start = 'pattern "Inch"\n    units inch\n\nsizes S M L\n    measure bust '
    _, (shrunk, *_) = resolved(framed(f"{start}30 (28, 34) inch\n"))
    assert shrunk.code == "E225" and "from 30 inches in size S to 28 inches in size M" in shrunk.message
    _, far = resolved(framed(f"{start}36 (400, 402) inch\n"))
    assert any(one.code == "E223" and "400 inches, beyond the bound of 393.701 inches" in one.message for one in far)
