"""PDFs on disk: read back by a library that neither writes nor reads them here, verified, unpacked, and made alike."""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
import zlib
from pathlib import Path

import pikepdf
import pytest
from support import EXAMPLES

from wale import publishing
from wale.cli import main
from wale.driver import compile_spec, render
from wale.files import DiskWorld

COWL = (EXAMPLES / "first-cowl.wale").read_text("utf-8")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a folder with a cowl, the yarns that it uses in a folder of theirs, and its PDF."""
    here = tmp_path_factory.mktemp("cowl")
    (here / "kin").mkdir()
    (here / "kin" / "mill-yarns.wale").write_bytes((EXAMPLES / "mill-yarns.wale").read_bytes())
    (here / "cowl.wale").write_text(COWL.replace('"mill-yarns.wale"', '"kin/mill-yarns.wale"'), "utf-8")
    assert main(["compile", str(here / "cowl.wale")], DiskWorld()) == 0
    return here


def test_another_library_reads_back_each_attachment_byte_for_byte(folder: Path) -> None:
    with pikepdf.open(folder / "cowl.pdf") as pdf:
        assert sorted(pdf.attachments) == ["cowl.wale", "kin/mill-yarns.wale", "plan.json", "wale.json"]
        for name in ("cowl.wale", "kin/mill-yarns.wale"):
            assert pdf.attachments[name].get_file().read_bytes() == (folder / name).read_bytes()
        kinds = {str(one.UF): str(one.AFRelationship) for one in pdf.Root.AF}  # type: ignore[attr-defined]
        plan = json.loads(pdf.attachments["plan.json"].get_file().read_bytes())
    assert kinds == {
        "cowl.wale": "/Source",
        "kin/mill-yarns.wale": "/Source",
        "plan.json": "/Data",
        "wale.json": "/Data",
    }
    assert plan["pieces"][0]["line"] == {"file": "cowl.wale", "line": COWL[: COWL.index("piece ")].count("\n") + 1}


def test_the_attached_plan_is_the_plan_that_json_gives(folder: Path) -> None:
    assert main(["compile", str(folder / "cowl.wale"), "--out", str(folder / "p.json")], DiskWorld()) == 0
    with pikepdf.open(folder / "cowl.pdf") as pdf:
        assert pdf.attachments["plan.json"].get_file().read_bytes() == (folder / "p.json").read_bytes()


def test_the_tags_of_pdf_ua_are_there_beside_attachments(folder: Path) -> None:
    with pikepdf.open(folder / "cowl.pdf") as pdf:
        assert pdf.Root.MarkInfo.Marked
        kinds: set[str] = set()
        waiting = [pdf.Root.StructTreeRoot.K]
        while waiting:
            node = waiting.pop()
            if isinstance(node, pikepdf.Array):
                waiting += list(node)  # type: ignore[arg-type]
            elif isinstance(node, pikepdf.Dictionary):
                kinds.add(str(node.get("/S")))
                waiting += [node.K] if "/K" in node else []
        with pdf.open_metadata() as metadata:
            assert str(metadata["pdfuaid:part"]) == "1"
    assert {"/Document", "/H1", "/H2", "/P", "/Table", "/TH", "/L", "/LI"} <= kinds


def test_no_clock_is_in_the_file(folder: Path) -> None:
    data = (folder / "cowl.pdf").read_bytes()
    for packed in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, re.DOTALL):
        try:
            data += zlib.decompress(packed)
        except zlib.error:
            continue
    dates = {one.decode() for one in re.findall(rb"D:\d{8,14}|20\d\d-\d\d-\d\dT[\d:]+Z", data)}
    assert dates == {"D:20260101000000", "2026-01-01T00:00:00Z"}  # the date without SOURCE_DATE_EPOCH


def test_unpack_gives_back_what_compiles_to_the_same_file(folder: Path, tmp_path: Path) -> None:
    into = tmp_path / "back"
    assert main(["unpack", str(folder / "cowl.pdf"), "--into", str(into)], DiskWorld()) == 0
    assert sorted(one.name for one in into.rglob("*.*")) == ["cowl.wale", "mill-yarns.wale", "plan.json", "wale.json"]
    assert main(["compile", str(into / "cowl.wale")], DiskWorld()) == 0
    assert (into / "cowl.pdf").read_bytes() == (folder / "cowl.pdf").read_bytes()


def test_unpack_replaces_nothing_and_follows_no_link_out_of_its_folder(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    into, outside = tmp_path / "into", tmp_path / "outside"
    into.mkdir()
    outside.mkdir()
    (into / "kin").symlink_to(outside, target_is_directory=True)
    assert main(["unpack", str(folder / "cowl.pdf"), "--into", str(into)], DiskWorld()) == 2
    assert "E910" in capsys.readouterr().err
    assert list(outside.iterdir()) == []
    assert main(["unpack", str(folder / "cowl.pdf"), "--into", str(into)], DiskWorld()) == 2
    assert "E912" in capsys.readouterr().err


def test_unpack_makes_a_folder_of_the_file_s_name(folder: Path) -> None:
    assert main(["unpack", str(folder / "cowl.pdf")], DiskWorld()) == 0
    assert (folder / "cowl" / "cowl.wale").exists()
    assert main(["unpack", str(folder / "cowl.wale")], DiskWorld()) == 1  # no PDF: E941


def test_a_file_as_published_is_verified(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compile", "--verify", str(folder / "cowl.pdf")], DiskWorld()) == 0
    assert capsys.readouterr().out.splitlines()[1:] == ["plan: the same", "instructions: the same", "bytes: the same"]


def changed(folder: Path, **files: bytes) -> bytes:
    """Give the cowl's PDF with other attachments, saved anew by another library."""
    with pikepdf.open(folder / "cowl.pdf") as pdf:
        for name, data in files.items():
            pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, data, filename=name)
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({}, ["plan: the same", "instructions: the same", "bytes: differ"]),
        ({"plan.json": b"{}"}, ["plan: differ", "instructions: the same", "bytes: differ"]),
        (
            {
                "cowl.wale": COWL.replace('"mill-yarns.wale"', '"kin/mill-yarns.wale"')
                .replace("to 20 cm", "to 24 cm")
                .encode()
            },
            ["plan: differ", "instructions: differ", "bytes: differ"],
        ),
    ],
)
def test_a_changed_file_is_told_by_what_differs(
    folder: Path, tmp_path: Path, files: dict[str, bytes], said: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "cowl.pdf").write_bytes(changed(folder, **files))
    assert main(["compile", "--verify", str(tmp_path / "cowl.pdf")], DiskWorld()) == 1
    shown = capsys.readouterr()
    assert shown.out.splitlines()[1:4] == said
    assert "E945" in shown.err


