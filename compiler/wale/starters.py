"""Commented specs for `wale new`, one a kind of garment; the texts lie in `starters/`."""

from __future__ import annotations

KINDS = {
    "pullover": "a drop-shoulder pullover, worked flat from the hem up",
    "vest": "a vest with a V neck and bands, worked flat from the hem up",
    "hat": "a hat with a folded hem, worked in the round from the hem up",
    "cowl": "a tube for the neck, worked in the round",
    "raglan": "a seamless raglan pullover from the neck down",
    "yoke": "a seamless pullover with a round yoke, from the neck down",
    "socks": "socks from the cuff down, with a heel flap",
    "mittens": "mittens with a thumb gusset",
    "mitts": "fingerless mitts with a thumb gusset",
    "shawl": "a shawl in two triangles, worked flat",
    "construction": "a construction of your own, made twice with other values",
}
"""Kinds with a line on each, in the order they are listed."""


def starter(kind: str) -> str:
    """Give the text of the starter of a kind in `KINDS`."""
    from importlib.resources import files

    return (files("wale") / "starters" / f"{kind}.wale").read_text("utf-8")
