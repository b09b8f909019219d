"""C701 to C707: cautions for children and babies.

What: pom-poms, tassels, carried strands inside, cords, small parts that a note asks for, fibre at the skin, yarn that
sheds, and the rules for children's clothing in general.
Why: young children choke, strangle on cords, and catch fingers and toes; a pattern's reader may not think of it.
Each caution names a rule and what it covers. It is no legal advice: the code in force where the garment is worn or sold
goes before it, and a qualified person decides.
Example: a hat for babies with a pom-pom. Instead: leave it off, or knit the top plain.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.actions import Coursed, Crown, Note, PomPom, Tassel
from wale.checks.care import fibre_kinds
from wale.checks.crown_floats import crown_strands
from wale.checks.floats import row_floats
from wale.checks.used import motifs_worked, yarns_of
from wale.constructions.cords import CORD
from wale.materials import Swatch, Yarn
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.source import Span
from wale.spec import Spec

DEFER = "Check the code in force where it is worn or sold, and ask a qualified person."
SMALL_PARTS = (
    "16 CFR 1501 (US, toys and goods for under 3 years) calls small what fits a cylinder 31.7 mm across; yarn itself "
    "is outside it, yet the size is a good yardstick for buttons, beads and toggles."
)
CORDS = (
    "EN 14682 (EU, clothing up to 14 years): no cords or drawstrings at hood, head and neck up to 7 years, none with "
    "free ends from 7 to 14; it does not cover hats, scarves, gloves and bibs, for which a risk assessment is advised."
)
HATS = "EN 14682 (EU, cords on children's clothing) leaves hats out; keep cords and ties off a hat all the same."
SLEEPWEAR = "16 CFR 1615 and 1616 (US, children's sleepwear, sizes 0 to 14): a flame test unless it fits tight."
SHEDDING = ("mohair", "angora", "brushed", "eyelash", "faux fur", "chenille")
_WORDS = ("cord", "drawstring", "button", "bead", "toggle", "ribbon", "tassel", "snap", "bell", "charm")


def young(spec: Spec) -> str:
    """Give "babies", "children" or "": by the size table, else by a head below 50 cm or a bust below 60 cm.

    The limits are those of a child of about four years in the size tables.
    """
    if spec.group:
        return spec.group if spec.group in ("children", "babies") else ""
    for size in spec.sizes:
        for measure, limit in (("head", 50), ("bust", 60)):
            if measure in size.measures and size.measures[measure].value < limit:
                return "children"
    return ""


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Give the cautions of a garment for the young; none for adults."""
    users = young(spec)
    if not users:
        return []
    parts = [*_pom_poms(spec, users), *_buttons(spec, users)]
    return [
        *parts,
        *_strands(spec, plan, users),
        *_cords_and_parts(spec, users),
        *_fibre(spec, users),
        _rules(spec, users),
    ]


def _pom_poms(spec: Spec, users: str) -> list[Problem]:
    return [
        Problem(
            "C701",
            f"a {kind} on a garment for {users} can come off and be swallowed or choke",
            (Label(step.action.span, f"this {kind}"),),
            help=f"Leave it off, or sew it on firmly, so that it stands a strong pull. {SMALL_PARTS} {DEFER}",
        )
        for piece in spec.pieces
        for step in piece.steps
        for kind, made in (("pom-pom", PomPom), ("tassel", Tassel))
        if isinstance(step.action, made)
    ]


def _buttons(spec: Spec, users: str) -> list[Problem]:
    return [
        Problem(
            "C707",
            f"buttons on a garment for {users} can come off and be swallowed",
            (Label(holes.span, "buttons for these"),),
            help=f"Sew them on through the band and a piece of ribbon, so that they stand a strong pull. {SMALL_PARTS} "
            f"{DEFER}",
        )
        for holes in spec.buttonholes
    ]


class Strand(Struct, frozen=True):
    """A strand on the wrong side: the stitches that it passes, the swatch they are worked at, the line that asks."""

    stitches: int
    swatch: Swatch
    span: Span

    @property
    def length_cm(self) -> Fraction:
        """How long it is in cm."""
        return self.stitches / self.swatch.washed.stitches


