"""In a library of US units no metric unit is seen: in no table, note, warning, error, hint, page or sheet."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from tests.golden.commands import LINES
from tests.golden.grounds import Grounds
from tests.golden.line import Line
from tests.golden.running import Ran, run
from tests.metric import metric
from tests.once import laid

AS_THEY_ARE = ("setup recall", "--units metric", "--csv")
OF_THEIR_OWN = ("demo",)  #: make a library of their own
QUICK = (
    "demo-curve-us", "demo-match-us", "demo-health-us", "demo-ratio-us", "demo-launch-loose-us", "demo-travel-car",
    "demo-ratio-swapped", "demo-sweeps-us", "second-read", "second-sweeps",
)  # fmt: skip
GROUNDS = ("demo", "second")


@pytest.fixture(scope="module")
def folders(grounds: Grounds, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Return copies of the libraries, of a team that wants US units."""
    made = {}
    for name in GROUNDS:
        made[name] = tmp_path_factory.mktemp("us") / name
        laid(grounds.of(name), made[name])
        marker = made[name] / "dynoan.toml"
        lines = [line for line in marker.read_text(encoding="utf-8").splitlines() if not line.startswith("units")]
        marker.write_text("\n".join([*lines, 'units = "us"', ""]), encoding="utf-8")
    return made


def asked(line: Line) -> list[str]:
    """Return a line's words without the units it asks for: the library's are held."""
    words = line.words
    return [w for w, before in zip(words, ["", *words[:-1]], strict=True) if "--units" not in (w, before)]


def seen(ran: Ran) -> str:
    return ran.out + ran.err


HELD = [
    line for line in LINES
    if line.ground in GROUNDS and line.slug not in OF_THEIR_OWN and not any(t in line.text for t in AS_THEY_ARE)
]  # fmt: skip


@pytest.mark.parametrize("line", [line for line in HELD if line.slug in QUICK], ids=lambda line: line.slug)
def test_no_metric_unit_is_seen(line: Line, folders: dict[str, Path]):
    assert not metric(seen(run(asked(line), folders[line.ground])))


@pytest.mark.thorough
def test_no_metric_unit_is_seen_over_all_commands(folders: dict[str, Path]):
    found = {}
    for line in HELD:
        for text in line.before:
            run(shlex.split(text), folders[line.ground])
        if bad := metric(seen(run(asked(line), folders[line.ground]))):
            found[line.slug] = bad
    assert found == {}


@pytest.mark.parametrize("sheet", ["s.txt", "s.csv"])
def test_no_metric_unit_is_on_a_sheet(sheet: str, folders: dict[str, Path]):
    """Pages and sheets to print are looked at in `tests/cli/test_every_command_shown.py`."""
    ran = run(["plan", "tarmac", "--sheet", sheet, "--force"], folders["demo"])
    assert ran.code == 0, ran.err
    assert not metric((folders["demo"] / sheet).read_text(encoding="utf-8"))


def test_a_metric_unit_would_be_seen():
    assert len(metric("8 N/mm\n 3 N\nspeed [mm/s]\n'2 N'\n40 °C\n5 in/s, 3 lbf, 7 kip\nBar 3 Nm is 4 Hz\n2.5 m\n")) == 5
