"""The examples of garments as made-to-measure patterns: their sizes replaced by one body, their eases kept."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from itertools import product

from support import EXAMPLES
from survey import measures_of
from survey_rings import young

from wale.sizes import GROUPS, Body, Measured, Users, body_length, group, neck_width

Measures = Mapping[str, Fraction]
SIZES = re.compile(r"(?ms)^sizes .*?\n\n")
EASE = re.compile(r"(?m)^    ease +(.*)$")
LIST = re.compile(r"([0-9.]+) \([0-9., ]+\) cm")
FEET = {"ankle": "ankle_cm", "foot-length": "foot_length_cm", "heel-diagonal": "heel_ankle_cm"}
HEELS = (
    ("flap", "heel flap", ""),
    ("square", "heel square", ""),
    ("short rows", "heel short rows", ""),
    ("afterthought", "afterthought heel", "\n    heel wedge"),
)
"""Heels: the line, and what it takes after the toe."""
CHANGES: dict[str, tuple[str, Mapping[str, str]]] = {
    "drop-shoulder pullover": ("millrace-pullover", {}),
    "child's drop-shoulder pullover": ("cog-pullover", {}),
    "set-in pullover": ("flume-pullover", {}),
    "set-in pullover with a placket": ("forebay-pullover", {}),
    "vest": ("hopper-vest", {}),
    "top with a scoop, a boat neck behind": ("leat-top", {}),
    "cardigan of halves": ("weir-cardigan", {}),
    "child's cardigan of halves": ("pinion-cardigan", {}),
    "cardigan of halves, V neck, set-in sleeves": ("sluice-cardigan", {}),
    "cardigan with a shawl collar": ("leat-cardigan", {}),
    "cardigan with bands worked along, inset pockets": ("granary-cardigan", {}),
    "textured pullover": ("quern-gansey", {}),
    "joined yoke": ("weir-yoke", {}),
    "joined raglan": ("grist-raglan", {}),
    "joined saddle shoulders": ("flume-saddle", {}),
    "raglan from the neck down": ("headrace-raglan", {}),
    "yoke from the neck down": ("tailrace-yoke", {}),
    "hat in a motif, within half a repeat": ("sluice-hat", {}),
    "hat in a motif, within 1.5 cm": ("sluice-hat", {", tolerance 2.1 cm": ""}),
    "hat with ear flaps": ("spillway-hat", {}),
    "headband in a motif": ("dusty-headband", {}),
    "cowl": ("crew-cowl", {}),
    "tube in a motif round the waist": ("dusty-headband", {"on head": "on waist", "ease head": "ease waist"}),
    "tube round the upper arm": ("crew-cowl", {"on head": "on upper-arm", "ease head": "ease upper-arm"}),
    **{
        f"socks, heel {heel}, toe {toe}": (
            "penstock-socks",
            {"heel    flap": line, "toe     wedge": f"toe {toe}{after}"},
        )
        for (heel, line, after), toe in product(HEELS, ("wedge", "round", "short rows"))
    },
    "socks from the toe up": ("wheelpit-socks", {}),
    "mittens, gusset": ("sack-mittens", {}),
    "mittens, afterthought thumb": ("sack-mittens", {"thumb-gusset": "afterthought thumb"}),
    "mitts": ("hopper-mitts", {}),
}
"""Constructions: the example, and what is replaced in it. A repeat of the hat is 12 x 13.8 / 40 = 4.14 cm wide."""

SHAPED = ("drop-shoulder pullover", "cardigan of halves")
"""Shaped at the waist, so for adults by nature; those for the young have the name of the same garment in theirs."""


def is_for(construction: str, group: str) -> bool:
    """Whether bodies of a group (`adults` of the survey, or a table's name) wear a garment of this construction."""
    if construction.startswith("child's "):
        return group in ("children", "babies")
    return construction not in SHAPED or group not in ("children", "babies")


def of_survey(row: dict[str, str]) -> Measures:
    """One adult of the survey, feet as they were measured."""
    return measures_of(row) | {name: Fraction(row[column]) for name, column in FEET.items()}


def of_young(survey: str) -> list[Measures]:
    """The `children` or `infants` of the survey, with the measures that it took of each and nothing else.

    Children have a waist and an upper arm; infants a head up to 7 months and an upper arm from 2 months on.
    """
    columns = {"head": "head_cm", "waist": "waist_cm", "upper-arm": "upper_arm_cm"}
    return [
        {name: Fraction(row[column]) for name, column in columns.items() if row.get(column)} for row in young(survey)
    ]


def of_tables() -> dict[str, list[Measures]]:
    """All sizes of the published tables, by table."""
    return {name: [_of_table(body) for body in group(name).bodies] for name in GROUPS}


def _of_table(body: Body) -> Measures:
    """Add wrist and neck base, where a table of children has none, by our rough estimate from upper arm and head."""
    known = dict(body.measures)
    for name, other, factor in (("neck-base", "head", Fraction(55, 100)), ("wrist", "upper-arm", Fraction(65, 100))):
        if name not in known and other in known:
            known[name] = Measured(known[other].value_cm * factor, f"{other} x {factor}", "estimated")
    users: Users = body.users
    full = Body(body.name, known, users)
    for name, found in (("neck-width", neck_width(full)), ("body-length", body_length(full))):
        if found is not None:
            known.setdefault(name, found)
    return {name: one.value_cm for name, one in known.items()}


def made_to_measure(construction: str, body: Measures) -> str:
    """The example with one body in place of its sizes; where it lists values by size, the first."""
    example, changes = CHANGES[construction]
    text = (EXAMPLES / f"{example}.wale").read_text("utf-8")
    (sizes,) = SIZES.findall(text)
    eases = [f"    ease {one}" for one in EASE.findall(sizes)]
    measures = [f"    measure {name} {float(round(value, 1))} cm" for name, value in body.items()]
    text = text.replace(sizes, "\n".join(("body one", *measures, *eases)) + "\n\n")
    for old, new in changes.items():
        assert old in text, (example, old)
        text = text.replace(old, new)
    return LIST.sub(r"\1 cm", text)
