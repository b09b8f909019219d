"""Commented specs for `wale new`, one a kind of garment; the texts lie in `starters/`."""

from __future__ import annotations

KINDS = {
    "pullover": "a drop-shoulder pullover, worked flat from the hem up",
    "gansey": "a drop-shoulder pullover in one yarn, plain below and textured above",
    "set-in": "a pullover with set-in sleeves, worked flat from the hem up",
    "placket": "a drop-shoulder pullover with a placket at the neck, worked flat from the hem up",
    "vest": "a vest with a V neck and bands, worked flat from the hem up",
    "cardigan": "a drop-shoulder cardigan with bands and buttonholes, worked flat",
    "raglan": "a seamless raglan pullover from the neck down",
    "raglan-from-hem": "a seamless raglan pullover from the hem up",
    "yoke": "a seamless pullover with a round yoke, from the neck down",
    "yoke-from-hem": "a seamless pullover with a round yoke, from the hem up",
    "saddle": "a seamless pullover with straps over the shoulders, from the hem up",
    "hat": "a hat with a folded hem, worked in the round from the hem up",
    "earflap-hat": "a hat with ear flaps, worked in the round",
    "headband": "a headband, worked in the round",
    "cowl": "a tube for the neck, worked in the round",
    "socks": "socks from the cuff down, with a heel flap",
    "toe-up-socks": "socks from the toe up, with a heel of short rows",
    "mittens": "mittens with a thumb gusset",
    "mitts": "fingerless mitts with a thumb gusset",
    "baby-set": "a hat, mitts and bootees for a baby",
    "scarf": "a scarf in lace, worked flat",
    "shawl": "a shawl in two triangles, worked flat",
    "half-circle": "a shawl in a half circle, worked flat",
    "blanket": "a blanket in two colours with a border of garter, worked flat",
    "ball": "a soft ball in eight segments, worked in the round",
    "construction": "a construction of your own, made twice with other values",
}
"""Kinds with a line on each, in the order they are listed: by garment."""


def starter(kind: str) -> str:
    """Give the text of the starter of a kind in `KINDS`."""
    from importlib.resources import files

    return (files("wale") / "starters" / f"{kind}.wale").read_text("utf-8")
