"""What is not proven is not written, wherever the proof is made."""

import os

import pytest

import wale.proven
from wale.cli import main
from wale.prove.fabric import Finding
from wale.starters import starter


@pytest.mark.parametrize("cores", [1, 2])
@pytest.mark.parametrize("form", ["html", "json", "pdf", "text"])
def test_what_is_not_proven_is_not_written(form, cores, tmp_path, monkeypatch, capsys):
    """The proof is made beside the setting where there are two cores; its verdict is waited for either way."""

    def mismatch(spec, plan, pattern, sizes):
        raise wale.proven.Unproven([Finding("cowl", "one", 7, "Knit.", "152 stitches, not 150")])

    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    monkeypatch.setattr(wale.proven, "prove_pattern", mismatch)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cowl.wale").write_text(starter("cowl"), "utf-8")
    assert main(["compile", "cowl.wale", "--to", form, "--proof", "proof.json"]) == 2
    assert "152 stitches, not 150" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == ["cowl.wale"]


@pytest.mark.parametrize("cores", [1, 2])
def test_the_record_comes_back_from_the_process_beside(cores, tmp_path, monkeypatch):
    monkeypatch.setattr(os, "cpu_count", lambda: cores)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cowl.wale").write_text(starter("cowl"), "utf-8")
    assert main(["compile", "cowl.wale", "--to", "text", "--proof", "proof.json"]) == 0
    assert '"title"' in (tmp_path / "proof.json").read_text("utf-8")
    assert (tmp_path / "cowl.txt").is_file()
