"""`wale diff REV:path`: versions of a repository, with git itself."""

import os
import subprocess

import pytest
from support import PLAIN

from wale.cli import main
from wale.compare.revision import names_revision
from wale.files import DiskWorld, MemoryWorld

YARNS = f"wale 1\n\n{PLAIN}"
SPEC = """wale 1

pattern "Hopper"
    units cm
    use   "yarns.wale"

sizes small large
    measure bust 80 (100) cm
    ease    bust 0 cm

piece back, worked flat
    cast on bust/2 in plain
    work    10 cm
    bind off
"""
"""At 20 sts and 28 rows in 10 cm: 40 (50) cm are 80 (100) sts, 10 cm are 28 rows."""
LONGER = SPEC.replace("work    10 cm", "work    20 cm")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Stand in a repository with a spec and its yarns in a folder of theirs, both committed."""
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    for role in ("AUTHOR", "COMMITTER"):
        monkeypatch.setenv(f"GIT_{role}_NAME", "Mill crew")
        monkeypatch.setenv(f"GIT_{role}_EMAIL", "crew@mill.example")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    here = tmp_path / "patterns"
    (here / "worn").mkdir(parents=True)
    monkeypatch.chdir(here)
    git("init", "-q", "-b", "main")
    commit(here, "worn/hopper.wale", SPEC, "worn/yarns.wale", YARNS)
    return here


def git(*arguments):
    return subprocess.run(("git", *arguments), check=True, capture_output=True, text=True).stdout


def commit(here, *named):
    for name, text in zip(named[::2], named[1::2], strict=True):
        (here / name).write_text(text, "utf-8")
        git("add", name)
    git("commit", "-qm", "A version")


@pytest.fixture
def diff(capfd):
    def run(*arguments):
        code = main(["diff", *arguments], DiskWorld())
        return code, *capfd.readouterr()

    return run


def test_the_work_tree_against_the_last_version(folder, diff):
    assert diff("HEAD:worn/hopper.wale", "worn/hopper.wale")[0] == 0
    (folder / "worn" / "hopper.wale").write_text(LONGER, "utf-8")
    code, out, err = diff("HEAD:worn/hopper.wale", "worn/hopper.wale")
    assert (code, err) == (1, "")
    assert "  work 1: 28 rows more in each size: 28 → 56 rows\n" in out
    git("add", "worn/hopper.wale")
    assert diff("HEAD:worn/hopper.wale", ":worn/hopper.wale")[0] == 1
    assert diff(":worn/hopper.wale", "worn/hopper.wale")[0] == 0


def test_what_a_version_uses_is_of_the_same_version(folder, diff):
    tighter = YARNS.replace("20 sts and 28 rows", "20 sts and 30 rows")
    assert tighter != YARNS
    commit(folder, "worn/yarns.wale", tighter)
    # 10 cm are 30 rows now; the spec itself stays as it is
    code, out, _ = diff("HEAD~1:worn/hopper.wale", "HEAD:worn/hopper.wale")
    assert code == 1 and "  work 1: 2 rows more in each size: 28 → 30 rows\n" in out
    assert diff("HEAD:worn/hopper.wale", "worn/hopper.wale")[0] == 0


def test_a_plan_in_a_version_is_a_side(folder, diff, capfd):
    assert main(["compile", "worn/hopper.wale", "--to", "json"], DiskWorld()) == 0
    commit(folder, "worn/hopper.json", (folder / "worn" / "hopper.json").read_text("utf-8"))
    capfd.readouterr()
    assert diff("HEAD:worn/hopper.json", "HEAD~1:worn/hopper.wale")[0] == 0


def test_a_file_with_a_colon_in_its_name_goes_first(folder, diff):
    (folder / "HEAD:worn").mkdir()
    (folder / "HEAD:worn" / "hopper.wale").write_text(LONGER, "utf-8")
    (folder / "HEAD:worn" / "yarns.wale").write_text(YARNS, "utf-8")
    assert diff("HEAD:worn/hopper.wale", "worn/hopper.wale")[0] == 1


@pytest.mark.parametrize(
    ("name", "code", "says"),
    [
        ("HEAD:worn/hoper.wale", "E937", "the version `HEAD` has no file `worn/hoper.wale`"),
        ("HEAD:worn", "E937", "has no file `worn`"),
        ("HEAD~7:worn/hopper.wale", "E937", "no version `HEAD~7`"),
        ("--output=gone:worn/hopper.wale", "E937", "no version `--output=gone`"),
        ("-p:worn/hopper.wale", "E937", "no version `-p`"),
        (":/A version", "E937", "the index has no file"),
        ("HEAD:", "E937", "has no file"),
        (r"C:\patterns\hopper.wale", "E901", "hopper.wale"),
    ],
)
def test_what_git_does_not_have_is_told(folder, diff, name, code, says):
    found, out, err = diff("--", name, "worn/hopper.wale")
    assert (found, out) == (2, "") and code in err
    assert says in " ".join(err.split())
    assert sorted(path.name for path in folder.iterdir()) == [".git", "worn"]


def test_a_path_from_a_folder_inside_is_told_in_full(folder, diff, monkeypatch):
    monkeypatch.chdir(folder / "worn")
    assert diff("HEAD:worn/hopper.wale", "hopper.wale")[0] == 0
    code, _, err = diff("HEAD:hopper.wale", "hopper.wale")
    assert code == 2 and "write `HEAD:worn/hopper.wale`" in " ".join(err.split())


def test_a_folder_without_a_repository_and_a_machine_without_git(tmp_path, diff, monkeypatch, capfd):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    monkeypatch.chdir(tmp_path)
    code, out, err = diff("HEAD:hopper.wale", "hopper.wale")
    assert (code, out) == (2, "") and "E932" in err
    assert main(["diff", "HEAD:a.wale", "a.wale"], MemoryWorld({"a.wale": SPEC, "yarns.wale": YARNS})) == 2
    assert "E931" in capfd.readouterr().err


def test_drives_are_no_versions():
    assert names_revision("HEAD~1:hat.wale") and names_revision(":hat.wale") and names_revision("a:hat.wale")
    assert not names_revision("hat.wale") and not names_revision("C:\\hat.wale") and not names_revision("c:/hat.wale")
