"""Writing whole or not at all."""

import errno
import os
import stat

import pytest

from wale.files import DiskWorld, MemoryWorld, Refused


def refused(call, *arguments):
    with pytest.raises(Refused) as caught:
        call(*arguments)
    return caught.value.problem


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def fail_with(number):
    def fail(*_, **__):
        raise OSError(number, os.strerror(number))

    return fail


def test_a_new_file_gets_the_usual_permissions(tmp_path):
    before = os.umask(0o027)
    try:
        DiskWorld().write(str(tmp_path / "hat.pdf"), b"new")
    finally:
        os.umask(before)
    assert (tmp_path / "hat.pdf").read_bytes() == b"new"
    assert stat.S_IMODE((tmp_path / "hat.pdf").stat().st_mode) == 0o640  # 0o666 without 0o027
    assert names(tmp_path) == ["hat.pdf"]


def test_an_older_file_is_replaced_and_keeps_its_permissions(tmp_path):
    path = tmp_path / "hat.pdf"
    path.write_bytes(b"old")
    path.chmod(0o604)
    DiskWorld().write(str(path), b"new")
    assert path.read_bytes() == b"new" and stat.S_IMODE(path.stat().st_mode) == 0o604


@pytest.mark.parametrize("step", ["replace", "fsync", "chmod"])
@pytest.mark.parametrize("number, words", [(errno.ENOSPC, "disk is full"), (errno.EROFS, "read-only")])
def test_a_failure_leaves_the_older_file_whole(tmp_path, monkeypatch, step, number, words):
    path = tmp_path / "hat.pdf"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, step, fail_with(number))
    problem = refused(DiskWorld().write, str(path), b"new")
    assert problem.code == "E910" and words in problem.message
    assert path.read_bytes() == b"old" and names(tmp_path) == ["hat.pdf"]


def test_an_interrupt_leaves_the_older_file_whole(tmp_path, monkeypatch):
    path = tmp_path / "hat.pdf"
    path.write_bytes(b"old")

    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        DiskWorld().write(str(path), b"new")
    assert path.read_bytes() == b"old" and names(tmp_path) == ["hat.pdf"]


def test_a_folder_that_takes_no_file(tmp_path, monkeypatch):
    path = tmp_path / "hat.pdf"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, "open", fail_with(errno.EACCES))
    problem = refused(DiskWorld().write, str(path), b"new")
    assert problem.code == "E910" and "no permission" in problem.message
    assert path.read_bytes() == b"old"


def test_a_write_protected_file_stays(tmp_path, monkeypatch):
    path = tmp_path / "hat.pdf"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert refused(DiskWorld().write, str(path), b"new").code == "E910"
    assert path.read_bytes() == b"old"


def test_a_folder_that_is_missing(tmp_path):
    problem = refused(DiskWorld().write, str(tmp_path / "none" / "hat.pdf"), b"new")
    assert problem.code == "E910" and "no such folder" in problem.message


def test_a_folder_is_never_replaced(tmp_path):
    assert refused(DiskWorld().write, str(tmp_path), b"new").code == "E909"
    assert refused(DiskWorld().create, str(tmp_path), b"new").code == "E909"
    assert refused(MemoryWorld({"mill/hat.wale": ""}).write, "mill", b"new").code == "E909"


def test_a_spec_is_never_replaced_not_even_through_a_link(tmp_path):
    spec = tmp_path / "hat.WALE"
    spec.write_bytes(b"wale 1")
    (tmp_path / "hat.pdf").symlink_to(spec)
    for name in ("hat.WALE", "hat.pdf"):
        assert refused(DiskWorld().write, str(tmp_path / name), b"new").code == "E908"
    assert spec.read_bytes() == b"wale 1"
    world = MemoryWorld({"hat.wale": "wale 1"})
    assert refused(world.write, "hat.wale", b"new").code == "E908" and world.files == {"hat.wale": "wale 1"}


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "real.pdf").write_bytes(b"old")
    (tmp_path / "hat.pdf").symlink_to("real.pdf")
    DiskWorld().write(str(tmp_path / "hat.pdf"), b"new")
    assert (tmp_path / "hat.pdf").is_symlink() and (tmp_path / "real.pdf").read_bytes() == b"new"


def test_a_device_is_written_to_and_not_replaced():
    DiskWorld().write(os.devnull, b"new")
    assert stat.S_ISCHR(os.stat(os.devnull).st_mode)


def test_create_makes_a_file_once(tmp_path):
    path = tmp_path / "hat.wale"
    DiskWorld().create(str(path), b"first")
    assert refused(DiskWorld().create, str(path), b"second").code == "E912"
    assert path.read_bytes() == b"first"
    world = MemoryWorld()
    world.create("hat.wale", b"first")
    assert refused(world.create, "hat.wale", b"second").code == "E912" and world.files["hat.wale"] == b"first"


def test_a_file_is_not_taken_for_the_folder_to_write_into(tmp_path):
    taken = tmp_path / "jumper"
    taken.write_bytes(b"rye")
    problem = refused(DiskWorld().create, str(taken / "hat.wale"), b"flour", str(taken))
    assert problem.code == "E910" and "a part of the path is not a folder" in problem.message
    assert taken.read_bytes() == b"rye"


def test_a_failed_create_leaves_nothing(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "fsync", fail_with(errno.ENOSPC))
    assert refused(DiskWorld().create, str(tmp_path / "hat.wale"), b"x").code == "E910"
    assert names(tmp_path) == []
