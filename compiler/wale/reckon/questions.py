"""The table of questions: how each is asked, two examples, and who answers it. Modules load when asked."""

from __future__ import annotations

from importlib import import_module

from msgspec import Struct

from wale.reckon.answer import Answer
from wale.reckon.words import Words


class Question(Struct, frozen=True):
    """One question.

    Attributes:
        name: sub-command.
        summary: one line, for the list of questions.
        forms: ways to ask; small letters are written as they stand, square brackets may be left out.
        examples: arguments that work, at least two.
        answer: module and function under `wale.reckon`.
    """

    name: str
    summary: str
    forms: tuple[str, ...]
    examples: tuple[str, ...]
    answer: str


QUESTIONS: tuple[Question, ...] = (
    Question(
        "count",
        "How thick is a yarn?",
        (
            "A/B SYSTEM [on WEIGHT]",
            "SYSTEM N",
            "R N tex/FOLD",
            "N tex x FOLD",
            "LENGTH per WEIGHT",
            "N wpi",
            "class N",
        ),
        ("2/8 Nm", "3/28 Nm on 150 g", "400 m per 100 g", "12 wpi"),
        "yarns:count",
    ),
    Question(
        "strands",
        "What do several strands make together?",
        ("[N of] YARN [with [N of] YARN]... [from WEIGHT]",),
        ("2 of 3/28 Nm from 150 g", "2/8 Nm with 2 of 8/36 Nm"),
        "yarns:strands",
    ),
    Question(
        "gauge",
        "How many stitches in 10 cm, and what does a miscount cost?",
        ("N sts = LENGTH [on LENGTH]", "N rows = LENGTH"),
        ("40 sts = 13.6 cm on 110 cm", "30 rows = 4 inch"),
        "gauges:gauge",
    ),
    Question(
        "width",
        "How wide are so many stitches, or how many stitches so wide?",
        ("N sts at GAUGE", "LENGTH at GAUGE [multiple of N [plus N]]"),
        ("90 sts at 22 sts = 10 cm", "50 cm at 22 sts = 10 cm multiple of 12 plus 1"),
        "gauges:width",
    ),
    Question(
        "spread",
        "Increases or decreases spread evenly over a row or round.",
        ("N increases over N sts [in the round]", "N decreases over N sts [in the round]", "N to N sts [in the round]"),
        ("12 decreases over 96 sts in the round", "40 to 44 sts"),
        "rows:spread",
    ),
    Question(
        "taper",
        "From one count to another over rows.",
        ("N to N sts over N rows [at one edge] [on any row|in the round]", "N to N sts over LENGTH at ROW-GAUGE"),
        ("53 to 119 sts over 140 rows", "62 to 46 sts over 24 cm at 32 rows = 10 cm in the round"),
        "rows:taper",
    ),
    Question(
        "pick-up",
        "Stitches to pick up along an edge.",
        ("N sts and N rows = LENGTH [along N rows|along LENGTH] [multiple of N [plus N]]",),
        ("20 sts and 26 rows = 4 inch", "16 sts and 24 rows = 4 inch along 120 rows multiple of 4"),
        "rows:pick_up",
    ),
    Question(
        "crown",
        "The top of a hat in wedges.",
        ("N sts in N wedges [over N rounds] [two at once]",),
        ("88 sts in 8 wedges", "112 sts in 7 wedges over 26 rounds two at once"),
        "edges:crown",
    ),
    Question(
        "repeat",
        "Does a repeat fit a count?",
        ("N sts [plus N] in N sts",),
        ("14 sts in 240 sts", "12 plus 1 in 97"),
        "gauges:repeat",
    ),
    Question(
        "shoulder",
        "A shoulder in steps or short rows.",
        ("N sts in N steps", "N sts over LENGTH at ROW-GAUGE"),
        ("16 sts in 3 steps", "24 sts over 3 cm at 30 rows = 10 cm"),
        "edges:shoulder",
    ),
    Question(
        "neck",
        "The curve of a neck.",
        (
            "N sts in N rows [square|scoop|boat with N sts at its ends]",
            "LENGTH wide LENGTH deep at N sts and N rows = LENGTH [square|scoop|boat]",
        ),
        ("32 sts in 14 rows", "18 cm wide 8 cm deep at 22 sts and 30 rows = 10 cm", "40 sts in 40 rows scoop"),
        "edges:neck",
    ),
    Question(
        "yarn",
        "How much yarn?",
        (
            "WIDTH [to WIDTH] by LENGTH from LENGTH by LENGTH of WEIGHT",
            "sweater GIRTH round LENGTH long from LENGTH by LENGTH of WEIGHT",
            "N sts at N sts and N rows = LENGTH [in YARN]",
            "scarf LENGTH by WIDTH at GAUGE [in YARN]",
            "tail for LENGTH",
            "N pieces of WEIGHT [in N colours] [from cones of WEIGHT]",
        ),
        (
            "sweater 40 inch round 24 inch long from 6 inch by 6 inch of 9 g",
            "20000 sts at 22 sts and 30 rows = 10 cm in 2/8 Nm",
            "60 squares of 6 g in 2 colours from cones of 150 g",
        ),
        "amounts:yarn",
    ),
    Question(
        "pom-pom",
        "Yarn in a pom-pom.",
        ("LENGTH [make N] [in YARN]",),
        ("6 cm", "4 cm make 2 in 2/8 Nm"),
        "amounts:pom_pom",
    ),
    Question(
        "needle",
        "A needle size in mm, US, old UK and Japanese numbers.",
        ("N mm", "US NUMBER", "UK NUMBER", "JP NUMBER"),
        ("3.5 mm", "US 10 1/2"),
        "tools:needle",
    ),
    Question(
        "contrast",
        "Do two colours stand apart?",
        ("RRGGBB RRGGBB",),
        ("8a5a2b c9a36b", "'#767676' '#ffffff'"),
        "tools:contrast",
    ),
)
"""All questions in the order in which they are listed."""


def ask(question: Question, text: str) -> Answer:
    """Answer a question.

    Args:
        question: one of `QUESTIONS`.
        text: what was asked, without the question's name.

    Raises:
        Refused: E801 to E804, with the reason.
    """
    module, name = question.answer.split(":")
    function = getattr(import_module(f"wale.reckon.{module}"), name)
    answer = function(text if question.name == "contrast" else Words(text, question.forms))
    assert isinstance(answer, Answer)
    return answer
