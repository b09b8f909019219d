"""The printed page: a tagged PDF by WeasyPrint, the same bytes for the same pattern."""

from __future__ import annotations

import logging
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from io import BytesIO
from xml.etree import ElementTree

from wale.outputs import document, fonts
from wale.outputs.attached import Published, attach
from wale.outputs.setting import Medium, Setting
from wale.outputs.svg import PNG
from wale.pattern import Pattern

_PAPERS: dict[str, Medium] = {"a4": "a4", "letter": "letter"}


class TypesettingError(Exception):
    """The typesetter complained, or a character has no glyph; `complaints` says each in a line."""

    def __init__(self, complaints: tuple[str, ...]) -> None:
        super().__init__("; ".join(complaints))
        self.complaints = complaints


def render(
    pattern: Pattern,
    *,
    epoch: int,
    complaints: list[str] | None = None,
    is_large: bool = False,
    attached: Published | None = None,
) -> bytes:
    """The pattern as a tagged PDF (PDF/UA-1) with bookmarks, footers and only the package's own fonts.

    Args:
        pattern: `paper` is `A4` or `letter`.
        epoch: seconds since 1970 UTC, printed as the date of making in the file's metadata.
        complaints: receives what the typesetter warns of and characters that have no glyph and print as U+FFFD;
            without a list, the first such complaint is an error.
        is_large: in large print, for readers with low vision.
        attached: the files that it carries.

    Raises:
        TypesettingError: something to complain of and no list to put it in.
        ValueError: an unknown paper; a caller's bug.
    """
    paper = _PAPERS.get(pattern.paper.lower())
    if paper is None:
        raise ValueError(f"paper is A4 or letter, not {pattern.paper!r}")
    made = datetime.fromtimestamp(epoch, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    dates = f'<meta name="dcterms.created" content="{made}"/><meta name="dcterms.modified" content="{made}"/>'
    page, lost = fonts.settable(document.render(pattern, Setting(paper, is_large), ""))
    style = document.read_style("base.css") + document.read_style("print.css") + f"@page {{ size: {paper}; }}"
    if is_large:
        style += document.read_style("large.css") + document.read_style("large-print.css")
    page = page.replace("<style></style>", f"{dates}<style>{fonts.css(page, is_inline=False)}\n{style}</style>", 1)
    found = [f"no glyph for {character} (U+{ord(character):04X})" for character in lost]
    with _warnings(found):
        content = _typeset(page, attached)
    if complaints is not None:
        complaints.extend(found)
    elif found:
        raise TypesettingError(tuple(found))
    return content


def _typeset(page: str, attached: Published | None) -> bytes:
    """Sets a page that is well-formed XML, which the standard library reads in a fiftieth of an HTML parser's time."""
    from cssselect2 import ElementWrapper  # type: ignore[import-untyped]
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class Inside(URLFetcher):  # type: ignore[misc]
        """Pictures are inside the page and fonts in the package; any other address is a defect, and refused."""

        def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
            if url.startswith("font:"):
                return URLFetcherResponse(url, fonts.truetype(url), {"Content-Type": "font/ttf"})
            if url.startswith(PNG):
                return URLFetcherResponse(url, _unpacked(url), {"Content-Type": "image/png"})
            return super().fetch(url, headers)

    class Page(HTML):  # type: ignore[misc]
        """The page as the typesetter wants it."""

        def __init__(self) -> None:
            self.base_url = None
            self.url_fetcher = Inside(allowed_protocols=("data",))
            self.media_type = "print"
            root = ElementTree.fromstring(page)
            _drop_idle_ids(root)
            self.wrapper_element = ElementWrapper.from_html_root(root, content_language=None)
            self.etree_element = self.wrapper_element.etree_element

        def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:
            """Our elements only: the typesetter's sheet makes six styles more for each, for notes and markers."""
            return [CSS(string=document.read_style("elements.css"))]

    finisher = None if attached is None else attach(attached)
    content: bytes = Page().write_pdf(font_config=FontConfiguration(), pdf_variant="pdf/ua-1", finisher=finisher)
    return content


def _unpacked(url: str) -> bytes:
    """A picture in RGB and not packed: the typesetter would pack an indexed one twice."""
    from PIL import Image

    out = BytesIO()
    Image.open(BytesIO(b64decode(url[len(PNG) :]))).convert("RGB").save(out, "PNG", compress_level=0)
    return out.getvalue()


def _drop_idle_ids(root: ElementTree.Element) -> None:
    """Takes away ids that nothing in the page points to: elements without one share their style."""
    linked = {link.get("href", "").removeprefix("#") for link in root.iter("a")}
    for element in root.iter():
        if element.get("id") not in linked and not element.tag.endswith("clipPath"):
            element.attrib.pop("id", None)


@contextmanager
def _warnings(found: list[str]) -> Iterator[None]:
    """Collects what the typesetter and its font library warn of."""

    class Collector(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            found.append(record.getMessage())

    collector = Collector(logging.WARNING)
    loggers = [logging.getLogger(name) for name in ("weasyprint", "fontTools")]
    before = [(logger.propagate, logger.handlers[:]) for logger in loggers]
    for logger in loggers:
        logger.propagate = False
        logger.handlers = [collector]
    try:
        yield
    finally:
        for logger, (propagate, handlers) in zip(loggers, before, strict=True):
            logger.propagate = propagate
            logger.handlers = handlers
