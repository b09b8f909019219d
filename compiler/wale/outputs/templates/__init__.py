"""The page's templates, made ready for Jinja ahead of time: making them takes longer than filling them.

`pattern.py` and `parts.py` are written from the templates beside them, for the one version of Jinja that wrote them.
With another version the templates are made anew. After a change see `ready.py`.
"""

from __future__ import annotations

from collections.abc import MutableMapping
from functools import cache
from importlib import import_module, resources
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2 import Environment, Template

NAMES = {"pattern.html.j2": "pattern", "parts.html.j2": "parts"}
"""The templates, and the modules that they were made into."""


def text_of(name: str) -> str:
    """Give a template as it is written."""
    return resources.files(__package__).joinpath(name).read_text("utf-8")


def digest(name: str) -> str:
    """Give the mark by which a module is known to belong to a template."""
    from hashlib import sha256

    return sha256(text_of(name).encode()).hexdigest()


@cache
def environment() -> Environment:
    """Give the environment in which the templates are made and filled; filters are added by who fills them."""
    import jinja2

    class Ready(jinja2.FunctionLoader):
        def load(
            self, environment: Environment, name: str, globals: MutableMapping[str, Any] | None = None
        ) -> Template:
            module = import_module(f"{__package__}.{NAMES[name]}")
            if jinja2.__version__ != module.JINJA:
                return super().load(environment, name, globals)
            return environment.template_class.from_module_dict(
                environment, vars(module), environment.make_globals(globals)
            )

    return jinja2.Environment(
        loader=Ready(text_of), autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
