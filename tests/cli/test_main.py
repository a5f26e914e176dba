"""The shell: help by task, one-line errors, exit codes, JSON alone on standard output."""

from __future__ import annotations

import json
import os
import shlex
import subprocess
import sys

import click
import pytest
from click.testing import CliRunner

from dynoan.cli.call import plain
from dynoan.cli.main import TASKS, WHERE, cli
from dynoan.library import Library
from tests.golden.running import run


def dynoan(*words, cwd=None, **env):
    return subprocess.run([sys.executable, "-m", "dynoan", *words], capture_output=True, text=True, cwd=cwd,
                          env={**os.environ, **env}, check=False)  # fmt: skip


def test_help_lists_every_command_by_task():
    said = CliRunner().invoke(cli, ["--help"]).output
    for task, commands in TASKS.items():
        assert f"{task}:" in said
        for name, _, _ in commands:
            assert f"\n  {name} " in said


#: commands that hold others
GROUPS = {"setup": ("record", "list", "recall"), "trial": ("new", "run", "show", "list")}


@pytest.mark.parametrize("name", WHERE)
def test_every_command_has_help_with_an_example(name):
    done = CliRunner().invoke(cli, [name, "--help"])
    assert done.exit_code == 0, done.output
    said = done.output
    said += "".join(CliRunner().invoke(cli, [name, part, "--help"]).output for part in GROUPS.get(name, ()))
    assert f"dynoan {name}" in said.split("Options:")[1], "an example after the options"
    assert "--json" in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["frob"], "No such command 'frob'"),
        (["curve"], "Missing argument"),
        (["curve", "nothing-there.csv", "--library", "/nowhere/at/all"], "/nowhere/at/all"),
        (["sweeps", "--units", "cubits"], "cubits"),
        (["read", "nothing-there.csv"], "nothing-there.csv"),
        (["ratio", "kestrel"], "library"),
    ],
)
def test_a_wrong_call_is_one_line_and_exit_2(words, says, tmp_path):
    done = run(words, tmp_path)
    assert done.code == 2
    assert done.out == "" or words[0] == "read"
    assert says in done.err
    assert len(done.err.strip().splitlines()) == 1
    assert "Traceback" not in done.err


def test_a_wrong_call_in_a_process_of_its_own(tmp_path):
    done = dynoan("frob", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    (line,) = done.stderr.splitlines()
    assert "No such command 'frob'" in line


def test_the_place_of_a_wrong_call_is_the_wrong_word(tmp_path):
    said = json.loads(run(["--json", "frob"], tmp_path).out)
    assert said["error"]["where"] == "frob"


def test_no_words_show_the_help(tmp_path):
    done = dynoan(cwd=tmp_path)
    assert done.returncode == 0
    assert "Start with:  dynoan demo" in done.stdout + done.stderr


def test_a_fault_of_the_program_is_one_line_too(monkeypatch, capsys):
    from dynoan.cli import main as shell

    monkeypatch.setattr(shell.cli, "main", lambda **_: 1 / 0)
    monkeypatch.setattr(sys, "argv", ["dynoan"])
    with pytest.raises(SystemExit) as stop:
        shell.main()
    assert stop.value.code == 2
    assert capsys.readouterr().err.startswith("dynoan: a fault of the program (ZeroDivisionError")


def test_json_holds_no_numbers_that_json_lacks():
    numpy = pytest.importorskip("numpy")
    assert json.dumps(plain({"a": float("nan"), "b": numpy.arange(2), "c": (1, None, True), "d": numpy.float64("inf")}))
    assert plain({"a": float("nan"), "b": numpy.arange(2)}) == {"a": None, "b": [0, 1]}


def helps(command, *path):
    """Yield the words of every command and the help it shows in a terminal of 80 columns."""
    with click.Context(command, info_name=" ".join(["dynoan", *path]), terminal_width=80) as context:
        yield path, command.get_help(context)
        names = command.list_commands(context) if isinstance(command, click.Group) else ()
        for name in names:
            yield from helps(command.get_command(context, name), *path, name)


def test_no_help_is_wider_than_80_columns_and_no_example_breaks_when_typed():
    shown = dict(helps(cli))
    assert len(shown) > len(WHERE)
    for path, text in shown.items():
        for line in text.splitlines():
            assert len(line) <= 80, (path, line)
            if line.strip().startswith("dynoan ") and "[" not in line:
                shlex.split(line, comments=True)
                assert "(" not in line.partition("#")[0].replace("'", '"').split('"')[0], (path, line)


def test_an_error_names_the_word_it_is_about_and_no_option_nobody_typed(tmp_path):
    Library.create(tmp_path / "lib")
    run(["trial", "new", "start", "--a", "soft", "--b", "hard"], tmp_path / "lib")
    done = run(["trial", "run", "start", "c", "3"], tmp_path / "lib")
    assert done.code == 2
    assert done.err == "dynoan: SETTING: 'c' is no setting of a trial; it is a or b\n"
