"""What a published PDF carries of itself: its source files, its solved plan, and with what it was made.

They are embedded files of the PDF standard (ISO 32000-1, 7.11.4), each with its relationship to the document
(ISO 32000-2, 14.13): `Source` for the spec and what it uses, `Data` for the plan and the record. A PDF from elsewhere
is data that anybody may have made: reading it is bounded, and nothing in it is believed before it was looked at.
"""

from __future__ import annotations

import json
import logging
import re
import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from io import BytesIO
from typing import TYPE_CHECKING, Any

import msgspec
from msgspec import Struct

from wale.refusals import LAST_EPOCH, LIMIT_BYTES, Refused, refuse

if TYPE_CHECKING:
    from pypdf.generic import EmbeddedFile

RECORD, PLAN = "wale.json", "plan.json"
"""Names of the record and of the plan among the attachments."""
FORMAT = "wale published 1"
LIMIT_PDF = 20_000_000
"""Largest PDF that is read, in bytes."""
LIMIT_ONE, LIMIT_ALL, LIMIT_COUNT = 10_000_000, 30_000_000, 100
"""Largest attachment, and the most of all of them together, in bytes unpacked; and how many there may be."""
_PART = re.compile(r"[^\x00-\x1f\x7f<>:\"\\|?*/]{1,120}")
_DEVICE = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
"""Names that one system takes for devices, whatever their ending."""


class Record(Struct, frozen=True, forbid_unknown_fields=True):
    """With what a PDF was made, and of what: all that it takes to make it again.

    Attributes:
        format: `FORMAT`.
        compiler: such as "wale 0.1.0".
        typesetter: version by library.
        spec: name of the spec among the attachments.
        sources: names of the spec and of the files that it uses, in the order in which they were read.
        sizes: names of the printed sizes.
        extras: what else was asked to be printed.
        hand: whose pattern it is, `right` or `left`.
        large_print: set in large print.
        epoch: the date in the file, in seconds since 1970: the one asked for, never the clock's.
    """

    format: str
    compiler: str
    typesetter: dict[str, str]
    spec: str
    sources: tuple[str, ...]
    sizes: tuple[str, ...]
    extras: tuple[str, ...]
    hand: str
    large_print: bool
    epoch: int


class Published(Struct, frozen=True):
    """What a published PDF gives back: the record, the sources by name, and the plan as JSON."""

    record: Record
    sources: Mapping[str, bytes]
    plan: bytes

    def files(self) -> dict[str, bytes]:
        """Give every file by name: sources first, then plan and record."""
        record = json.dumps(msgspec.to_builtins(self.record), indent=1, ensure_ascii=False) + "\n"
        return {**self.sources, PLAN: self.plan, RECORD: record.encode()}


def versions() -> dict[str, str]:
    """Give the versions of the libraries that decide a PDF's bytes."""
    from importlib.metadata import version

    from weasyprint.text.ffi import pango

    found = {name: version(name) for name in ("fonttools", "pydyf", "weasyprint")}
    major, rest = divmod(pango.pango_version(), 10_000)
    return found | {"pango": f"{major}.{rest // 100}.{rest % 100}", "zlib": zlib.ZLIB_RUNTIME_VERSION}


def attach(published: Published) -> Callable[[object, Any], None]:
    """Give what embeds the files into a PDF that the typesetter has made, right before it is written."""

    def finish(_: object, pdf: Any) -> None:
        import pydyf  # type: ignore[import-untyped]

        names = pydyf.Array()
        links = pydyf.Array()
        for name, data, kind, words, relation in sorted(_files(published), key=_by_name):
            extra = {"Type": "/EmbeddedFile", "Subtype": f"/{kind}", "Params": pydyf.Dictionary({"Size": len(data)})}
            stream = pydyf.Stream([data], extra, compress=True)
            pdf.add_object(stream)
            entry = pydyf.Dictionary(
                {
                    "Type": "/Filespec",
                    "F": pydyf.String(name),
                    "UF": pydyf.String(name),
                    "EF": pydyf.Dictionary({"F": stream.reference, "UF": stream.reference}),
                    "Desc": pydyf.String(words),
                    "AFRelationship": f"/{relation}",
                }
            )
            pdf.add_object(entry)
            names.extend([pydyf.String(name), entry.reference])
            links.append(entry.reference)
        tree = pydyf.Dictionary({"Names": names})
        pdf.add_object(tree)
        pdf.catalog.setdefault("Names", pydyf.Dictionary())["EmbeddedFiles"] = tree.reference
        pdf.catalog["AF"] = links

    return finish


