"""The demo: the whole main job on the invented car, once, and what it leaves."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from dynoan.cli.demo import ADDED, COMPARED, MORE, STEPS
from dynoan.cli.main import WHERE, cli
from dynoan.errors import CallError
from dynoan.jobs.demo import MARK, data_folder, make_library
from dynoan.jobs.demo.earlier import OUTPUTS, file_of_somebody
from dynoan.library import Library
from fixtures.make_demo import SETTINGS, runs
from tests.golden.grounds import made_demo
from tests.library.made import made_sweep
from tests.once import copied


@pytest.mark.slow
def test_the_demo_runs_the_main_job_and_leaves_pictures_and_pages(tmp_path, tmp_path_factory):
    ran = copied(tmp_path_factory.getbasetemp(), "demo", made_demo, tmp_path / "demo")
    result = json.loads(ran.out)["result"]
    assert [step["command"].split()[0] for step in result["steps"]] == [line.split()[0] for _, line in STEPS]
    assert {"curve.png", "packs.png", "ratio.png", "choose.png"} <= set(result["pictures"])
    exits = {step["command"].split()[0]: step["exit"] for step in result["steps"]}
    assert exits.pop("match") == 1, "RR-04 is made off: no pair"
    assert exits.pop("choose") == 1, "RR-04 is weaker than RL-03: no clicks alike on both sides fit"
    assert set(exits.values()) == {0}
    for page in ("report", "trackside"):
        assert "kestrel" in (tmp_path / "demo" / f"{page}.html").read_text(encoding="utf-8")
    again = CliRunner().invoke(cli, ["--library", str(tmp_path / "demo"), "check"])
    assert again.exit_code == 0, again.output
    assert file_of_somebody(tmp_path / "demo", data_folder(), MARK) is None, "a demo that ran is replaced by the next"
    Library(tmp_path / "demo").add(*made_sweep())
    assert str(file_of_somebody(tmp_path / "demo", data_folder(), MARK)).startswith("sweeps/")


def test_a_folder_that_is_no_demo_is_left_alone(tmp_path):
    (tmp_path / "mine.txt").write_text("keep me", encoding="utf-8")
    done = CliRunner().invoke(cli, ["demo", str(tmp_path)])
    assert done.exit_code != 0
    assert "no earlier demo" in str(done.exception)
    assert (tmp_path / "mine.txt").read_text(encoding="utf-8") == "keep me"


@pytest.mark.parametrize(
    ("place", "content"),
    [
        ("cars/kestrel.toml", "# heavier springs\n"), ("cars/mine.toml", ""), ("notes.txt", "wet"),
        ("setups/2026-11-27-kestrel.toml", ""), ("trials/less-rear-rebound.toml", ""), ("sweeps/0123456789.h5", "x"),
        ("dyno/run.csv", "1,2"), ("travel/deep/log.csv", "1,2"),
    ],
)  # fmt: skip
def test_an_earlier_demo_with_something_of_ones_own_in_it_is_left_alone(tmp_path, place, content):
    make_library(tmp_path / "demo")
    make_library(tmp_path / "demo")  # as often as one likes
    own = tmp_path / "demo" / place
    own.parent.mkdir(exist_ok=True)
    own.write_text(content, encoding="utf-8")
    with pytest.raises(CallError, match=f"holds {re.escape(place)}, which is not as the demo made it; move"):
        make_library(tmp_path / "demo")
    assert own.read_text(encoding="utf-8") == content


def test_all_that_the_demos_lines_draw_and_write_is_known_as_its_own():
    words = [word for line in (*(line for _, line in STEPS), *MORE) for word in line.split()]
    drawn = {word for word in words if word.endswith((".png", ".html"))}
    assert drawn == OUTPUTS


def test_what_the_demo_names_are_commands():
    assert all(line.split()[0] in WHERE for line in (*MORE, *(line for _, line in STEPS)))


def test_the_demo_holds_every_setting_it_says():
    gravel = {run.clicks for run in runs() if run.pack == "gravel" and run.shock == "FL-01"}
    assert gravel == set(SETTINGS)
    assert {run.shock for run in runs()} == {"FL-01", "FR-02", "RL-03", "RR-04"}


def test_packs_are_fitted_once_files_are_kept_and_before_a_step_asks_for_them():
    first = [line.split()[0] for _, line in STEPS]
    assert first[ADDED - 1] == "add"
    assert first[COMPARED] == "compare"
    assert "choose" not in first[:COMPARED]


def test_the_first_hours_files_are_left_as_they_are_kept_and_nothing_of_ones_own_is_taken(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for _ in range(2):  # once more changes nothing
        done = CliRunner().invoke(cli, ["demo", "--files", "--json"])
        assert done.exit_code == 0, done.output
    files = json.loads(done.stdout)["result"]["files"]
    kept = sorted((Path(__file__).parents[2] / "fixtures" / "first" / "from-the-shop").iterdir())
    assert [Path(file).read_bytes() for file in files] == [path.read_bytes() for path in kept]
    Path(files[3]).write_text("mine", encoding="utf-8")
    refused = CliRunner().invoke(cli, ["demo", "--files"])
    assert refused.exit_code != 0
    assert "another file has this name" in str(refused.exception)
    assert Path(files[3]).read_text(encoding="utf-8") == "mine"
