"""A library of peak tables of two packs from the made-up rig, with clicks counted both ways, for the pack commands."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from dynoan.cli.main import main
from dynoan.library import Library
from dynoan.workbench import Workbench
from fixtures.rig import PACKS, MadeShock, peaks
from tests.once import copied

SPEEDS = np.array([0.013, 0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5])
NAMES = ("lsc", "hsc", "lsr", "hsr")
SETTINGS = (
    (10, 10, 10, 10),
    (2, 2, 18, 18),
    (18, 18, 2, 2),
    (2, 18, 10, 2),
    (18, 2, 10, 18),
    (5, 14, 5, 14),
    (14, 5, 14, 5),
)
#: hsr counts from soft on every shock
SHOCK = "\n".join(f"[adjusters.{n}]\nclicks = 20" + ('\ncounted = "from soft"' if n == "hsr" else "") for n in NAMES)


@dataclass(frozen=True)
class Ran:
    """What one call left."""

    code: int
    out: str
    err: str

    @property
    def result(self) -> dict[str, Any]:
        return json.loads(self.out)["result"]

    @property
    def warnings(self) -> list[str]:
        return json.loads(self.out)["warnings"]


def counted(clicks: tuple[int, ...]) -> dict[str, int]:
    """Clicks from closed as the shocks here count them."""
    return {n: 20 - c if n == "hsr" else c for n, c in zip(NAMES, clicks, strict=True)}


def peak_file(path: Path, shock: MadeShock, clicks: tuple[int, ...], seed: int, facts: dict[str, str]) -> Path:
    """Write a peak table of a made shock."""
    rows = peaks(shock, dict(zip(NAMES, clicks, strict=True)), SPEEDS, 0.4, seed)
    head = [f"{k},{v}" for k, v in facts.items()]
    body = [f"{v:.4f},{c:.2f},{r:.2f}" for v, c, r in rows]
    path.write_text(
        "\n".join([*head, "Gas force removed,yes", "", "Velocity (m/s),Compression (N),Rebound (N)", *body]) + "\n"
    )
    return path


def facts(shock: str, pack: str, clicks: tuple[int, ...], date: str = "2026-03-14") -> dict[str, str]:
    """What a file states."""
    return {
        "Shock": shock,
        "Pack": pack,
        "Clicks": " ".join(f"{n}={c}" for n, c in counted(clicks).items()),
        "Date": date,
    }


def call(*words: str) -> int:
    """Run the command line in this process; return its exit code."""
    before = sys.argv
    sys.argv = ["dynoan", *words]
    try:
        main()
    except SystemExit as stop:
        return int(stop.code or 0)
    finally:
        sys.argv = before
    return 0


@pytest.fixture(scope="session")
def packs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The library's folder, its packs fitted."""
    folder = tmp_path_factory.mktemp("packs")
    copied(tmp_path_factory.getbasetemp(), "packs", _made, folder)
    return folder


def _made(folder: Path) -> None:
    library = folder / "library"
    folder.mkdir()
    Library.create(library, team="Kestrel (invented)")
    for name in ("FL-01", "FR-02", "RR-04"):
        (library / "shocks").mkdir(exist_ok=True)
        (library / "shocks" / f"{name}.toml").write_text(SHOCK, encoding="utf-8")
    files = []
    for pack in ("gravel", "mixed"):
        for i, clicks in enumerate(SETTINGS):
            files.append(peak_file(folder / f"{pack}{i}.csv", PACKS[pack], clicks, i, facts("FL-01", pack, clicks)))
    middle = SETTINGS[0]
    near, weak = replace(PACKS["gravel"], scale=1.01), replace(PACKS["gravel"], scale=0.86)
    files.append(peak_file(folder / "near.csv", near, middle, 50, facts("FR-02", "gravel", middle)))
    files.append(peak_file(folder / "good.csv", near, middle, 51, facts("RR-04", "gravel", middle, "2025-09-01")))
    files.append(peak_file(folder / "weak.csv", weak, middle, 52, facts("RR-04", "gravel", middle)))
    peak_file(folder / "unknown.csv", PACKS["mixed"], (7, 12, 9, 6), 60, {"Remark": "spares box"})
    stranger = replace(PACKS["mixed"], compression=replace(PACKS["mixed"].compression, crack=4000.0, leak=9e-5))
    peak_file(folder / "stranger.csv", stranger, (7, 12, 9, 6), 61, {"Remark": "spares box"})
    assert call("--library", str(library), "add", *map(str, files)) == 0
    Workbench.find(library).click_maps(("gravel", "mixed"))


@pytest.fixture
def run(packs: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch):
    """A function that runs a command in the library and gives back what it left."""
    monkeypatch.setenv("DYNOAN_LIBRARY", str(packs / "library"))
    monkeypatch.chdir(packs)

    def go(*words: str) -> Ran:
        capsys.readouterr()
        code = call(*words)
        text = capsys.readouterr()
        return Ran(code, text.out, text.err)

    return go