def _by_name(file: tuple[str, bytes, str, str, str]) -> tuple[bool, str]:
    """Order as a table of names is: by bytes, what is no ASCII (UTF-16 with a mark before it) last."""
    return not file[0].isascii(), file[0]


def _files(published: Published) -> Iterator[tuple[str, bytes, str, str, str]]:
    """Give name, content, kind, description and relationship of each file."""
    words = {PLAN: "The solved plan", RECORD: "With what this file was made", published.record.spec: "The spec"}
    for name, data in published.files().items():
        is_source = name in published.sources
        kind, relation = ("text#2fplain", "Source") if is_source else ("application#2fjson", "Data")
        yield name, data, kind, words.get(name, "A file that the spec uses"), relation


def read(data: bytes, path: str) -> Published:
    """Give what a published PDF carries.

    Args:
        data: the PDF.
        path: its name, for the problem.

    Raises:
        Refused: E941 no PDF that can be read, E942 it carries no spec, E943 it or a file in it is too large, E944 what
            it carries cannot be trusted.
    """
    if len(data) > LIMIT_PDF:
        raise too_large(path, f"it has more than {LIMIT_PDF // 1_000_000} MB")
    found = _attachments(data, path)
    if RECORD not in found:
        raise _foreign(path)
    try:
        record = msgspec.json.decode(found[RECORD], type=Record)
    except (msgspec.DecodeError, UnicodeDecodeError):
        raise untrusted(path, f"its record `{RECORD}` is not one of Wale's") from None
    if record.format != FORMAT:
        raise untrusted(path, f"its record is of the format `{record.format[:40]}`, and this Wale reads `{FORMAT}`")
    said = (record.compiler, *record.sizes, *record.extras, *record.typesetter, *record.typesetter.values())
    if not 0 <= record.epoch <= LAST_EPOCH or any(_shown(one) != one for one in said):
        raise untrusted(path, "its record holds what Wale never writes")
    kept = set(record.sources)
    if record.spec not in kept or len(kept) < len(record.sources) or not kept.isdisjoint((PLAN, RECORD)):
        raise untrusted(path, "its record does not tell the spec from the other files")
    for name in (*record.sources, PLAN):
        if name not in found:
            raise untrusted(path, f"`{_shown(name)}` is missing among its attachments")
    for name in record.sources:
        if not name.endswith(".wale" if name == record.spec else (".wale", ".csv")) or len(found[name]) > LIMIT_BYTES:
            raise untrusted(path, f"`{_shown(name)}` is no spec or table, or has more than 1 MB")
    return Published(record, {name: found[name] for name in record.sources}, found[PLAN])


def _attachments(data: bytes, path: str) -> dict[str, bytes]:
    """Give all attachments by name; names, sizes and their count are looked at first."""
    from pypdf import PdfReader
    from pypdf.errors import LimitReachedError

    if not data.startswith(b"%PDF-"):
        raise _unreadable(path, "it does not begin like a PDF")
    found: dict[str, bytes] = {}
    seen: set[str] = set()
    with _bounded():
        try:
            reader = PdfReader(BytesIO(data), strict=False)
            if reader.is_encrypted:
                raise _unreadable(path, "it is encrypted")
            for one in reader.attachment_list:
                name = str(one.alternative_name or one.name)
                _check_name(name, path)
                if name.casefold() in seen:
                    raise untrusted(path, f"two of its attachments are called `{_shown(name)}`")
                if len(seen) == LIMIT_COUNT:
                    raise too_large(path, f"it has more than {LIMIT_COUNT} attachments")
                seen.add(name.casefold())
                found[name] = _content(one, path, LIMIT_ALL - sum(map(len, found.values())))
        except Refused:
            raise
        except LimitReachedError:
            raise too_large(path, "a part of it unpacks to more than is allowed") from None
        except Exception as error:  # whatever a damaged file makes the library stumble over
            raise _unreadable(path, f"it is damaged ({type(error).__name__})") from None
    return found


