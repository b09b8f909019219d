"""Git itself, in a repository of its own, with the drivers set up: what it shows and what it merges."""

import os
import shutil
import subprocess

import pytest
from support import PLAIN

from wale.cli import main
from wale.files import DiskWorld, MemoryWorld, Refused
from wale.refusals import unwritable

SPEC = f"""wale 1

pattern "Hopper"
    units cm

{PLAIN}
sizes small medium
    measure bust 80 (90) cm
    ease    bust 8 cm

piece back, worked flat
    cast on bust/2 in plain
    work    10 cm
    work    to 30 (32) cm
    bind off

-- the front is worked alike
piece front, worked flat
    cast on bust/2 in plain
    work    to 30 cm
    bind off
"""
"""At 20 sts and 28 rows in 10 cm: 44 (49) cm are 88 (98) sts, 10 cm are 28 rows."""


class Repository:
    """A git repository in a folder of the test, with its files."""

    def __init__(self, folder):
        self.folder = folder

    def git(self, *arguments, fails=False, folder=None):
        done = subprocess.run(
            ("git", *arguments), cwd=folder or self.folder, capture_output=True, encoding="utf-8", errors="replace"
        )
        assert (done.returncode != 0) == fails, done.stdout + done.stderr
        return done.stdout + done.stderr

    def write(self, text, name="hopper.wale"):
        path = self.folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, "utf-8")

    def read(self, name="hopper.wale"):
        return (self.folder / name).read_text("utf-8")

    def commit(self, text, name="hopper.wale"):
        self.write(text, name)
        self.git("add", name)
        self.git("commit", "-qm", "A version")

    def sides(self, base, ours, theirs):
        """Commit a base and a version on two branches, and stand on ours."""
        self.commit(base)
        self.git("checkout", "-qb", "theirs")
        self.commit(theirs)
        self.git("checkout", "-q", "ours")
        self.commit(ours)


@pytest.fixture
def repository(tmp_path, monkeypatch):
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    folder = tmp_path / "crew's patterns"
    folder.mkdir()
    names = {
        f"GIT_{who}_{what}": "miller@mill.example" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")
    }
    settings = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1", "HOME": str(tmp_path), "LC_ALL": "C"}
    for name, value in (names | settings | {"GIT_CEILING_DIRECTORIES": str(tmp_path), "GIT_PAGER": "cat"}).items():
        monkeypatch.setenv(name, value)
    monkeypatch.chdir(folder)
    made = Repository(folder)
    made.git("init", "-q", "-b", "ours")
    return made


@pytest.fixture
def ready(repository):
    assert main(["git-setup"], DiskWorld()) == 0
    repository.git("add", ".gitattributes")
    return repository


def state(repository):
    """Give the bytes of all that may be touched."""
    paths = [repository.folder / ".gitattributes", repository.folder / ".git" / "config"]
    return [path.read_bytes() if path.exists() else None for path in paths]


def lines(shown, sign):
    """Give the lines that a diff adds or takes away."""
    heads = ("--- a/", "+++ b/", "--- /dev", "+++ /dev")
    return [line[1:].strip() for line in shown.splitlines() if line.startswith(sign) and not line.startswith(heads)]


def test_git_diff_shows_stitches_below_the_lines_that_make_them(ready):
    ready.commit(SPEC)
    ready.write(SPEC.replace("    work    10 cm", "    work    12 cm"))
    shown = ready.git("diff")
    assert lines(shown, "-") == ["work    10 cm", "= back.work[1]: 28 rows, 10.0 cm", *lines(shown, "-")[2:]]
    assert lines(shown, "-")[2:3] == ["= back.work[2]: 56 (62) rows, 20.0 (22.1) cm"]
    # 12 cm at 28 rows in 10 cm are 33.6 rows, and an even number is 34 rows, 12.1 cm
    assert lines(shown, "+")[:2] == ["work    12 cm", "= back.work[1]: 34 rows, 12.1 cm"]


