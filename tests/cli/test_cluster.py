"""--cluster on every command that fits: a real scheduler with two worker processes gives what one process gives."""

from __future__ import annotations

import math
import shutil
from pathlib import Path
from typing import Any

import pytest

from tests.cli import pack_library
from tests.cli.corner_library import CAR

packs, run = pack_library.packs, pack_library.run

MIDDLE = "lsc=8,hsc=8,lsr=8,hsr=8"
COMMANDS = {
    "curve": ("pack=gravel,shock=FL-01,lsc=10,hsc=10,lsr=10,hsr=10",),
    "compare": (f"gravel@{MIDDLE}", f"mixed@{MIDDLE}"),
    "identify": ("unknown.csv",),
    "choose": ("kestrel", "--axle", "front"),
    "report": ("kestrel", "gravel"),
    "trackside": ("kestrel",),
}


@pytest.fixture(scope="module")
def local():
    distributed = pytest.importorskip("distributed")  # here: it takes a second of whoever collects
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
    ) as cluster:
        yield cluster


@pytest.fixture(scope="module")
def teams(packs, tmp_path_factory) -> tuple[Path, Path]:
    """The packs' library with a car in it, twice."""
    folder = tmp_path_factory.mktemp("cluster")
    for name in ("alone", "shared"):
        library = folder / name
        shutil.copytree(packs / "library", library, ignore=shutil.ignore_patterns("cache"))
        (library / "shocks" / "RL-03.toml").write_text(pack_library.SHOCK, encoding="utf-8")
        (library / "cars").mkdir(exist_ok=True)
        (library / "cars" / "kestrel.toml").write_text(CAR, encoding="utf-8")
    return folder / "alone", folder / "shared"


def close(one: Any, other: Any) -> bool:
    """Tell whether two results of --json are the same but for rounding; matrix products may share out their sums."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(close(one[k], other[k]) for k in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(close, one, other))
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-6, abs_tol=1e-9)
    return bool(one == other)


@pytest.mark.slow
@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.thorough
def test_a_cluster_gives_what_one_process_gives(run, teams, local, tmp_path, monkeypatch, command):
    shutil.rmtree(teams[1] / "cache", ignore_errors=True)
    found = []
    for library, more in zip(teams, ((), ("--cluster", local.scheduler_address)), strict=True):
        monkeypatch.setenv("DYNOAN_LIBRARY", str(library))
        page = tmp_path / "page.html"
        out = ("--out", str(page)) if command in ("report", "trackside") else ()
        before = local.scheduler.transition_counter
        ran = run(command, *COMMANDS[command], "--json", *out, *more)
        assert ran.code == 0, ran.err
        assert (local.scheduler.transition_counter > before) == bool(more), "who fitted"
        found.append((ran.result, page.read_text(encoding="utf-8") if out else ""))
    (alone, page_alone), (shared, page_shared) = found
    assert close(alone, shared)
    assert page_alone == page_shared
