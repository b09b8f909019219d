"""A comparison as JSON: what differs in records that are easy to read, and the whole difference as a patch."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import msgspec

from wale import __version__
from wale.compare.comparison import Comparison, Version
from wale.compare.numbers import Json, Values
from wale.compare.patch import patch

FORMAT = "wale diff 1"


def render(found: Comparison) -> str:
    """Give the object; docs/diff.md tells its fields."""
    data: Json = {
        "format": FORMAT,
        "compiler": f"wale {__version__}",
        "old": _version(found.old),
        "new": _version(found.new),
        "is_same": found.is_same,
        "is_knit_alike": found.is_knit_alike,
        "sizes": list(found.sizes),
        "gone_sizes": list(found.gone_sizes),
        "new_sizes": list(found.new_sizes),
        "gone_parts": list(found.gone_parts),
        "new_parts": list(found.new_parts),
        "renamed": [{"old": old, "new": new} for old, new in found.renamed],
        "numbers": [
            {"address": one.address, "kind": one.kind, "before": _values(one.before), "after": _values(one.after)}
            for one in found.changes
        ],
        "motifs": [
            {
                "name": one.name,
                "before": one.before,
                "after": one.after,
                "shifts": list(one.shifts),
                "cells": _plain(one.cells),
            }
            for one in found.motifs
        ],
        "wordings": _plain(found.wordings),
        "lost": _plain(found.lost),
        "gained": _plain(found.gained),
        "assumed_before": [one.message for one in found.assumed_before],
        "assumed_after": [one.message for one in found.assumed_after],
        "patch": patch(found.old.plan, found.new.plan),
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def _version(version: Version) -> Json:
    return {"name": version.name, "title": version.plan["title"], "compiler": version.plan["compiler"]}


def _plain(records: Any) -> Any:
    return msgspec.to_builtins(records)


def _values(values: Values) -> list[object]:
    """Give values as text: fractions exact ("93/2", whole numbers plain), words as they are."""
    return [str(one) if isinstance(one, Fraction) else one for one in values]
