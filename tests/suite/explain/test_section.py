"""Reasons in the HTML: each link leads to a paragraph on the page, and nothing of it reaches the other outputs."""

import re

import pytest
from support import EXAMPLES, world

from wale.driver import compile_spec, render


@pytest.fixture(scope="module", params=["millrace-pullover", "sluice-hat", "first-cowl"])
def compiled(request):
    place = world((EXAMPLES / f"{request.param}.wale").read_text("utf-8"))
    return compile_spec(place, "a.wale"), place


def test_each_link_leads_to_its_reasons(compiled):
    done, place = compiled
    page = render(done, "html", place)[0].decode()
    links = re.findall(r'<a class="why" href="#([^"]+)" aria-label="why: ([^"]+)"', page)
    assert len(links) > 3
    for target, name in links:
        assert page.count(f'id="{target}"') == 1
        assert f'id="{target}" data-address="why.{name}"' in page


def test_numbered_steps_have_reasons(compiled):
    """Every step that prints a count of rows or stitches to work is linked."""
    done, place = compiled
    page = render(done, "html", place)[0].decode()
    steps = re.findall(r'<li id="[^"]+" data-address="([^"]+)">(.*?)</li>', page, re.S)
    counted = [(address, text) for address, text in steps if re.search(r"\b(Cast on|[Ww]ork) (<span[^>]*>)?\d", text)]
    assert counted and [address for address, text in counted if 'class="why"' not in text] == []


def test_a_reason_stands_as_it_is_explained():
    place = world((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    page = render(compile_spec(place, "a.wale", ("M",)), "html", place)[0].decode()
    section = page[page.index('<section id="why"') :]
    plain = " ".join(re.sub(r"<[^>]+>", "", section).split())
    assert "The calculation of size M." in plain
    assert "back.bust: 161 sts. (bust/2 = 53.99 cm) × 2.941 sts/cm + 2 edge sts = 160.79; got +0.07 cm." in plain


def test_only_html_holds_reasons(compiled):
    done, place = compiled
    assert "Why these numbers" not in render(done, "text", place)[0].decode()
    assert done.pattern is not None and all(section.id != "why" for section in done.pattern.sections)
