"""One side of a comparison from what was named: a spec, a plan, a published PDF, or one of these in a git version."""

from __future__ import annotations

import json
from collections.abc import Mapping

from msgspec import Struct

from wale import refusals
from wale.compare.comparison import Garment, Version
from wale.compare.numbers import Json, numbers_of, sizes_of
from wale.compare.revision import Revision, names_revision, read_revision
from wale.files import Refused, World
from wale.problems.problem import Problem
from wale.source import Source

MOST = 20_000_000
"""Largest file that is read, in bytes; the largest PDF that is read otherwise, too."""
_ANEW = "Write it anew with `wale compile SPEC --to json`, or name the spec or its PDF."


class Loaded(Struct, frozen=True):
    """A side, or None where it has errors; its problems and the texts they point into.

    `compiler` names the compiler that made a PDF or plan, "" for a spec.
    """

    version: Version | None
    problems: tuple[Problem, ...] = ()
    sources: Mapping[str, Source] = {}
    compiler: str = ""


def load(world: World, name: str) -> Loaded:
    """Read one side and solve it.

    Args:
        name: a path, `-` for standard input, or `REV:path`; a file that exists goes before a version.

    Raises:
        Refused: it cannot be had or read: E901 to E905, E931, E932, E937, E941 to E944, E947.
    """
    place = world
    try:
        data = world.read_bytes(name, MOST)
    except Refused as refused:
        if refused.problem.code not in ("E901", "E903") or not names_revision(name):
            raise
        data, place = read_revision(world, name, MOST), Revision(world=world)
    if name.lower().endswith(".pdf") or data.startswith(b"%PDF"):
        return _of_pdf(name, data)
    if name.lower().endswith(".json") or data.lstrip()[:1] == b"{":
        plan = _plan(name, data)
        return Loaded(Version(name, plan), compiler=plan["compiler"])
    return _of_spec(name, place, refusals.decode(name, data))


def _of_spec(name: str, world: World, source: Source, sizes: tuple[str, ...] = (), hand: str = "right") -> Loaded:
    """Solve a spec, in the sizes and for the hand that are asked for."""
    import wale.driver as driver
    from wale.outputs.plan_json import plan_dict
    from wale.sized import of_sizes

    done = driver.check_source(world, source, sizes)
    errors = tuple(one for one in done.problems if one.is_error)
    if done.spec is None or done.plan is None or errors:
        return Loaded(None, errors, done.sources)
    spec, plan = of_sizes(done.spec, done.plan, done.sizes)
    told = plan_dict(spec, plan, done.problems, done.sources, "left" if hand == "left" else "right", done.own_names)
    return Loaded(Version(name, told, Garment(spec, plan)), done.problems, done.sources)


def _of_pdf(name: str, data: bytes) -> Loaded:
    """Solve the source that a PDF carries, as it was compiled for it."""
    from wale.outputs.attached import read
    from wale.publishing import world_of

    published = read(data, name)
    record, place = published.record, world_of(published)
    loaded = _of_spec(name, place, place.read(record.spec), record.sizes, record.hand)
    return Loaded(loaded.version, loaded.problems, loaded.sources, record.compiler)


def _plan(name: str, data: bytes) -> Json:
    """Give a plan from its file.

    Raises:
        Refused: E947 it is not in the form of the schema, or its lists do not fit its sizes.
    """
    from importlib.resources import files

    from jsonschema import Draft202012Validator
    from jsonschema.exceptions import best_match

    try:
        plan = json.loads(data)
        schema = json.loads(files("wale.outputs").joinpath("plan.schema.json").read_text("utf-8"))
        fault = best_match(Draft202012Validator(schema).iter_errors(plan))
    except (ValueError, RecursionError):
        raise _no_plan(name, "it is no JSON text") from None
    if fault is not None:
        raise _no_plan(name, f"{fault.json_path}: {fault.message[:120]}")
    if not _fits_sizes(plan):
        raise _no_plan(name, "its lists do not fit its sizes")
    found: Json = plan
    return found


def _no_plan(name: str, why: str) -> Refused:
    return refusals.refuse("E947", f"`{name}` is no plan of this Wale: {why}", _ANEW)


def _fits_sizes(plan: Json) -> bool:
    """Say whether a plan has one value a size wherever it should, and numbers that are some: a schema cannot tell."""
    sizes = sizes_of(plan)
    try:
        numbers = numbers_of(plan)
    except (ArithmeticError, LookupError, ValueError):
        return False
    tables = (tuple(table["size"] for table in piece["rows"]) for piece in plan["pieces"])
    return all(len(values) == len(sizes) for values in numbers.values()) and all(one == sizes for one in tables)
