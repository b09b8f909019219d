"""Reasons as text: one block a number, and the list of all numbers."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from textwrap import fill

from wale.explain.book import Units, printed, show
from wale.explain.reason import Candidate, Input, Reason
from wale.quantity import show_decimal, show_signed
from wale.source import Source, Span

WIDTH = 96
_ONE = {"sts": "st", "rows": "row", "rounds": "round", "times": "time", "repeats": "repeat"}
_SHAPING = re.compile(r"(.*\.shaping)\[(\d+)\]\..*")


def show_reason(reason: Reason, sources: Mapping[str, Source], note: str = "", units: Units = "cm") -> str:
    """Write a block: value, formula, inputs with their lines, rules, candidates.

    Args:
        note: said in place of candidates.
        units: of the pattern's lengths; reasons reckon in cm, so inches are told beside them.
    """
    value = with_unit(reason)
    if units == "inch" and reason.unit == "cm":
        value += f", printed as {printed(reason, units)} inches"
    whose = f", size {reason.size}" if reason.size else ""
    lines = [f"{reason.address}{whose}: {value}"]
    lines += _wrapped("why", reason.formula)
    if reason.deviation is not None:
        lines += _wrapped("got", f"{show_signed(reason.deviation, 2)} cm from the wish")
    for one in reason.inputs:
        lines += _wrapped("from", _input(one, sources))
    for rule in reason.rounding:
        lines += _wrapped("rule", rule)
    if reason.candidates:
        lines += _candidates(reason.candidates)
    elif note and reason.unknown:
        lines += _wrapped("note", note)
    for places in _places(reason.spans, sources):
        lines += _wrapped("line", places)
    return "\n".join(lines)


def _wrapped(lead: str, text: str) -> list[str]:
    return fill(
        text,
        WIDTH,
        initial_indent=f"  {lead:5} ",
        subsequent_indent=" " * 8,
        break_long_words=False,
        break_on_hyphens=False,
    ).split("\n")


def with_unit(reason: Reason) -> str:
    """Write a number with its unit: "161 sts", "1 row", "column 7", "row 3"."""
    figures, unit = printed(reason), reason.unit
    if unit in ("row", "round", "column"):
        return f"{unit} {figures}"
    return f"{figures} {_ONE.get(unit, unit.removesuffix('s')) if figures == '1' else unit}".strip()


def _input(one: Input, sources: Mapping[str, Source]) -> str:
    parts = [one.name]
    if one.value is not None:
        exact = f" = {one.value}" if show(one.value) != str(one.value).replace("-", "−") else ""
        parts = [f"{one.name}: {show(one.value, 3)}{exact}"]
    if one.where is not None and one.where.file:
        parts.append(f"({place(one.where, sources)})")
    if one.source:
        parts.append(f"[{one.source}]")
    return " ".join(parts)


def place(span: Span, sources: Mapping[str, Source]) -> str:
    """Write the file and line of a span."""
    source = sources.get(span.file)
    return f"{span.file}:{source.place(span.start)[0]}" if source is not None else span.file


def _places(spans: Sequence[Span], sources: Mapping[str, Source]) -> list[str]:
    """Give the lines of each file: "hat.wale:4, 9"."""
    found: dict[str, dict[int, None]] = {}
    for span in (place for each in spans for place in each.places):
        if span.file in sources:
            found.setdefault(span.file, {})[sources[span.file].place(span.start)[0]] = None
    return [f"{file}:{', '.join(str(line) for line in sorted(lines))}" for file, lines in found.items()]


def _candidates(candidates: Sequence[Candidate]) -> list[str]:
    wide = max(len(str(one.count)) for one in candidates)
    lines: list[str] = []
    for one in candidates:
        off = f"{show_signed(one.deviation, 2)} cm" if one.deviation is not None else ""
        mark, words = " ", ""
        if one.is_chosen:
            mark, words = ">", "chosen"
        elif one.costs_more is not None:
            words = f"costs {show_decimal(one.costs_more, 3)} cm² more"
        head = f"{mark} {one.count:{wide}}  {off:9}  "
        if one.conflict:
            words = f"cannot be: {'; '.join(one.conflict)}"
        lead = "count" if not lines else ""
        wrapped = fill(words, WIDTH, initial_indent=" " * (8 + len(head)), subsequent_indent=" " * (8 + len(head)))
        lines.append(f"  {lead:5} {head}{wrapped.strip()}".rstrip())
    return lines


def show_list(reasons: Iterable[Reason], sizes: Sequence[str]) -> str:
    """Write all addresses with their values in size order; a table of shaping rows takes one line."""
    values: dict[str, dict[str, str]] = {}
    units: dict[str, str] = {}
    tables: dict[str, int] = {}
    for reason in reasons:
        found = _SHAPING.fullmatch(reason.address)
        if found is not None:
            tables[found[1]] = max(tables.get(found[1], 0), int(found[2]))
            values.setdefault(found[1], {})
            continue
        values.setdefault(reason.address, {})[reason.size] = printed(reason)
        units[reason.address] = reason.unit
    wide = max((len(address) for address in values), default=0)
    cells = max((len(value) for by_size in values.values() for value in by_size.values()), default=1)
    cells = max(cells, *(len(size) for size in sizes))
    lines = [" ".join([" " * wide, *(size.rjust(cells) for size in sizes)])]
    for address, by_size in values.items():
        if address in tables:
            lines.append(f"{address}[1] to [{tables[address]}]: row, stitches, columns of each shaping row")
            continue
        row = (by_size.get(size, "–").rjust(cells) for size in sizes)
        lines.append(" ".join([address.ljust(wide), *row, units[address]]))
    return "\n".join(lines)
