"""Problems as plain data for JSON, editors and pages: every field, every place counted in each way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from wale.problems.codes import CODES
from wale.problems.problem import Problem
from wale.source import Source, Span


def as_json(problems: Sequence[Problem], sources: Mapping[str, Source]) -> list[dict[str, Any]]:
    """Give problems as JSON-ready dictionaries, in the order given.

    Args:
        problems: what to export.
        sources: the files by the name in their spans.

    Returns:
        Per problem: code, severity, title, message, help, size, labels (place, text) and fixes (title, grade, edits of
        place and text). A place has the file, `start` and `end` as code points from 0, and `from` and `to`, each with
        line and column from 1 and `utf16`, the column from 0 in UTF-16 units; these two are None for an unknown file.
    """
    return [
        {
            "code": found.code,
            "severity": found.severity,
            "title": CODES[found.code].title,
            "message": found.message,
            "help": found.help,
            "size": found.size,
            "labels": [{"place": _place(label.span, sources), "text": label.text} for label in found.labels],
            "fixes": [
                {
                    "title": fix.title,
                    "grade": fix.grade,
                    "edits": [{"place": _place(edit.span, sources), "text": edit.text} for edit in fix.edits],
                }
                for fix in found.fixes
            ],
        }
        for found in problems
    ]


def _place(span: Span, sources: Mapping[str, Source]) -> dict[str, Any]:
    source = sources.get(span.file)
    return {
        "file": span.file,
        "start": span.start,
        "end": span.end,
        "from": None if source is None else _point(source, span.start),
        "to": None if source is None else _point(source, span.end),
    }


def _point(source: Source, offset: int) -> dict[str, int]:
    offset = min(offset, len(source.text))
    line, column = source.place(offset)
    return {"line": line, "column": column, "utf16": source.utf16_column(offset)}
