"""`wale knit`: a written pattern knitted row by row, without a spec."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.knit_report import KnitGauge

FORM = "27 sts, 36 rows in 10 cm"


@click.command(
    "knit",
    short_help="Knit a written pattern and say where it goes wrong.",
    epilog="""\b
Examples:
  wale knit sock.txt
  wale knit sock.txt --gauge "32 sts, 44 rows in 10 cm"
  wale knit jumper.txt --size M --json
""",
)
@click.argument("pattern", metavar="FILE")
@click.option("--gauge", metavar="TEXT", help=f'Stitches and rows, for measurements: "{FORM}".')
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to knit, repeatable; by default all.")
@click.option("--json", "to_json", is_flag=True, help="Print what was found as JSON on standard output.")
@click.pass_obj
def knit(world: World, pattern: str, gauge: str | None, sizes: tuple[str, ...], to_json: bool) -> int:
    """Knit the written pattern in FILE, a plain text, row by row.

    It says the stitches after each row, the first row that cannot be worked, where counts contradict the text, and what
    is on the needles at the end. FILE is the text of a compiled pattern, also one edited by hand, or an old pattern
    typed in.
    """
    from wale.knit_report import as_data, as_text
    from wale.knitting import knit_pattern
    from wale.problems.export import as_json

    measured = _gauge(gauge)
    try:
        source = world.read(pattern)
    except Refused as refused:
        return _refused(world, pattern, refused.problem, to_json)
    with progress(world, f"knitting {pattern}"):
        knitted = knit_pattern(source, sizes)
    unknown = [size for size in sizes if size not in knitted.book.sizes]
    if unknown:
        names = ", ".join(size for size in knitted.book.sizes if size) or "none"
        raise click.BadParameter(f"{pattern} has no size {unknown[0]}; its sizes: {names}.", param_hint="--size")
    sources = {source.name: source}
    if to_json:
        told = {"file": pattern, "problems": as_json(knitted.problems, sources), **as_data(knitted, measured)}
        emit((json.dumps(told, indent=1, ensure_ascii=False) + "\n").encode(errors="replace"))
    else:
        emit(as_text(knitted, measured).encode(errors="replace"))
        report(world, knitted.problems, sources)
        notice(f"{pattern}: {count(knitted.problems)}")
    return exit_code(knitted.problems)


def _gauge(text: str | None) -> KnitGauge | None:
    """Read a gauge.

    Raises:
        click.BadParameter: it makes no gauge.
    """
    if text is None:
        return None
    from wale.knit_report import KnitGauge
    from wale.reckon.words import Words

    words = Words(text, (FORM,))
    try:
        stitches, rows = words.gauges()
        words.end()
    except Refused as refused:
        raise click.BadParameter(refused.problem.message + f'; write "{FORM}".', param_hint="--gauge") from None
    return KnitGauge(stitches.per_cm, rows.per_cm, "inch" in text)


def _refused(world: World, pattern: str, problem: Problem, to_json: bool) -> int:
    if to_json:
        from wale.problems.export import as_json

        told = {
            "file": pattern,
            "problems": as_json((problem,), {}),
            "sizes": [],
            "pieces": [],
            "remarks": [],
            "prose": [],
        }
        emit((json.dumps(told, indent=1, ensure_ascii=False) + "\n").encode(errors="replace"))
    else:
        report(world, (problem,), {})
    return exit_code((problem,))
