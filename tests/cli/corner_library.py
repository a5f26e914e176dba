"""A library with cars and shocks whose click maps are the made-up packs' truth, so that no test waits for a fit."""

from __future__ import annotations

import json
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from dynoan.cli.main import main
from dynoan.library import Library
from dynoan.workbench import Workbench
from tests.made import made_map

LAST = 10
SHOCK = "\n".join(f"[adjusters.{name}]\nclicks = {LAST}" for name in ("lsc", "hsc", "lsr", "hsr"))
SOFT = SHOCK.replace(f"clicks = {LAST}", f'clicks = {LAST}\ncounted = "from soft"')
CAR = """\
wheelbase = "2430 mm"
cg_height = "510 mm"
driven = "rear"
[front]
unsprung = "34 kg"
spring = "45 N/mm"
spring_ratio = 0.95
shock_ratio = 0.92
tyre = "210 N/mm"
pack = "gravel"
clicks = "lsc=4,hsc=5,lsr=4,hsr=5"
[rear]
unsprung = "32 kg"
spring = "38 N/mm"
spring_ratio = 0.90
shock_ratio = 0.88
tyre = "210 N/mm"
pack = "gravel"
clicks = "lsc=4,hsc=5,lsr=4,hsr=5"
[fl]
mass = "268 kg"
shock = "FL-01"
[fr]
mass = "262 kg"
shock = "FR-02"
[rl]
mass = "241 kg"
shock = "RL-03"
[rr]
mass = "247 kg"
shock = "RR-04"
[targets.front]
compression = { low = 0.38, high = 0.30 }
rebound = { low = 0.65, high = 0.45 }
[surfaces.loose]
grip = 0.65
roughness = "D"
[surfaces.smooth]
grip = 1.0
"""
maps = cache(made_map)


@pytest.fixture
def garage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library's folder, with the commands run inside it."""
    Library.create(tmp_path)
    for name in ("FL-01", "FR-02", "RL-03", "RR-04"):
        put(tmp_path, f"shocks/{name}.toml", SHOCK)
    put(tmp_path, "cars/kestrel.toml", CAR)
    monkeypatch.setattr(Library, "packs", lambda _self: ("gravel", "mixed"))
    monkeypatch.setattr(Workbench, "of_pack", {"gravel": (), "mixed": ()})
    monkeypatch.setattr(Workbench, "click_map", lambda _self, pack, shock=None: maps(pack, LAST))
    monkeypatch.setattr(Workbench, "click_maps", lambda _self, packs: {pack: maps(pack, LAST) for pack in packs})
    monkeypatch.chdir(tmp_path)
    return tmp_path


def put(folder: Path, name: str, text: str) -> None:
    """Write a file of the library."""
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")


def change(old: str, new: str, text: str = CAR) -> str:
    """A car file with one thing changed, which must be there."""
    assert old in text
    return text.replace(old, new)


class Ran:
    """What a command left."""

    def __init__(self, code: Any, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err

    @property
    def result(self) -> dict[str, Any]:
        """The result object of --json, the only thing on standard output."""
        return json.loads(self.out)["result"]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch):
    """Run a command line as a user would."""

    def run_it(*words: str) -> Ran:
        monkeypatch.setattr(sys, "argv", ["dynoan", *words])
        with pytest.raises(SystemExit) as stop:
            main()
        out, err = capsys.readouterr()
        return Ran(stop.value.code, out, err)

    return run_it