def test_a_size_changes_numbers_of_every_piece_and_headings_name_the_piece(ready):
    ready.commit(SPEC)
    ready.write(SPEC.replace("bust 80 (90)", "bust 82 (90)"))
    shown = ready.git("diff", "-U0")
    # 82 + 8 cm are 45 cm a piece: 90 sts
    assert "= back.bust: 90 (98) sts, 45.0 (49.0) cm" in lines(shown, "+")
    headings = [line.split("@@ ")[-1] for line in shown.splitlines() if line.startswith("@@")]
    assert "piece back, worked flat" in headings and "piece front, worked flat" in headings


def test_log_and_show_use_the_files_of_the_work_tree(ready):
    (ready.folder / "a").mkdir()
    ready.commit("wale 1\n\n" + PLAIN, "a/stock.wale")
    spec = SPEC.replace(PLAIN, "").replace("    units cm\n", '    use "stock.wale"\n')
    ready.commit(spec, "a/hopper.wale")
    ready.commit(spec.replace("bust 80", "bust 84"), "a/hopper.wale")
    for arguments in (("show",), ("log", "-p", "-1"), ("log", "-p")):
        shown = ready.git(*arguments)
        assert any("88 (98) sts, 44.0 (49.0) cm" in line for line in lines(shown, "-"))
        # 84 + 8 cm are 46 cm a piece: 92 sts
        assert any("92 (98) sts, 46.0 (49.0) cm" in line for line in lines(shown, "+"))
    assert "no numbers" not in ready.git("log", "-p")


def test_a_comment_alone_is_shown_and_nothing_else(ready):
    ready.commit(SPEC)
    ready.write(SPEC.replace("-- the front is worked alike", "-- the front is plainer"))
    shown = ready.git("diff")
    assert lines(shown, "-") == ["-- the front is worked alike"]
    assert lines(shown, "+") == ["-- the front is plainer"]


def test_versions_that_do_not_compile_are_shown_with_their_error(ready):
    ready.commit(SPEC)
    ready.write(SPEC.replace("bust/2 in plain\n    work    10", "bust/2 in lost\n    work    10"))
    assert any("no numbers: E212" in line for line in lines(ready.git("diff"), "+"))
    (ready.folder / "hopper.wale").write_bytes(b"wale 1\n\xff\n")
    assert "cast on" in ready.git("diff")


def test_a_clean_merge_of_two_lines_in_one_block(ready):
    ours = SPEC.replace("    work    10 cm", "    work    12 cm  -- longer")
    theirs = SPEC.replace("to 30 (32) cm", "to 30 (34) cm").replace("-- the front is", "-- mended\n-- the front is")
    ready.sides(SPEC, ours, theirs)
    assert "Merge made" in ready.git("merge", "theirs", "-m", "Both")
    assert ready.read() == theirs.replace("    work    10 cm", "    work    12 cm  -- longer")
    assert ready.git("status", "--porcelain") == ""


def test_git_alone_would_not_have_merged_that(repository):
    ours = SPEC.replace("    work    10 cm", "    work    12 cm  -- longer")
    theirs = SPEC.replace("to 30 (32) cm", "to 30 (34) cm")
    repository.sides(SPEC, ours, theirs)
    assert "CONFLICT" in repository.git("merge", "theirs", fails=True)


def test_a_conflict_stands_in_its_block_alone(ready):
    ours = SPEC.replace("    work    10 cm", "    work    12 cm")
    theirs = SPEC.replace("    work    10 cm", "    work    14 cm").replace("bust 8 cm", "bust 10 cm")
    ready.sides(SPEC, ours, theirs)
    said = ready.git("merge", "theirs", fails=True)
    assert "both sides changed piece back" in said and "CONFLICT (content)" in said
    merged = ready.read().splitlines()
    start, end = (
        next(at for at, line in enumerate(merged) if line.startswith(sign)) for sign in ("<<<<<<<", ">>>>>>>")
    )
    assert merged[start + 1 : end] == ["    work    12 cm", "=======", "    work    14 cm"]
    assert "    ease    bust 10 cm" in merged and sum(line.startswith("<<<<<<<") for line in merged) == 1
    assert ready.git("ls-files", "-u").count("hopper.wale") == 3
    assert "++=======" in (shown := ready.git("diff")) and "= back" not in shown
    ready.write(theirs)
    ready.git("add", "hopper.wale")
    assert "= back" in ready.git("diff", "--cached")