def longest_strand(spec: Spec, plan: Plan) -> Strand | None:
    """Give the longest strand of all motifs and crowns; None without any."""
    found = [
        Strand(run, worked.swatch, worked.span)
        for worked in motifs_worked(spec, plan)
        for row in range(len(worked.motif.rows))
        for _, _, run in row_floats(worked.motif, row)
    ]
    found += [Strand(one.stitches, spec.swatches[one.swatch], one.span) for one in crown_strands(spec, plan)]
    return max(found, key=lambda one: one.length_cm, default=None)


def _strands(spec: Spec, plan: Plan, users: str) -> list[Problem]:
    strand = longest_strand(spec, plan)
    if strand is None:
        return []
    width = length_words(strand.length_cm, spec.units)
    return [
        Problem(
            "C702",
            f"strands carried on the wrong side catch the fingers and toes of {users}; the longest passes {width}",
            (Label(strand.span, "worked here"),),
            help="Keep strands short, catch them often, or line sleeves, mittens and feet (common practice). "
            f"No rule at hand gives a length. {DEFER}",
        )
    ]


def _cords_and_parts(spec: Spec, users: str) -> list[Problem]:
    help = f"{CORDS} {SMALL_PARTS} Sew parts on through all layers and test them by a strong pull. {DEFER}"
    problems = [
        Problem(
            "C703", f"a hood on a garment for {users} has no cords", (Label(band.rib.span, "this hood"),), help=help
        )
        for band in spec.bands
        if band.hood is not None
    ]
    for piece in spec.pieces:
        for step in piece.steps:
            if isinstance(step.action, Coursed) and step.action.form == CORD.line:
                told = f"the {piece.name} is a cord on a garment for {users}"
                problems.append(Problem("C703", told, (Label(step.action.span, "this cord"),), help=help))
            if isinstance(step.action, Note) and (word := _small_part(step.action.text)):
                problems.append(
                    Problem(
                        "C703",
                        f"this note asks for a {word} on a garment for {users}",
                        (Label(step.action.span, "this note"),),
                        help=help,
                    )
                )
    return problems


def _small_part(text: str) -> str:
    words = "".join(sign if sign.isalpha() else " " for sign in text.casefold()).split()
    return next((word for word in _WORDS if word in words or f"{word}s" in words), "")


def _fibre(spec: Spec, users: str) -> list[Problem]:
    if users != "babies":
        return []
    animal = [yarn for yarn in yarns_of(spec) if "animal" in fibre_kinds(yarn)]
    shedding = [yarn for yarn in yarns_of(spec) if any(word in yarn.fibre.casefold() for word in SHEDDING)]
    problems = []
    if animal:
        problems.append(
            Problem(
                "C704",
                f"{_do(animal, 'lies', 'lie')} on a baby's skin",
                tuple(Label(yarn.span, "animal fibre") for yarn in animal),
                help="Coarse fibre ends prickle: wool of more than about 22 micrometres on average, or with over 5 % "
                "above 30 (International Wool Textile Organisation; it speaks of wool next to the skin). Choose a "
                f"finer one, or a layer beneath. {DEFER}",
            )
        )
    if shedding:
        problems.append(
            Problem(
                "C706",
                f"{_do(shedding, 'sheds', 'shed')}, and a baby breathes and swallows the hairs",
                tuple(Label(yarn.span, "sheds") for yarn in shedding),
                help="Keep it off face and hands, or take another yarn. That is common practice; no standard covers "
                f"hairs of yarn: 16 CFR 1501 leaves yarn and fuzz out. {DEFER}",
            )
        )
    return problems


def _do(yarns: list[Yarn], one: str, many: str) -> str:
    """Give yarns and what they do."""
    return f"{' and '.join(yarn.name for yarn in yarns)} {one if len(yarns) == 1 else many}"


def _rules(spec: Spec, users: str) -> Problem:
    hat = any(isinstance(step.action, Crown) for piece in spec.pieces for step in piece.steps)
    return Problem(
        "C705",
        f"rules hold for clothing for {users}",
        (Label(spec.pieces[0].span, "made for them"),) if spec.pieces else (),
        help=f"{HATS} {DEFER}" if hat else f"{CORDS} {SLEEPWEAR} Home makers are told to follow them too. {DEFER}",
    )
