"""Gives the module of a template; `parts.py` is what `python -m wale.outputs.templates.ready parts.html.j2` prints."""

from __future__ import annotations

import sys

import jinja2

from wale.outputs.document import fillable
from wale.outputs.templates import digest, text_of

HEAD = '''"""Made of `{name}` by `python -m wale.outputs.templates.ready`; not for editing."""

# mypy: ignore-errors
# ruff: noqa
# fmt: off
JINJA = {version!r}
DIGEST = {digest!r}
'''


def module_of(name: str) -> str:
    """Give the Python text of a template's module."""
    made = fillable().compile(text_of(name), name, name, raw=True, defer_init=True)
    return HEAD.format(name=name, version=jinja2.__version__, digest=digest(name)) + made.replace(
        "from __future__ import generator_stop\n", ""
    )


if __name__ == "__main__":
    print(module_of(sys.argv[1]))