def printed_words(data: bytes, path: str) -> tuple[str, ...]:
    """Give the text of each page of a PDF, in the order in which it is set.

    Raises:
        Refused: E941 no PDF that can be read, E943 a page of it is too large.
    """
    from pypdf import PdfReader
    from pypdf.errors import LimitReachedError

    with _bounded():
        try:
            return tuple(page.extract_text() for page in PdfReader(BytesIO(data), strict=False).pages)
        except LimitReachedError:
            raise too_large(path, "a part of it unpacks to more than is allowed") from None
        except Exception as error:  # whatever a damaged file makes the library stumble over
            raise _unreadable(path, f"it is damaged ({type(error).__name__})") from None


def _content(attachment: EmbeddedFile, path: str, most: int) -> bytes:
    """Give an attachment unpacked, never more of it than is allowed."""
    from pypdf import apply_configuration

    most = min(LIMIT_ONE, most)
    with apply_configuration(zlib_maximum_output_length=most):
        data = attachment.content
    if len(data) > most:
        raise too_large(path, f"its attachment `{_shown(attachment.name)}` has more bytes than are allowed")
    if attachment.size != len(data):
        raise untrusted(path, f"`{_shown(attachment.name)}` is not as long as it says")
    return data


@contextmanager
def _bounded() -> Iterator[None]:
    """Bound what the library unpacks on its own behalf (tables of a file, packed objects), and let it say nothing."""
    from pypdf import apply_configuration

    logger = logging.getLogger("pypdf")
    before = logger.propagate, logger.handlers
    logger.propagate, logger.handlers = False, [logging.NullHandler()]
    bounds = apply_configuration(
        maximum_declared_stream_length=LIMIT_PDF,
        zlib_maximum_output_length=LIMIT_ALL,
        zlib_maximum_recovery_input_length=100_000,
        lzw_maximum_output_length=1_000_000,
        run_length_maximum_output_length=1_000_000,
        array_based_stream_maximum_output_length=LIMIT_ALL,
    )
    try:
        with bounds:
            yield
    finally:
        logger.propagate, logger.handlers = before


def _check_name(name: str, path: str) -> None:
    """Refuse a name that is not a plain relative one on every system."""
    parts = name.split("/")
    is_plain = len(name) <= 200 and len(parts) <= 8 and name.isprintable()
    for part in parts:
        is_plain = is_plain and _PART.fullmatch(part) is not None and not _DEVICE.fullmatch(part)
        is_plain = is_plain and part not in (".", "..") and part == part.strip(" ").rstrip(".")
    if not is_plain:
        raise untrusted(path, f"an attachment is called `{_shown(name)}`, which is no plain name in a folder")


def _shown(name: str) -> str:
    """Give a name of somebody's making so that it can be shown on a terminal."""
    return "".join(sign if sign.isprintable() and sign != "`" else "?" for sign in name[:60])


def _unreadable(path: str, why: str) -> Refused:
    return refuse(
        "E941", f"`{path}` cannot be read as a PDF: {why}", "Take the file as it was published, or ask for it again."
    )


def _foreign(path: str) -> Refused:
    return refuse(
        "E942",
        f"`{path}` carries no spec: it is no PDF of `wale compile`, or was saved anew without its attachments",
        "Take the file as it was published; printing it to a PDF again leaves the attachments behind.",
    )


def too_large(path: str, why: str) -> Refused:
    """Build the refusal of a PDF that is larger than a pattern can be."""
    return refuse("E943", f"`{path}` is too large: {why}", "Check that it is the file you meant.")


def untrusted(path: str, why: str) -> Refused:
    """Build the refusal of what a PDF carries."""
    return refuse(
        "E944",
        f"what `{path}` carries cannot be trusted: {why}",
        "Wale writes no such file; somebody or something changed it. Nothing was taken from it.",
    )
