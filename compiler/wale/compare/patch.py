"""The whole difference of two plans as a JSON patch (RFC 6902): applied to the first it gives the second."""

from __future__ import annotations

from typing import Any

from wale.compare.numbers import Json


def patch(before: Json, after: Json) -> list[dict[str, Any]]:
    """Give the operations that make the second plan of the first; none where they are the same to the letter."""
    import jsonpatch

    return list(jsonpatch.make_patch(before, after).patch)
