"""``choose --write`` keeps to tested ground unless told otherwise."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from dynoan.library import Library
from dynoan.workbench.bench import Workbench
from tests.cli.launch_library import click_map, make, run

TESTED = tuple(dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), click) for click in (2, 3))
STIFF = ("choose", "kestrel", "--axle", "front", "--packs", "gravel", "--rebound-low", "1.6", "--write")


@pytest.fixture
def library(tmp_path, monkeypatch):
    folder = make(tmp_path / "team", monkeypatch)
    narrow = replace(click_map("gravel"), tested=TESTED)
    monkeypatch.setattr(Workbench, "click_map", lambda self, pack, shock=None: narrow)
    monkeypatch.setattr(Workbench, "click_maps", lambda self, packs=None: {"gravel": narrow})
    monkeypatch.setattr(Library, "packs", lambda self: ("gravel",))
    return folder


def written(library, *words):
    """Return what a call did to the car's file: exit code, the JSON result, and whether the file is another."""
    car = library / "cars" / "kestrel.toml"
    before = car.read_text(encoding="utf-8")
    done = run(library, *words, "--json")
    if done.exception is not None:
        raise done.exception
    return done.return_value, json.loads(done.stdout)["result"], car.read_text(encoding="utf-8") != before


def test_clicks_outside_what_was_tested_are_not_written(library):
    code, result, changed = written(library, *STIFF)
    assert (code, result["written"], result["outside"], changed) == (1, [], ["fl", "fr"], False)
    assert all(one["standing"] == "outside" for one in result["choices"][:1])
    said = " ".join(run(library, *STIFF).stdout.split())
    assert "nothing written: the clicks for front left and front right lie outside what was tested" in said


def test_they_are_where_that_is_said(library):
    _, result, changed = written(library, *STIFF, "--outside")
    assert changed
    assert any("lsr=0" in line["new"] for line in result["written"])


def test_the_best_on_tested_ground_is_written(library):
    """Closed rebound is beyond what was tested; on tested ground two clicks are the stiffest, which is on the car."""
    code, result, changed = written(library, *(w.replace("1.6", "0.3") for w in STIFF), "--inside")
    assert changed
    assert "outside" not in result
    assert code in (0, 1)
    assert all(2 <= click <= 3 for click in result["choices"][0]["clicks"].values())


@pytest.mark.parametrize("more", [("--outside", "--inside"), ()])
def test_outside_without_write_or_beside_inside_is_refused(library, more):
    words = STIFF if more else STIFF[:-1]
    with pytest.raises(Exception, match="--outside goes with --write, and not with --inside"):
        written(library, *words, *(more or ("--outside",)))
