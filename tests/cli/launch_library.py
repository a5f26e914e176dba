"""A small library with a car, whose packs' click maps are the made-up truth: nothing has to be fitted."""

from __future__ import annotations

import functools
import json
from pathlib import Path

from click.testing import CliRunner

from dynoan.cli.main import cli
from dynoan.library import Library
from tests.made import made_map

LAST = 4
CAR = """\
wheelbase = "2430 mm"
cg_height = "510 mm"
driven = "rear"
antisquat = "45 %"
wheel_radius = "300 mm"
[front]
unsprung = "34 kg"
spring = "45 N/mm"
spring_ratio = 0.95
shock_ratio = 0.92
tyre = "210 N/mm"
bump_travel = "75 mm"
droop_travel = "85 mm"
pack = "gravel"
clicks = "lsc=2,hsc=2,lsr=2,hsr=2"
[rear]
unsprung = "32 kg"
spring = "38 N/mm"
spring_ratio = 0.90
shock_ratio = 0.88
tyre = "210 N/mm"
bump_travel = "80 mm"
droop_travel = "95 mm"
pack = "gravel"
clicks = "lsc=2,hsc=2,lsr=2,hsr=2"
[fl]
mass = "268 kg"
shock = "FL-01"
[fr]
mass = "262 kg"
shock = "FL-01"
[rl]
mass = "241 kg"
shock = "RL-03"
[rr]
mass = "247 kg"
shock = "RL-03"
[surfaces.sticky]
grip = 1.05
[surfaces.loose]
grip = 0.65
roughness = "D"
"""
#: one counts clicks from soft, so that counting is put to the test
SHOCKS = {"FL-01": "from closed", "RL-03": "from soft"}


@functools.cache
def click_map(pack: str):
    return made_map(pack, LAST)


def make(folder: Path, monkeypatch, car: str = CAR) -> Path:
    from dynoan.workbench.bench import Workbench

    Library.create(folder)
    for name in ("cars", "shocks"):
        (folder / name).mkdir(exist_ok=True)
    (folder / "cars" / "kestrel.toml").write_text(car, encoding="utf-8")
    for name, counted in SHOCKS.items():
        parts = [f'[adjusters.{a}]\nclicks = {LAST}\ncounted = "{counted}"\n' for a in ("lsc", "hsc", "lsr", "hsr")]
        (folder / "shocks" / f"{name}.toml").write_text("".join(parts), encoding="utf-8")
    monkeypatch.setattr(Workbench, "click_map", lambda self, pack, shock=None: click_map(pack))
    return folder


def run(folder: Path | None, *words: str):
    """Exit code, standard output, and what went wrong, of a call."""
    library = () if folder is None else ("--library", str(folder))
    return CliRunner().invoke(cli, [*library, *words], standalone_mode=False, prog_name="dynoan")


def result(folder: Path | None, *words: str) -> dict:
    """The JSON object of a call that must succeed."""
    done = run(folder, *words, "--json")
    if done.exception is not None:
        raise done.exception
    return json.loads(done.stdout)
