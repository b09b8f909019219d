"""What a PDF carries comes back byte for byte; what anybody may have made is refused before it does harm."""

from __future__ import annotations

import io
import json
import random
import zlib

import msgspec
import pypdf
import pytest
from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, NameObject, NumberObject, TextStringObject

from wale.outputs import attached
from wale.outputs.attached import Published, Record, read
from wale.refusals import Refused

SPEC, YARNS = "wale 1\n\n-- rye · ½\n".encode(), b"wale 1\n"
PLAN = b'{"format": "wale plan 1"}\n'
RECORD = Record(
    *(attached.FORMAT, "wale 0.1.0", {"weasyprint": "68.0"}, "hat.wale", ("hat.wale", "kin/rye.wale")),
    *(("M",), (), "right", False, 0),
)
PUBLISHED = Published(RECORD, {"hat.wale": SPEC, "kin/rye.wale": YARNS}, PLAN)


def made(files: list[tuple[str, bytes]], sizes: dict[str, int] | None = None) -> bytes:
    """Make a PDF with attachments by hand, names as given."""
    writer = pypdf.PdfWriter()
    writer.add_blank_page(72, 72)
    names = ArrayObject()
    for name, data in files:
        stream = DecodedStreamObject()
        stream.set_data(data)
        packed = stream.flate_encode()
        size = NumberObject((sizes or {}).get(name, len(data)))
        packed[NameObject("/Params")] = DictionaryObject({NameObject("/Size"): size})
        entry = DictionaryObject(
            {
                NameObject("/Type"): NameObject("/Filespec"),
                NameObject("/F"): TextStringObject(name),
                NameObject("/UF"): TextStringObject(name),
                NameObject("/EF"): DictionaryObject({NameObject("/F"): writer._add_object(packed)}),
            }
        )
        names.extend([TextStringObject(name), writer._add_object(entry)])
    tree = DictionaryObject({NameObject("/EmbeddedFiles"): DictionaryObject({NameObject("/Names"): names})})
    writer.root_object[NameObject("/Names")] = tree
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def files(**more: bytes) -> list[tuple[str, bytes]]:
    """Give the files of a published PDF; `more` replaces some of them."""
    return list((PUBLISHED.files() | more).items())


def refusal(data: bytes) -> tuple[str, str]:
    with pytest.raises(Refused) as refused:
        read(data, "hat.pdf")
    return refused.value.problem.code, refused.value.problem.message


def test_a_pdf_made_by_another_library_is_read() -> None:
    assert read(made(files()), "hat.pdf") == PUBLISHED


@pytest.mark.parametrize(
    "name",
    [
        *("../hat.wale", "/etc/hat.wale", "kin/../../hat.wale", "C:\\hat.wale", "C:hat.wale", "kin\\hat.wale"),
        *(
            "hat\x00.wale",
            "hat\n.wale",
            "",
            "kin//hat.wale",
            "./hat.wale",
            "hat.wale.",
            " hat.wale",
            "nul",
            "COM1.wale",
        ),
        *("a" * 121, "/".join("a" * 9), "a" * 100 + "/" + "b" * 100, "\u202ehat.wale"),
    ],
)
def test_an_attachment_with_a_name_that_leads_elsewhere_is_refused(name: str) -> None:
    code, message = refusal(made([*files(), (name, b"x")]))
    assert code == "E944"
    assert message.isprintable()


def test_two_attachments_of_one_name_are_refused_in_any_case_of_letters() -> None:
    for name in ("hat.wale", "HAT.wale"):
        assert "two of its attachments" in refusal(made([*files(), (name, b"x")]))[1]


