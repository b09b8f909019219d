"""Reading a spec and the files that it uses, on the disk and in its twin."""

import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.files import DiskWorld, MemoryWorld, Refused, World
from wale.problems.problem import Label
from wale.refusals import LIMIT_BYTES
from wale.source import Span


@pytest.fixture(params=["disk", "memory"])
def lay_out(request, tmp_path, monkeypatch):
    """Give a function that lays out files in the current folder and gives the world that sees them."""

    def disk(files: dict[str, bytes]) -> World:
        monkeypatch.chdir(tmp_path)
        for name, data in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        return DiskWorld()

    return disk if request.param == "disk" else lambda files: MemoryWorld(dict(files))


def refused(call, *arguments):
    with pytest.raises(Refused) as caught:
        call(*arguments)
    return caught.value.problem


def test_a_file_keeps_the_name_that_the_user_wrote(lay_out):
    source = lay_out({"mill/hat.wale": b"wale 1\n"}).read("mill/hat.wale")
    assert (source.name, source.text) == ("mill/hat.wale", "wale 1\n")


def test_a_byte_order_mark_is_dropped_once(lay_out):
    world = lay_out({"a.wale": b"\xef\xbb\xbfwale 1", "b.wale": b"\xef\xbb\xbf\xef\xbb\xbfx"})
    assert world.read("a.wale").text == "wale 1"
    assert world.read("b.wale").text == "\ufeffx"


def test_letters_and_their_accents_become_one(lay_out):
    # U+0065 U+0301 composes to U+00E9 under NFC (Unicode Standard Annex 15).
    assert lay_out({"a.wale": b"Caf\x65\xcc\x81"}).read("a.wale").text == "Caf\u00e9"


@pytest.mark.parametrize("path", ["nothing.wale", "a.wale/b.wale"])
def test_a_missing_file(lay_out, path):
    world = lay_out({"a.wale": b""})
    problem = refused(world.read, path)
    assert problem.code == "E901" and path in problem.message


def test_a_folder(lay_out):
    assert refused(lay_out({"mill/a.wale": b""}).read, "mill").code == "E902"


def test_a_file_that_the_system_will_not_open(monkeypatch, tmp_path):
    def deny(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("os.open", deny)
    problem = refused(DiskWorld().read, str(tmp_path / "a.wale"))
    assert problem.code == "E903" and "no permission" in problem.message


def test_bytes_that_are_not_utf_8_are_named_by_place(lay_out):
    # "wale 1\n" is 7 bytes, "caf" 3 more: 0xe9 (Latin-1 e acute) is byte 11, on line 2.
    problem = refused(lay_out({"a.wale": b"wale 1\ncaf\xe9\n"}).read, "a.wale")
    assert problem.code == "E904"
    assert "byte 11" in problem.message and "line 2" in problem.message and "0xe9" in problem.message


def test_one_million_bytes_are_read_and_one_more_is_not(lay_out):
    world = lay_out({"full.wale": b"-" * LIMIT_BYTES, "over.wale": b"-" * (LIMIT_BYTES + 1)})
    assert LIMIT_BYTES == 1_000_000
    assert len(world.read("full.wale").text) == 1_000_000
    assert refused(world.read, "over.wale").code == "E905"


def test_a_used_file_is_found_from_the_folder_of_the_spec(lay_out):
    world = lay_out({"mill/hat.wale": b"", "mill/yarns.wale": b"rye", "mill/shared/flour.wale": b"flour"})
    source = world.read_beside("mill/hat.wale", "yarns.wale")
    assert (source.name, source.text) == ("mill/yarns.wale", "rye")
    assert world.read_beside("mill/hat.wale", "shared/flour.wale").text == "flour"
    assert refused(world.read_beside, "mill/hat.wale", "bran.wale").code == "E901"


def test_a_used_file_is_found_beside_a_spec_in_the_current_folder(lay_out):
    assert lay_out({"hat.wale": b"", "yarns.wale": b"rye"}).read_beside("hat.wale", "yarns.wale").text == "rye"


@pytest.mark.parametrize(
    "name",
    [
        *("", "/etc/passwd", "/etc/x.wale", "C:/x.wale", "C:x.wale", "..\\x.wale", "\\\\host\\x.wale"),
        *("yarns", "yarns.txt", "a\0.wale", "a\n.wale", "https://mill.example/x.wale"),
    ],
)
def test_a_name_that_a_spec_cannot_use(lay_out, name):
    assert refused(lay_out({"mill/hat.wale": b""}).read_beside, "mill/hat.wale", name).code == "E906"


@pytest.mark.parametrize("name", ["../x.wale", "shared/../../x.wale", "shared/../hat.wale", "./../x.wale"])
def test_a_name_that_climbs_out(lay_out, name):
    world = lay_out({"mill/hat.wale": b"", "x.wale": b"secret"})
    assert refused(world.read_beside, "mill/hat.wale", name).code == "E907"


def test_a_refusal_takes_the_place_of_the_line_that_asked(lay_out):
    with pytest.raises(Refused) as caught:
        lay_out({"hat.wale": b'use "bran.wale"'}).read_beside("hat.wale", "bran.wale")
    span = Span("hat.wale", 4, 15)
    placed = caught.value.at(span)
    assert (placed.code, placed.labels) == ("E901", (Label(span),)) and placed.message == caught.value.problem.message


def test_links_are_followed_inside_the_folder_and_refused_beyond(tmp_path):
    mill = tmp_path / "mill"
    mill.mkdir()
    (tmp_path / "secret.wale").write_text("secret")
    (mill / "yarns.wale").write_text("rye")
    (mill / "inside.wale").symlink_to("yarns.wale")
    (mill / "outside.wale").symlink_to("../secret.wale")
    (mill / "store").symlink_to(tmp_path)
    spec = str(mill / "hat.wale")
    assert DiskWorld().read_beside(spec, "inside.wale").text == "rye"
    assert refused(DiskWorld().read_beside, spec, "outside.wale").code == "E907"
    assert refused(DiskWorld().read_beside, spec, "store/secret.wale").code == "E907"


def test_a_folder_whose_name_begins_alike_is_outside(tmp_path):
    for name in ("mill", "mill-store"):
        (tmp_path / name).mkdir()
    (tmp_path / "mill-store" / "x.wale").write_text("secret")
    (tmp_path / "mill" / "x.wale").symlink_to("../mill-store/x.wale")
    assert refused(DiskWorld().read_beside, str(tmp_path / "mill" / "hat.wale"), "x.wale").code == "E907"


def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.wale")
    assert refused(DiskWorld().read_beside, str(tmp_path / "hat.wale"), "pipe.wale").code == "E903"
    assert refused(DiskWorld().read, str(tmp_path / "pipe.wale")).code == "E903"


def test_a_device_is_not_read():
    assert refused(DiskWorld().read, os.devnull).code == "E903"


@given(st.binary(max_size=200))
def test_any_bytes_give_text_or_a_refusal(data):
    try:
        source = MemoryWorld({"a.wale": data}).read("a.wale")
    except Refused as refused:
        assert refused.problem.code == "E904"
    else:
        assert isinstance(source.text, str)


@given(st.text(max_size=40))
def test_any_name_stays_in_the_folder_or_is_refused(name):
    try:
        MemoryWorld({"mill/hat.wale": ""}).read_beside("mill/hat.wale", name)
    except Refused as refused:
        assert refused.problem.code in {"E901", "E906", "E907"}
    else:
        assert name == "hat.wale"