def test_another_typesetter_may_set_other_bytes(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    now = publishing.versions()
    monkeypatch.setattr(publishing, "versions", lambda: now | {"weasyprint": "999.0"})
    assert main(["compile", "--verify", str(folder / "cowl.pdf")], DiskWorld()) == 0
    said = capsys.readouterr().out
    assert "plan: the same\ninstructions: the same\nbytes: differ\n" in said
    assert f"weasyprint {now['weasyprint']} then, 999.0 now" in said


def test_a_source_that_no_longer_compiles_is_told(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "cowl.pdf").write_bytes(changed(folder, **{"cowl.wale": b"wale 1\n"}))
    assert main(["compile", "--verify", str(tmp_path / "cowl.pdf")], DiskWorld()) == 1
    assert "no longer compiles" in capsys.readouterr().err


def test_verify_takes_a_pdf_alone(folder: Path) -> None:
    assert main(["compile", "--verify", str(folder / "cowl.pdf"), "--out", "x.pdf"], DiskWorld()) == 2


@pytest.mark.parametrize("ending", ["txt", "html", "pdf"])
def test_errata_are_written_as_text_page_and_pdf(folder: Path, tmp_path: Path, ending: str) -> None:
    new = tmp_path / "cowl.wale"
    new.write_text(COWL.replace("to 20 cm", "to 24 cm"), "utf-8")
    (tmp_path / "mill-yarns.wale").write_bytes((EXAMPLES / "mill-yarns.wale").read_bytes())
    out = tmp_path / f"errata.{ending}"
    assert main(["errata", str(folder / "cowl.pdf"), str(new), "--out", str(out)], DiskWorld()) == 0
    if ending == "pdf":
        with pikepdf.open(out) as pdf:
            assert pdf.Root.MarkInfo.Marked
    else:
        assert re.search(r"for\s+\d\S*\s+read\s+\d", out.read_text("utf-8"))


def test_errata_of_another_garment_are_a_redesign(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["errata", str(folder / "cowl.pdf"), str(EXAMPLES / "sluice-hat.wale")], DiskWorld()) == 0
    assert "W946" in capsys.readouterr().err


def test_errata_between_two_pdfs_need_no_source_beside_them(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["errata", str(folder / "cowl.pdf"), str(folder / "cowl.pdf")], DiskWorld()) == 0
    assert "Both prints say the same." in capsys.readouterr().out


PLACES = [
    {"TZ": "Pacific/Kiritimati", "LANG": "de_DE.UTF-8", "PYTHONHASHSEED": "1", "USER": "miller", "HOME": "/tmp"},
    {"TZ": "America/Adak", "LANG": "C", "LC_ALL": "C", "PYTHONHASHSEED": "4242", "USER": "crew", "HOME": "/"},
]


@pytest.mark.parametrize("ending", ["pdf", "html", "json", "txt"])
def test_outputs_are_the_same_anywhere(folder: Path, tmp_path: Path, ending: str) -> None:
    made = []
    for number, variables in enumerate(PLACES):
        here = tmp_path / ("a" * (1 + 40 * number))
        (here / "kin").mkdir(parents=True)
        for name in ("cowl.wale", "kin/mill-yarns.wale"):
            (here / name).write_bytes((folder / name).read_bytes())
        path = here / "cowl.wale" if number else "cowl.wale"  # from outside, and from its own folder
        out = tmp_path / f"{number}.{ending}"
        environment = {"PATH": os.environ["PATH"], "PYTHONPATH": os.environ.get("PYTHONPATH", ""), **variables}
        command = [sys.executable, "-m", "wale", "compile", str(path), "--out", str(out)]
        subprocess.run(command, cwd="/" if number else here, env=environment, check=True, capture_output=True)
        made.append(out.read_bytes())
    assert made[0] == made[1]


def test_the_date_asked_for_is_the_date_in_the_file_and_is_verified(folder: Path, tmp_path: Path) -> None:
    compiled = compile_spec(DiskWorld(), str(folder / "cowl.wale"))

    class Dated(DiskWorld):
        def environment(self, name: str) -> str:
            return "1700000000" if name == "SOURCE_DATE_EPOCH" else ""

    data, _ = render(compiled, "pdf", Dated())
    assert data != (folder / "cowl.pdf").read_bytes()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert str(pdf.docinfo["/CreationDate"]) == "D:20231114221320Z"
    verdict, _ = publishing.verify(data, "cowl.pdf")
    assert verdict is not None and verdict.same_bytes


def test_errata_for_a_print_of_another_compiler_say_so(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pikepdf.open(folder / "cowl.pdf") as pdf:
        record = pdf.attachments["wale.json"].get_file().read_bytes()
    older = record.replace(publishing.COMPILER.encode(), b"wale 0.0.9")
    assert older != record
    (tmp_path / "cowl.pdf").write_bytes(changed(folder, **{"wale.json": older}))
    assert main(["errata", str(tmp_path / "cowl.pdf"), str(folder / "cowl.wale")], DiskWorld()) == 0
    assert "made by wale 0.0.9; compared is what" in capsys.readouterr().err
    assert main(["compile", "--verify", str(tmp_path / "cowl.pdf")], DiskWorld()) == 0
    assert "bytes: differ\nanother compiler may set other bytes\n" in capsys.readouterr().out
    (tmp_path / "cowl.pdf").write_bytes(changed(folder, **{"wale.json": older, "plan.json": b"{}"}))
    assert main(["compile", "--verify", str(tmp_path / "cowl.pdf")], DiskWorld()) == 1
    assert "Verify it with wale 0.0.9" in capsys.readouterr().err


def test_a_file_of_another_compiler_may_say_the_same(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with monkeypatch.context() as older:
        for module in ("wale.write.document", "wale.outputs.plan_json"):
            older.setattr(f"{module}.__version__", "0.0.9")
        older.setattr(publishing, "COMPILER", "wale 0.0.9")
        data, _ = render(compile_spec(DiskWorld(), str(folder / "cowl.wale")), "pdf", DiskWorld())
    (tmp_path / "cowl.pdf").write_bytes(data)
    assert main(["compile", "--verify", str(tmp_path / "cowl.pdf")], DiskWorld()) == 0
    assert "plan: the same\ninstructions: the same\nbytes: differ\n" in capsys.readouterr().out


def test_what_was_asked_for_on_the_command_line_is_verified_too(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = str(tmp_path / "cowl.pdf")
    asked = ["--size", "one", "--left-handed", "--large-print", "--with", "rows"]
    assert main(["compile", str(folder / "cowl.wale"), *asked, "--out", out], DiskWorld()) == 0
    assert main(["compile", "--verify", out], DiskWorld()) == 0
    assert "bytes: the same" in capsys.readouterr().out


def test_constructions_and_a_table_of_sizes_go_with_what_is_made_of_them(tmp_path: Path) -> None:
    for name in ("mill-yarns.wale", "mill-blocks.wale", "crew.csv"):
        (tmp_path / name).write_bytes((EXAMPLES / name).read_bytes())
    hats = (EXAMPLES / "hatch-hats.wale").read_text("utf-8")
    table = 'sizes from "crew.csv" Weir Flume Hopper\n'
    hats = hats.replace("sizes small medium large\n    measure head 52 (56, 60) cm\n", table)
    (tmp_path / "hats.wale").write_text(hats, "utf-8")
    assert main(["compile", str(tmp_path / "hats.wale")], DiskWorld()) == 0
    assert main(["unpack", str(tmp_path / "hats.pdf"), "--into", str(tmp_path / "out")], DiskWorld()) == 0
    for name in ("hats.wale", "mill-yarns.wale", "mill-blocks.wale", "crew.csv"):
        assert (tmp_path / "out" / name).read_bytes() == (tmp_path / name).read_bytes()
    assert main(["compile", "--verify", str(tmp_path / "hats.pdf")], DiskWorld()) == 0