def test_both_sides_add_a_size(ready):
    def sized(names, measures, lengths):
        text = SPEC.replace("sizes small medium", f"sizes {names}").replace("80 (90)", measures)
        return text.replace("30 (32)", lengths)

    ours = sized("tiny small medium", "70 (80, 90)", "28 (30, 32)")
    theirs = sized("small medium large", "80 (90, 100)", "30 (32, 34)")
    ready.sides(SPEC, ours, theirs)
    assert "Merge made" in ready.git("merge", "theirs", "-m", "Both")
    assert ready.read() == sized("tiny small medium large", "70 (80, 90, 100)", "28 (30, 32, 34)")
    shown = ready.git("show", "-m", "--first-parent")
    # 70 + 8 cm are 39 cm a piece, 100 + 8 are 54: 78 and 108 sts
    assert any("78 (88, 98, 108) sts" in line for line in lines(shown, "+"))


def test_lines_that_do_not_compile_together_are_a_conflict_without_marks(ready):
    ours = SPEC.replace("swatch plain,", "swatch flat,").replace("in plain", "in flat")
    theirs = SPEC + "\npiece pocket, worked flat\n    cast on 10 cm in plain\n    work    10 cm\n    bind off\n"
    ready.sides(SPEC, ours, theirs)
    said = ready.git("merge", "theirs", fails=True)
    assert "E212" in said and "E936" in said and "CONFLICT (content)" in said
    assert "<<<<" not in ready.read() and "piece pocket" in ready.read() and "swatch flat" in ready.read()


def test_rebase_and_cherry_pick_merge_alike(ready):
    ours, theirs = SPEC.replace("work    10 cm", "work    12 cm"), SPEC.replace("30 (32)", "30 (34)")
    ready.sides(SPEC, ours, theirs)
    ready.git("cherry-pick", "theirs")
    assert ready.read() == theirs.replace("work    10 cm", "work    12 cm")
    ready.git("reset", "-q", "--hard", "HEAD~1")
    ready.git("rebase", "-q", "theirs")
    assert ready.read() == theirs.replace("work    10 cm", "work    12 cm")
    ready.git("revert", "--no-edit", "HEAD~1")
    assert ready.read() == ours
    ready.write(ours.replace("-- the front", "-- the whole front"))
    ready.git("stash", "-q")
    ready.commit(ours.replace("bind off\n\n--", "bind off  -- loosely\n\n--"))
    ready.git("stash", "pop", "-q")
    assert "-- loosely" in ready.read() and "-- the whole front" in ready.read()


def test_what_the_other_side_added_to_a_used_file_does_not_make_a_conflict(ready):
    ready.commit("wale 1\n\n" + PLAIN, "stock.wale")
    spec = SPEC.replace(PLAIN, "").replace("    units cm\n", '    use "stock.wale"\n')
    ready.commit(spec)
    ready.git("checkout", "-qb", "theirs")
    ready.commit("wale 1\n\n" + PLAIN + PLAIN[PLAIN.index("\nswatch") :].replace("plain", "firm"), "stock.wale")
    ready.commit(
        spec.replace(
            "    cast on bust/2 in plain\n    work    to 30 cm", "    cast on bust/2 in firm\n    work    to 30 cm"
        )
    )
    ready.git("checkout", "-q", "ours")
    ready.commit(spec.replace("work    10 cm", "work    12 cm"))
    assert "Merge made" in (said := ready.git("merge", "theirs", "-m", "Both"))
    assert "an error that was there before" in said
    assert "12 cm" in ready.read() and "in firm" in ready.read()


