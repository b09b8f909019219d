"""The modules of the templates belong to the templates, and fill alike to those made anew."""

from __future__ import annotations

from importlib import import_module

import pytest
from support import EXAMPLES, written

from wale.outputs import html, templates
from wale.outputs.document import fillable


@pytest.mark.parametrize(("name", "module"), templates.NAMES.items())
def test_each_module_was_made_of_its_template(name, module):
    assert templates.digest(name) == import_module(f"wale.outputs.templates.{module}").DIGEST


def test_another_version_of_jinja_makes_the_same_page(monkeypatch):
    pattern = written((EXAMPLES / "first-cowl.wale").read_text("utf-8")).pattern
    ready = html.render(pattern)
    for module in templates.NAMES.values():
        monkeypatch.setattr(import_module(f"wale.outputs.templates.{module}"), "JINJA", "another")
    templates.environment.cache_clear()
    fillable.cache_clear()
    try:
        assert html.render(pattern) == ready
    finally:
        templates.environment.cache_clear()
        fillable.cache_clear()
