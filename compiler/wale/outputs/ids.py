"""Ids of a page: unique, and safe in a link."""

from __future__ import annotations

import re


def slug(address: str) -> str:
    """The id that an address gets where it is the first of its kind, for links to it."""
    plain = re.sub(r"[^a-z0-9]+", "-", address.lower()).strip("-") or "part"
    return f"p-{plain}" if plain[0].isdigit() else plain


class Ids:
    """Hands out ids that are unique on the page and safe in a link: the slug of an address, numbered if taken."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def make(self, address: str) -> str:
        """An id for `address`; a second one of the same slug gets `-2`, and so on."""
        plain = slug(address)
        name, n = plain, 1
        while name in self._taken:
            n += 1
            name = f"{plain}-{n}"
        self._taken.add(name)
        return name