def test_bytes_that_are_no_text_are_merged_by_git_itself(ready):
    for branch, changes in (
        ("ours", ()),
        ("theirs", ("bust 80", "bust 82")),
        ("ours", ("10 cm\n    work", "12 cm\n    work")),
    ):
        ready.git("checkout", "-q", *(("-b",) if changes[:1] == ("bust 80",) else ()), branch, fails=not changes)
        text = SPEC.replace(*changes) if changes else SPEC
        (ready.folder / "hopper.wale").write_bytes(text.encode() + b"-- caf\xe9\n")
        ready.git("add", "hopper.wale")
        ready.git("commit", "-qm", "A version")
    assert "not UTF-8" in ready.git("merge", "theirs", "-m", "Both")
    merged = (ready.folder / "hopper.wale").read_bytes()
    assert b"bust 82" in merged and b"12 cm\n    work" in merged and merged.endswith(b"-- caf\xe9\n")


def test_a_failure_of_ours_leaves_the_merge_to_git(ready, monkeypatch, capsys):
    for name, text in (
        ("base", SPEC),
        ("ours", SPEC.replace("10 cm", "12 cm")),
        ("theirs", SPEC.replace("bust 80", "bust 82")),
    ):
        ready.write(text, f"{name}.wale")

    def fail(*_):
        raise ZeroDivisionError("the miller is out")

    monkeypatch.setattr("wale.versions.merge.merge", fail)
    monkeypatch.setattr("wale.versions.listing.listing", fail)
    assert main(["git-merge", "base.wale", "ours.wale", "theirs.wale", "7", "hopper.wale"], DiskWorld()) == 0
    assert "the miller is out" in capsys.readouterr().err
    assert "bust 82" in ready.read("ours.wale") and "12 cm" in ready.read("ours.wale")
    assert main(["git-listing", "base.wale"], DiskWorld()) == 0
    assert capsys.readouterr().out == SPEC


def test_a_name_that_looks_like_an_option(ready):
    ready.write(SPEC, "-hat.wale")
    ready.git("add", "--", "-hat.wale")
    ready.git("commit", "-qm", "A version")
    ready.write(SPEC.replace("bust 8 cm", "bust 10 cm"), "-hat.wale")
    assert any("= back.bust" in line for line in lines(ready.git("diff"), "+"))


@pytest.mark.parametrize("before", [None, b"", b"*.png binary\n", b"# ours\r\n*.wale text eol=lf", b"*.wale text\n\n"])
def test_setting_up_twice_and_taking_it_away(repository, before):
    if before is not None:
        (repository.folder / ".gitattributes").write_bytes(before)
    old = state(repository)
    assert main(["git-setup"], DiskWorld()) == 0
    first = state(repository)
    assert first[0].startswith(before or b"") and first[0].endswith(b"*.wale diff=wale merge=wale\n")
    assert repository.git("check-attr", "diff", "merge", "--", "x.wale").count(": wale") == 2
    assert main(["git-setup"], DiskWorld()) == 0
    assert state(repository) == first
    assert main(["git-setup", "--remove"], DiskWorld()) == 0
    assert state(repository) == old
    assert main(["git-setup", "--remove"], DiskWorld()) == 0
    assert state(repository) == old


def test_a_line_that_was_there_stays(repository):
    (repository.folder / ".gitattributes").write_bytes(b"*.wale diff=wale merge=wale\n")
    old = state(repository)
    assert main(["git-setup"], DiskWorld()) == 0 and state(repository)[0] == old[0]
    assert main(["git-setup", "--remove"], DiskWorld()) == 0 and state(repository) == old


def test_lines_added_later_stay(repository):
    assert main(["git-setup"], DiskWorld()) == 0
    with (repository.folder / ".gitattributes").open("ab") as file:
        file.write(b"*.png binary\n")
    assert main(["git-setup", "--remove"], DiskWorld()) == 0
    assert state(repository)[0] == b"*.png binary\n"


@pytest.mark.parametrize("line", ["*.wale -diff", "*.wale text merge=union", "*.wale binary"])
def test_a_line_that_says_otherwise_is_not_replaced(repository, capsys, line):
    (repository.folder / ".gitattributes").write_text(line + "\n")
    old = state(repository)
    assert main(["git-setup"], DiskWorld()) == 2
    assert state(repository) == old
    assert "E934" in capsys.readouterr().err


