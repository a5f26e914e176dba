"""What is wrong is told in one line to people, and as one object to programs, whatever goes wrong."""

from __future__ import annotations

import json
import pickle
import sys
from dataclasses import FrozenInstanceError

import click
import pytest

from dynoan import errors
from dynoan.cli import main as shell
from dynoan.cli.refusals import KINDS, LONGEST, refusal
from dynoan.library import Library
from tests.library.made import CAR

WRONG = (
    ("frob",), ("ratio",), ("ratio", "nobody"), ("choose", "kestrel", "--axle", "middle"),
    ("sweeps", "--units", "cubits"),
    ("choose", "kestrel", "--tolerance", "wide"), ("report", "--out", "cars/kestrel.toml"), ("curve", "none.csv"),
    ("setup", "frob"), ("setup", "record", "kestrel", "--date", "05/02/2026"), ("edit", "nothing", "--pack", "x"),
    ("launch", "kestrel", "--trace", "none.csv"), ("--units", "cubits", "sweeps"), ("travel", "cars"), ("--frob",),
    ("predict", "none", "--clicks", "x=1"), ("ratio", "x" * 3000), ("plan", "none", "--runs", "many"),
    ("add", "x.csv", "--pack", "c=4"), ("launch", "kestrel", "--slip", "15"), ("curve", "cars"), ("identify", "cars"),
    ("predict", "gravel", "c=4"), ("edit",), ("match", "a"),
    ("sweeps", "zzz"), ("guide", "zzz"), ("report", "zzz"), ("launch", "kestrel", "-9"),
    ("trial", "run", "t", "a"), ("setup", "edit", "s"), ("choose", "kestrel", "--torque", "3 N m"),
)  # fmt: skip


@pytest.fixture
def run(tmp_path, monkeypatch, capfd):
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    Library.create(tmp_path / "lib")
    (tmp_path / "lib" / "cars" / "kestrel.toml").write_text(CAR)
    monkeypatch.chdir(tmp_path / "lib")

    def go(*words):
        monkeypatch.setattr(sys, "argv", ["dynoan", *words])
        with pytest.raises(SystemExit) as stop:
            shell.main()
        return stop.value.code, *capfd.readouterr()

    return go


@pytest.mark.parametrize("words", WRONG, ids=lambda words: " ".join(words)[:40])
def test_a_wrong_call_with_json_is_one_object_and_the_same_line(run, words):
    code, out, err = run(*words, "--json")
    assert code == 2
    found = json.loads(out)
    assert set(found) == {"dynoan", "command", "error", "warnings"}
    assert set(found["error"]) == {"kind", "text", "where", "hint"}
    assert found["error"]["where"], "whoever reads the object is told what it is about"
    assert err == f"dynoan: {found['error']['text']}\n"
    assert len(err) < LONGEST + 20
    assert run(*words) == (2, "", err), "without --json nothing is on standard output"


def test_the_parts_of_an_error_say_what_it_is_about(run):
    def told(*words):
        return json.loads(run(*words, "--json")[1])

    found = told("choose", "kestrel", "--tolerance", "wide")
    assert (found["command"], found["error"]["kind"], found["error"]["where"]) == ("choose", "quantity", "--tolerance")
    found = told("choose", "kestrel", "--axle", "middle")
    assert (found["error"]["kind"], found["error"]["where"]) == ("call", "--axle")
    assert found["error"]["hint"] == "see: dynoan choose --help"
    assert told("ratio")["error"]["where"] == "CAR"
    assert told("ratio", "nobody")["error"]["kind"] == "lookup"
    assert told("setup", "frob")["command"] == "setup"
    with open("cars/kestrel.toml", "a") as car:
        car.write("colour = 3\n")
    assert told("ratio", "kestrel")["error"]["where"] == "cars/kestrel.toml"


@pytest.mark.parametrize(
    ("words", "where"),
    [
        (("ratio", "nobody"), "nobody"),
        (("sweeps", "zzz"), "zzz"),
        (("frob",), "frob"),
        (("guide", "a", "b", "c"), "b c"),
        (("ratio", "--frob"), "--frob"),
        (("edit", "0123456789"), "--shock"),
        (("choose", "kestrel", "--torque", "3 N m"), "--torque"),
        (("setup", "record", "kestrel", "--date", "no day"), "--date"),
        (("match", "a"), "--pairs"),
        (("report",), "dynoan report"),
    ],
)
def test_an_error_that_names_no_place_has_it_in_what_was_typed(run, words, where):
    assert json.loads(run(*words, "--json")[1])["error"]["where"] == where


def test_json_behind_two_dashes_is_no_option(run):
    code, out, _err = run("ratio", "--", "--json")
    assert (code, out) == (2, "")


