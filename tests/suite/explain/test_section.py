"""Reasons on the web page: each number leads to its reason on the page, and nothing of it reaches the other outputs."""

import re

import pytest
from support import EXAMPLES, world

from wale.driver import compile_spec, render

LINK = re.compile(r'<a class="n" href="#([^"]+)">([^<]+)</a>')


@pytest.fixture(scope="module", params=["millrace-pullover", "sluice-hat", "first-cowl"])
def compiled(request):
    place = world((EXAMPLES / f"{request.param}.wale").read_text("utf-8"))
    return compile_spec(place, "a.wale"), place


@pytest.fixture(scope="module")
def page(compiled):
    done, place = compiled
    return render(done, "html", place)[0].decode()


@pytest.fixture(scope="module")
def middle():
    place = world((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    return render(compile_spec(place, "a.wale", ("M",)), "html", place)[0].decode()


def test_each_link_leads_to_a_reason(page):
    links = LINK.findall(page)
    assert len(links) > 100
    for target in {target for target, _ in links}:
        assert page.count(f'id="{target}" data-address="why.') == 1


def test_each_reason_is_led_to(page):
    reasons = re.findall(r'<li id="([^"]+)" data-address="why\.', page)
    assert reasons and set(reasons) == {target for target, _ in LINK.findall(page)}


def test_each_number_of_a_step_is_a_link(page):
    """All figures of the numbered lines but those of stitches' names, and the first row of a chart."""
    steps = re.findall(r'<li id="[^"]+" data-address="(?!why\.)[^"]+">(.*?)</li>', page, re.S)
    assert len(steps) > 5
    for step in steps:
        bare = re.sub(r"<a class=\"n\".*?</a>|<[^>]+>|\b(?:k2tog|p2tog|m1[LRp]?)\b|\b\dXL\b", "", step)
        assert re.findall(r"\d+", re.sub(r"\bthen 1(?= to)", "", bare)) == [], step


def test_a_number_leads_to_its_own_reason(middle):
    """By reading: the count cast on, the rows of the facing and a yarn's grams of size M."""
    links = dict.fromkeys((target, words) for target, words in LINK.findall(middle))
    assert {("why-back-cast-on", "147"), ("why-back-hem-facing-plain", "10"), ("why-yarn-rye-ready", "355")} <= set(
        links
    )


def test_a_reason_stands_as_it_is_explained(middle):
    section = middle[middle.index('<section id="why"') :]
    plain = " ".join(re.sub(r"<[^>]+>", "", section).split())
    assert "The calculation of size M." in plain
    assert "back.bust: 161 sts. (bust/2 = 53.99 cm) × 2.941 sts/cm + 2 edge sts = 160.79; got +0.07 cm." in plain


def test_the_page_asks_for_nothing_else(page):
    assert "<script" not in page and not re.search(r'(?:src|href)="(?!#|data:)', page)


def test_only_html_holds_reasons(compiled):
    done, place = compiled
    text = render(done, "text", place)[0].decode()
    assert "Why these numbers" not in text and not re.search("[\ue000-\ue002]", text)
    assert done.pattern is not None and all(section.id != "why" for section in done.pattern.sections)


@pytest.mark.parametrize("name", ["millrace-pullover", "sluice-hat"])
def test_both_hands_have_the_same_numbers_at_the_same_addresses(name):
    """So `wale explain`, which speaks of the right hand, answers for a number that was printed for the left one."""
    place = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    pages = [
        render(compile_spec(place, "a.wale", is_left_handed=is_left_handed), "html", place)[0].decode()
        for is_left_handed in (False, True)
    ]
    right, left = (sorted(LINK.findall(page)) for page in pages)
    assert right == left and len(right) > 100