def test_a_setting_of_the_users_is_not_replaced(repository, capsys):
    repository.git("config", "merge.wale.driver", "mine %A")
    old = state(repository)
    assert main(["git-setup"], DiskWorld()) == 2
    assert state(repository) == old
    assert "merge.wale.driver" in capsys.readouterr().err


def test_settings_follow_when_wale_moves(ready):
    now = state(ready)
    ready.git("config", "diff.wale.textconv", "'/old/venv/python' -P -m wale git-listing --")
    assert main(["git-setup"], DiskWorld()) == 0
    assert state(ready) == now


def test_attributes_deeper_down_are_told_of(ready, capsys):
    ready.commit("*.wale merge=union\n", "old/.gitattributes")
    ready.commit(SPEC, "old/hopper.wale")
    assert main(["git-setup"], DiskWorld()) == 0
    assert "W935" in (err := capsys.readouterr().err) and "old/hopper.wale" in err


def test_work_trees_share_settings_and_have_lines_of_their_own(ready, monkeypatch):
    ready.git("commit", "-qm", "Attributes")
    ready.git("rm", "-q", "--cached", ".gitattributes")
    ready.git("commit", "-qm", "No attributes")
    other = ready.folder.parent / "other"
    ready.git("worktree", "add", "-q", str(other))
    monkeypatch.chdir(other)
    assert main(["git-setup"], DiskWorld()) == 0
    assert (other / ".gitattributes").exists()
    assert main(["git-setup", "--remove"], DiskWorld()) == 0
    assert not (other / ".gitattributes").exists()
    assert "git-listing" in ready.git("config", "--local", "diff.wale.textconv")
    monkeypatch.chdir(ready.folder)
    assert main(["git-setup", "--remove"], DiskWorld()) == 0
    assert "wale" not in ready.git("config", "--local", "--list")


def test_a_folder_inside_is_as_good_as_the_top(repository, monkeypatch):
    (repository.folder / "hats").mkdir()
    monkeypatch.chdir(repository.folder / "hats")
    assert main(["git-setup"], DiskWorld()) == 0
    assert (repository.folder / ".gitattributes").exists() and not (repository.folder / "hats/.gitattributes").exists()


def test_no_repository_no_work_tree_no_git(repository, monkeypatch, capsys):
    shutil.rmtree(repository.folder / ".git")
    assert main(["git-setup"], DiskWorld()) == 2 and "E932" in capsys.readouterr().err
    repository.git("init", "-q", "--bare")
    assert main(["git-setup"], DiskWorld()) == 2 and "E932" in capsys.readouterr().err
    monkeypatch.setenv("PATH", "")
    assert main(["git-setup"], DiskWorld()) == 2 and "E931" in capsys.readouterr().err
    assert main(["git-setup"], MemoryWorld()) == 2


def test_what_cannot_be_written_leaves_nothing_behind(repository, capsys):
    class ReadOnly(DiskWorld):
        def rewrite(self, path, data):
            raise unwritable(path, "you have no permission")

    old = state(repository)
    assert main(["git-setup"], ReadOnly()) == 2 and "E910" in capsys.readouterr().err
    assert state(repository) == old
    (repository.folder / ".git" / "config.lock").touch()
    assert main(["git-setup"], DiskWorld()) == 2 and "E933" in capsys.readouterr().err
    assert state(repository) == old
    (repository.folder / ".git" / "config.lock").unlink()
    (repository.folder / ".gitattributes").mkdir()
    assert main(["git-setup"], DiskWorld()) != 0 and "E902" in capsys.readouterr().err


def test_nothing_in_the_repository_is_run(ready):
    ready.write("raise SystemExit('taken for a module')\n", "wale.py")
    ready.write("raise SystemExit('taken for a module')\n", "click.py")
    ready.commit(SPEC)
    ready.write(SPEC.replace("bust 8 cm", "bust 10 cm"))
    assert any("sts" in line for line in lines(ready.git("diff"), "+"))


def test_delete_is_refused_with_a_reason(tmp_path):
    for world in (DiskWorld(), MemoryWorld()):
        with pytest.raises(Refused) as refused:
            world.delete(str(tmp_path / "none"))
        assert refused.value.problem.code == "E910"
