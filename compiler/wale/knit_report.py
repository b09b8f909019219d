"""What `wale knit` found, as text and as data: rows, stitches, stated counts, ends, and measurements by gauge."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from textwrap import wrap
from typing import Any

from msgspec import Struct

from wale.knitting import Knitted, remarks
from wale.prove.trial import Trial
from wale.quantity import show_decimal, show_inch

WIDTH = 80


class KnitGauge(Struct, frozen=True):
    """Stitches and rows in 1 cm; `inches` where lengths are to be told so."""

    stitches: Fraction
    rows: Fraction
    inches: bool = False

    def show(self, length: Fraction) -> str:
        """Print a length of cm with its unit."""
        return f"{show_inch(length)} inch" if self.inches else f"{show_decimal(length)} cm"


class Run(Struct, frozen=True):
    """Rows with as many stitches after each: first and last row, and the side of a divided neck."""

    first: int
    last: int
    part: str
    stitches: int


def runs(trial: Trial) -> tuple[Run, ...]:
    """Give the rows of a trial, those with as many stitches taken together."""
    found: list[Run] = []
    for row in trial.rows:
        last = found[-1] if found else None
        if last is not None and (last.stitches, last.part) == (row.stitches, row.part):
            found[-1] = Run(last.first, row.number, last.part, last.stitches)
        else:
            found.append(Run(row.number, row.number, row.part, row.stitches))
    return tuple(found)


def rows_of(trial: Trial) -> int:
    """Give the rows one above the other: both sides of a neck lie beside each other."""
    return max((row.number for row in trial.rows), default=0)


def as_text(knitted: Knitted, gauge: KnitGauge | None) -> str:
    """Tell what was knitted, in lines of 80 characters."""
    lines: list[str] = []
    for trial in knitted.trials:
        lines += [*_trial(knitted, trial, gauge), ""]
    told = len(remarks(knitted.book))
    if told:
        lines.append(f"{told} {'line tells' if told == 1 else 'lines tell'} only and {_were(told)} not knitted.")
    if knitted.book.prose:
        lines += wrap(f"Without instructions: {', '.join(knitted.book.prose)}.", WIDTH)
    return "\n".join(lines).rstrip("\n") + "\n"


def _were(count: int) -> str:
    return "was" if count == 1 else "were"


def _trial(knitted: Knitted, trial: Trial, gauge: KnitGauge | None) -> Iterator[str]:
    rows = rows_of(trial)
    name = f"{trial.piece}, size {trial.size}" if trial.size else trial.piece
    length = f", {gauge.show(rows / gauge.rows)} by rows" if gauge is not None else ""
    yield f"{name}: {rows} {'row' if rows == 1 else 'rows'}{length}, {trial.stitches} stitches worked"
    if trial.cast_on:
        width = f" ({gauge.show(trial.cast_on / gauge.stitches)})" if gauge is not None else ""
        yield from _line(f"begins with {trial.cast_on} sts{width}")
    told = [_run(run, gauge) for run in runs(trial)]
    if told:
        yield from _line(f"stitches: {'; '.join(told)}")
    numbers = knitted.lines[trial.piece, trial.size]
    for one in trial.stated:
        there, said = (", ".join(map(str, counts)) for counts in (one.found, one.told))
        agrees = "as stated" if not one.message else f"but {said} stated"
        yield from _line(f"line {numbers[one.line]}, after row {one.row}: {there}, {agrees}")
    if trial.stop is not None:
        yield from _line(f"stops at line {numbers[trial.stop.line]}: {trial.stop.message}")
    yield from _line(f"at the end: {_end(trial)}")


def _line(text: str) -> list[str]:
    return wrap(text, WIDTH, initial_indent="  ", subsequent_indent="    ")


def _run(run: Run, gauge: KnitGauge | None) -> str:
    rows = f"row {run.first}" if run.first == run.last else f"rows {run.first} to {run.last}"
    part = f", {run.part} side" if run.part else ""
    width = f" ({gauge.show(run.stitches / gauge.stitches)})" if gauge is not None else ""
    return f"{rows}{part}: {run.stitches}{width}"


def _end(trial: Trial) -> str:
    held = f"{' and '.join(map(str, trial.held))} held" if trial.held else ""
    ends = (
        f"{trial.live} on the needle" if trial.live else "",
        held,
        f"{trial.bound_off} bound off" if trial.bound_off else "",
        f"{trial.drawn} drawn together" if trial.drawn else "",
    )
    return ", ".join(end for end in ends if end) or "no stitches"


def as_data(knitted: Knitted, gauge: KnitGauge | None) -> dict[str, Any]:
    """Give everything as data for JSON; lengths in cm, to the nearest tenth of a millimetre."""
    return {
        "sizes": [size for size in knitted.book.sizes if size],
        "pieces": [_piece_data(knitted, trial, gauge) for trial in knitted.trials],
        "remarks": [{"line": step.number, "text": step.text} for step in remarks(knitted.book)],
        "prose": list(knitted.book.prose),
    }


def _piece_data(knitted: Knitted, trial: Trial, gauge: KnitGauge | None) -> dict[str, Any]:
    numbers = knitted.lines[trial.piece, trial.size]
    stop = trial.stop
    return {
        "name": trial.piece,
        "size": trial.size,
        "cast-on": trial.cast_on,
        "rows": rows_of(trial),
        "stitches": trial.stitches,
        "length": _cm(rows_of(trial) / gauge.rows) if gauge is not None else None,
        "runs": [
            {
                "from": run.first,
                "to": run.last,
                "part": run.part,
                "sts": run.stitches,
                "width": _cm(run.stitches / gauge.stitches) if gauge is not None else None,
            }
            for run in runs(trial)
        ],
        "stated": [
            {"line": numbers[one.line], "row": one.row, "told": list(one.told), "found": list(one.found)}
            for one in trial.stated
        ],
        "live": trial.live,
        "held": list(trial.held),
        "bound-off": trial.bound_off,
        "drawn": trial.drawn,
        "stop": {"line": numbers[stop.line], "row": stop.row + 1, "why": stop.message} if stop is not None else None,
    }


def _cm(value: Fraction) -> float:
    return float(show_decimal(value, 2))
