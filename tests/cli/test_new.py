"""``dynoan new``: asked for, and checked."""

from __future__ import annotations

from click.testing import CliRunner

from dynoan.cli import main as shell
from dynoan.cli.main import cli


def run(*words, typed=""):
    return CliRunner().invoke(cli, list(words), input=typed)


def test_asking_takes_what_is_typed_and_asks_again_where_it_cannot_be(tmp_path):
    team = str(tmp_path / "team")
    typed = "0.55\n0.55 in\n\n4.7 in\n\nc,r\n20\nmany\n24\n"
    done = run("new", "shock", "FL-21", "--ask", "--library", team, "--units", "us", typed=typed)
    assert done.exit_code == 0, done.output
    assert "'0.55' has no unit" in done.output
    assert "'many' is no number" in done.output
    text = (tmp_path / "team" / "shocks" / "FL-21.toml").read_text(encoding="utf-8")
    assert 'rod = "0.55 in"' in text
    assert "clicks = 24" in text
    assert run("new", "shock", "FL-21", "--library", team).exit_code == 0


def test_a_faulty_file_is_exit_1_and_a_new_one_is_not(tmp_path, capsys):
    words = ["new", "car", "club", "--library", "team"]
    assert shell.run(words, folder=tmp_path) == 0
    assert shell.run(words, folder=tmp_path) == 1
    assert "12 faults" in capsys.readouterr().out