def test_every_error_of_the_project_has_a_kind():
    raised = [c for c in vars(errors).values() if isinstance(c, type) and issubclass(c, errors.DynoanError)]
    assert len(raised) > 5
    assert all(refusal(error("x")).kind == KINDS[error] for error in raised)


@pytest.mark.parametrize(
    ("error", "kind", "text"),
    [
        (MemoryError(), "memory", "not enough memory for this"),
        (
            ZeroDivisionError("division"),
            "fault",
            "a fault of the program (ZeroDivisionError: division); --debug shows where",
        ),
        (click.BadParameter("no such thing"), "call", "Invalid value: no such thing"),
        (
            errors.CallError("no target is set", need="targets"),
            "call",
            "no target is set or give --rebound-low and so on",
        ),
    ],
)
def test_errors_that_are_not_the_projects_are_one_line_too(error, kind, text):
    assert (refusal(error).kind, refusal(error).text) == (kind, text)


def test_a_file_that_is_not_there_tells_what_was_meant_or_where_it_was_looked_for(tmp_path):
    (tmp_path / "Front_left.csv").touch()
    missing = [tmp_path / name for name in ("front_lefft.csv", "other.csv")]
    told = [refusal(FileNotFoundError(2, "No such file or directory", str(path))).text for path in missing]
    assert told == [
        f"{missing[0]}: no such file; did you mean Front_left.csv?",
        f"{missing[1]}: no such file; check the name; it was looked for in {tmp_path}",
    ]
    gone = refusal(FileNotFoundError(2, "No such file or directory", str(tmp_path / "gone" / "x.csv")))
    assert gone.text.endswith(f"there is no folder {tmp_path / 'gone'} either: check its name")


def test_a_fault_of_the_program_is_told_as_an_object_too(run, monkeypatch):
    monkeypatch.setattr("dynoan.library.store.Library.find", lambda *_: 1 / 0)
    code, out, err = run("sweeps", "--json")
    assert (code, json.loads(out)["error"]["kind"]) == (2, "fault")
    assert err.startswith("dynoan: a fault of the program")


def test_a_long_value_is_not_echoed_whole(run):
    for words in (
        ("choose", "kestrel", "--tolerance", "9" * 100_000),
        ("ratio", "x" * 100_000),
        ("curve", "y" * 100_000),
    ):
        code, _, err = run(*words)
        assert code == 2
        assert len(err) < LONGEST + 20


def test_a_sound_file_that_lacks_what_one_command_wants_is_not_sent_to_the_check():
    told = refusal(errors.Lacking("surfaces is missing, and a launch needs one", where="cars/club.toml", hint="add it"))
    assert (told.where, told.hint) == ("cars/club.toml", "add it")
    assert told.text == "cars/club.toml: surfaces is missing, and a launch needs one; add it"
    place = errors.Spot("cars/club.toml", "fl.mass")
    faulty = refusal(errors.QuantityError("missing", where=place, hint="write mass"))
    assert faulty.text.startswith("cars/club.toml: fl.mass: missing; write mass; ")
    assert faulty.text.endswith(str(faulty.hint))
    assert (faulty.where, faulty.hint) == ("cars/club.toml", "all that is wrong with it: dynoan new car club")


def test_where_and_hint_are_said_apart_and_never_read_out_of_the_words():
    """Words that look like a file's name, or hold a semicolon, are no place and no hint."""
    told = refusal(errors.CallError("run.csv: half; of it"))
    assert (told.where, told.hint, told.text) == (None, None, "run.csv: half; of it")
    told = refusal(errors.ReadError("not text", where=errors.Spot("a: b.csv", line=3), hint="save it; or as CSV"))
    assert (told.where, told.hint) == ("a: b.csv, line 3", "save it; or as CSV")
    assert told.text == "a: b.csv, line 3: not text; save it; or as CSV"


def test_an_error_that_goes_on_keeps_its_parts():
    inner = errors.QuantityError("no number", where=errors.Spot("", "front.spring"), hint="write 3", need="limits")
    outer = inner.again(where="car.toml", part="what", kind=errors.CallError)
    assert isinstance(outer, errors.CallError)
    assert (outer.where, outer.key, outer.hint) == ("car.toml", "front.spring", "write 3")
    assert (outer.part, outer.need) == ("what", "limits")
    assert str(outer) == "what: car.toml: front.spring: no number; write 3"
    kept = pickle.loads(pickle.dumps(outer))
    assert (type(kept), kept.said) == (errors.CallError, outer.said)
    with pytest.raises(FrozenInstanceError):
        outer.said.hint = "x"
