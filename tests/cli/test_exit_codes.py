"""Exit code 2 says that the call or what it reads is wrong, 1 that the answer is no, whatever a command is asked."""

from __future__ import annotations

import json
import shutil

import pytest

from tests.fuzz.window_forms import filled
from tests.golden.running import run
from tests.library.calling import write_run

DAY = "2026-05-02-kestrel"
SPOILED = {
    "cars/kestrel.toml": ("ratio kestrel", "choose kestrel", "carry kestrel kestrel", "report kestrel --out r.html",
                          "trackside kestrel --out t.html", "setup record kestrel", "new car kestrel"),
    "shocks/FL-01.toml": ("predict gravel --clicks lsc=8 --shock FL-01", "report FL-01 --out r.html"),
    f"setups/{DAY}.toml": ("setup recall", f"setup recall {DAY}", f"setup edit {DAY} --good"),
    "trials/start.toml": ("trial show start", "trial run start a 4.8"),
    "dynoan.toml": ("sweeps", "check", "add ../run.csv"),
}  # fmt: skip
LEFT_OUT = {
    "cars/kestrel.toml": ("sweeps", "curve pack=gravel"), f"setups/{DAY}.toml": ("setup list",),
    "trials/start.toml": ("trial list", "setup list --by surface"), "layouts/odd.toml": ("read ../run.csv",),
}  # fmt: skip
AT_ODDS = (f"setup recall {DAY} --surface loose", f"setup recall {DAY} --car kestrel",
           "edit --rename-pack gravel x 911a427cf0", "trial run start a 4.8 --strike 1",
           "bounce ../run.csv --car kestrel --corner fl --axle front",
           "setup record kestrel --from ../run.csv")  # fmt: skip


@pytest.fixture(scope="module")
def team(tmp_path_factory):
    folder = tmp_path_factory.mktemp("exits") / "team"
    filled(folder)
    write_run(folder.parent / "run.csv")
    return folder


def refused(words: str, folder) -> str:
    """Hold that a command is refused in one line and one object; return the line."""
    told, asked = run(words.split(), folder), run([*words.split(), "--json"], folder)
    assert (told.code, asked.code, told.out) == (2, 2, "")
    found = json.loads(asked.out)
    assert ("result" in found, told.err) == (False, f"dynoan: {found['error']['text']}\n")
    assert "fault of the program" not in told.err
    return told.err


@pytest.mark.parametrize("file", SPOILED)
def test_a_file_that_cannot_be_read_is_no_answer(team, tmp_path, file):
    folder = shutil.copytree(team.parent, tmp_path / "there") / "team"
    (folder / file).write_bytes(b"\x00\xffnot = = text")
    for words in SPOILED[file]:
        line = refused(words, folder)
        assert file in line
        assert "dynoan new car kestrel" not in line or not words.startswith("new"), "that was just asked"
    assert not list(folder.glob("*.html"))


@pytest.mark.parametrize("file", LEFT_OUT)
def test_what_needs_no_spoiled_file_answers_without_it(team, tmp_path, file):
    folder = shutil.copytree(team.parent, tmp_path / "there") / "team"
    (folder / file).write_bytes(b"\x00\xffnot = = text")
    assert [run(words.split(), folder).code for words in LEFT_OUT[file]] == [0] * len(LEFT_OUT[file])


@pytest.mark.parametrize("words", AT_ODDS)
def test_options_at_odds_are_refused(team, words):
    refused(words, team)


def test_one_output_has_one_form(team):
    done = run(["sweeps", "--json", "--csv"], team)
    assert (done.code, json.loads(done.out)["error"]["text"]) == (2, done.err.removeprefix("dynoan: ").strip())


def test_where_one_of_many_fails_the_error_stands_beside_what_the_others_came_to(team):
    done = run(["read", "../run.csv", "../none.csv", "--json"], team)
    found = json.loads(done.out)
    assert (done.code, [f["error"] is None for f in found["result"]["files"]]) == (2, [True, False])
    assert found["error"]["text"] == found["result"]["files"][1]["error"]
    assert set(found["error"]) == {"kind", "text", "where", "hint"}