def test_a_foreign_pdf_is_told_apart_from_a_damaged_one() -> None:
    assert refusal(made([("notes.txt", b"x")]))[0] == "E942"
    assert refusal(made([]))[0] == "E942"
    whole = made(files())
    for damaged in (b"", b"wale 1\n", b"%PDF-1.7\n", whole[: len(whole) // 2], whole[:200] + b"\x00" * 900):
        assert refusal(damaged)[0] == "E941"


def test_an_encrypted_pdf_is_refused() -> None:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(made(files())))
    writer.encrypt("mill", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    assert refusal(out.getvalue()) == ("E941", "`hat.pdf` cannot be read as a PDF: it is encrypted")


def test_a_small_file_that_unpacks_to_much_is_refused() -> None:
    bomb = made([*files(), ("more.txt", bytes(attached.LIMIT_ONE + 1))])
    assert len(bomb) < 100_000  # a thousandth of what it unpacks to
    assert refusal(bomb)[0] == "E943"


def test_a_bomb_in_a_bomb_is_refused() -> None:
    inner = zlib.compress(bytes(200_000_000), 9)
    data = made([("more.txt", inner)])
    assert data.count(b"/Filter /FlateDecode") == 1
    assert refusal(data.replace(b"/Filter /FlateDecode", b"/Filter [/FlateDecode /FlateDecode]"))[0] == "E943"


def test_many_attachments_and_many_large_ones_are_refused() -> None:
    assert refusal(made([(f"{n}.txt", b"") for n in range(101)]))[0] == "E943"
    assert refusal(made([(f"{n}.txt", bytes(9_000_000)) for n in range(4)]))[0] == "E943"


def test_a_file_over_the_bound_is_refused_unread(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(attached, "LIMIT_PDF", 100)
    assert refusal(made(files()))[0] == "E943"


@pytest.mark.parametrize(
    "record",
    [
        *(b"", b"[]", b"{}", b"\xff", b'{"format": 1}', b"[" * 100_000),
        b'{"format":"wale published 9","compiler":"","typesetter":{},"spec":"a.wale","sources":["a.wale"],"sizes":[],'
        b'"extras":[],"hand":"right","large_print":false,"epoch":0}',
        b'{"format":"wale published 1","compiler":"","typesetter":{},"spec":"b.wale","sources":["hat.wale"],"sizes":[],'
        b'"extras":[],"hand":"right","large_print":false,"epoch":0}',
        b'{"format":"wale published 1","compiler":"","typesetter":{},"spec":"b.wale","sources":["b.wale"],"sizes":[],'
        b'"extras":[],"hand":"right","large_print":false,"epoch":0}',
        b'{"format":"wale published 1","compiler":"","typesetter":{},"spec":"plan.json","sources":["plan.json"],'
        b'"sizes":[],"extras":[],"hand":"right","large_print":false,"epoch":0}',
    ],
)
def test_a_record_that_is_not_ours_is_refused(record: bytes) -> None:
    assert refusal(made(files(**{attached.RECORD: record})))[0] == "E944"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        *(('"wale 0.1.0"', '"wale \\u001b[2J"'), ('"M"', '"\\n"'), ('"weasyprint"', '"`"')),
        *(('"epoch": 0', '"epoch": -1'), ('"epoch": 0', f'"epoch": {"9" * 5000}')),
    ],
)
def test_a_record_that_would_speak_to_the_terminal_is_refused(old: str, new: str) -> None:
    record = json.dumps(msgspec.to_builtins(RECORD)).replace(old, new).encode()
    assert refusal(made(files(**{attached.RECORD: record})))[0] == "E944"


def test_an_attachment_that_is_not_as_long_as_it_says_is_refused() -> None:
    assert "not as long as it says" in refusal(made(files(), {"hat.wale": 3}))[1]


@pytest.mark.parametrize("seed", range(60))
def test_a_damaged_file_is_read_or_refused_in_plain_words(seed: int) -> None:
    chance = random.Random(seed)
    data = bytearray(made(files()))
    for _ in range(chance.randint(1, 20)):
        place = chance.randrange(len(data))
        match chance.randrange(3):
            case 0:
                data[place] = chance.randrange(256)
            case 1:
                del data[place : place + chance.randint(1, 100)]
            case _:
                data[place:place] = data[chance.randrange(len(data)) :][: chance.randint(1, 200)]
    try:
        found = read(bytes(data), "hat.pdf")
    except Refused as refused:
        assert refused.problem.code in ("E941", "E942", "E943", "E944")
        assert refused.problem.message.isprintable()
    else:
        assert found.record.spec in found.sources
