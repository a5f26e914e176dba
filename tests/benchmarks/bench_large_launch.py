"""Launches at large angles: the first one of all, one beside scipy's LSODA, all clicks of an axle for an aim.

The first launch and the second run in processes of their own, the first with an empty place for compiled code. All
times are processor time, so that other work on the machine counts as little as can be. The search over 21⁴ clicks is
held to be exact on 7⁴, where every setting is run: same car, same aims, same roads.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping

import numba
import numpy as np
from scipy.integrate import solve_ivp

from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.drive import constant_acceleration, full_grip
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import compiled_car
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.compare import EXACT_STEP
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import SPACING, _grounds, _roads, hinges_of, packed, run
from dynoan.analysis.launch.large.search import ClickLab, Found, search
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from tests.analysis.launch_cars import FLAT, ROUGH, curves, damping, kestrel
from tests.benchmarks.measuring import row, took
from tests.made import made_map

DURATION = 3.0
FIRST = """
from dynoan.analysis.launch.drive import full_grip
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.from_car import half_car
from tests.analysis.launch_cars import ROUGH, curves, damping, kestrel
car = kestrel()
half = half_car(car, curves(car))
launch_large(large_car(car, half), Scene(full_grip(half, ROUGH), ROUGH, 3.0), damping(car, lsc=3, hsc=3, lsr=3, hsr=3))
"""
#: the aims: words, what is to be small, and whether the road is run
AIMS: tuple[tuple[str, Callable[[Mapping[str, np.ndarray]], np.ndarray], bool], ...] = (
    ("slowest nose", lambda f: f["level_nose_rise_rate_m_s"], False),
    ("least squat", lambda f: f["level_rear_squat_m"], False),
    ("steadiest on a rough road", lambda f: f["driven_load_rms_n"], True),
    ("most of the least load, rough", lambda f: -f["driven_load_least_n"] + 1e4, True),
)


def processor_time(code: str, folder: str) -> float:
    """Return the processor time of a process of its own. [s]"""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", code], check=True, env=os.environ | {"NUMBA_CACHE_DIR": folder})
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def first_launch(rounds: int = 3) -> list[dict[str, object]]:
    """L3: the first launch of all, and one that comes after it."""
    processor_time(FIRST, tempfile.gettempdir())  # Python's own compiling of the modules
    first, second = [], []
    for _ in range(rounds):
        with tempfile.TemporaryDirectory() as folder:
            first.append(processor_time(FIRST, folder))
            second.append(processor_time(FIRST, folder))
    ours, theirs = statistics.median(first), statistics.median(second)
    return [row("L3: the first launch of all, against the second (a fresh process each)", "3 s", took(ours),
                took(theirs), f"{ours - theirs:+.2f} s")]  # fmt: skip


@numba.njit
def _rates(t, y, p, paths, hinges, ground, heights, spacing, force, engine, dy, f, r):  # type: ignore[no-untyped-def]
    ramp = min(t / 0.15, 1.0) * force
    compiled_car.rates(y, dy, p, paths, hinges, 0, ground, heights, spacing, ramp, 0.0, engine, f, r)
    return dy


def one_launch(rounds: int = 20) -> list[dict[str, object]]:
    """L4: one launch with its motion kept, beside LSODA with the same right-hand side; errors beside DOP853."""
    car = kestrel()
    half = half_car(car, curves(car))
    large, scene = large_car(car, half), Scene(full_grip(half, ROUGH), ROUGH, DURATION)
    levels = sides(*damping(car, lsc=3, hsc=3, lsr=3, hsr=3)).take([1])
    p, paths = packed(large, slips=False)
    hinges, base = hinges_of(levels), half.frame.wheelbase
    road = _roads([scene], 15.0 * DURATION**2 + 10.0, base)
    ground = _grounds([scene], road, base)[0]
    force = float(scene.drive.asked[-1]) * half.frame.mass
    room, engine = np.zeros((3, 32)), np.zeros((2, 1))

    def rates(t: float, y: np.ndarray) -> np.ndarray:
        return np.array(
            _rates(t, y, p, paths, hinges, ground, road[0], SPACING, force, engine, room[0], room[1], room[2])
        )[: at.STATES]

    def loads(t: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.array([(rates(a, b), room[1, 14], room[2, 14])[1:] for a, b in zip(t, y.T, strict=True)]).T

    start = np.zeros(at.STATES)
    start[at.Z] = large.height
    ours = run(large, levels, [scene], [(0, 0)], keep=True, step=EXACT_STEP)
    times = np.minimum(ours.time, DURATION)
    exact = solve_ivp(rates, (0, DURATION), start, method="DOP853", rtol=1e-11, atol=1e-12, t_eval=times, max_step=1e-3)
    mine, theirs = [], []
    for _ in range(rounds):
        begin = time.process_time()
        run(large, levels, [scene], [(0, 0)], keep=True, step=EXACT_STEP)
        mine.append(time.process_time() - begin)
    for _ in range(3):
        begin = time.process_time()
        solve_ivp(rates, (0, DURATION), start, method="LSODA", rtol=1e-6, atol=1e-8, max_step=0.01)
        theirs.append(time.process_time() - begin)
    peer = solve_ivp(rates, (0, DURATION), start, method="LSODA", rtol=1e-6, atol=1e-8, max_step=0.01, t_eval=times)
    true = loads(times, exact.y)
    errors = [
        (float(np.abs(y[at.PITCH] - exact.y[at.PITCH]).max() / np.ptp(exact.y[at.PITCH])),
         max(float(np.abs(found[i] - true[i]).max() / np.ptp(true[i])) for i in (0, 1)))
        for y, found in ((ours.states[0], ours.kept[0, at.LOAD : at.LOAD + 2]), (peer.y, loads(times, peer.y)))
    ]  # fmt: skip
    a, b = statistics.median(mine), statistics.median(theirs)
    said = (f"{took(t)}, errors {e[0]:.0e} of pitch, {e[1]:.0e} of load" for t, e in zip((a, b), errors, strict=True))
    ours_said, peer_said = said
    return [row("L4: one launch of 3 s at large angles, against solve_ivp LSODA, compiled right-hand side",
                f"{ours.states.shape[2] - 1:,} steps", ours_said, peer_said, f"{b / a:.0f} × faster")]  # fmt: skip


def lab_of(last: int, rough: bool) -> ClickLab:
    """Return the rear axle's clicks of a made pack, 0 to `last` on each of four adjusters."""
    car = kestrel()
    half = half_car(car, curves(car))
    one = made_map("gravel", last)
    clicked = Clicked((one, one), (0.92, 0.92), dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), last // 2))
    scene = Scene(constant_acceleration(5.0), ROUGH if rough else FLAT, DURATION)
    return ClickLab.of(large_car(car, half), scene, damping(car)[0], clicked, "rear")


def aimed(last: int, aim: int) -> tuple[float, float, Found]:
    """Return the processor time of a search [s], what it found, and the search."""
    _, wanted, rough = AIMS[aim]
    lab = lab_of(last, rough)
    begin = time.process_time()
    found = search(lab, lambda f, _c: wanted(f), rough=rough, alone=not rough)
    spent = time.process_time() - begin
    return spent, float(wanted(found.figures)[found.best]), found


def best_of_all(last: int, aim: int) -> float:
    """Return the best of every setting, each run finely on all roads."""
    _, wanted, rough = AIMS[aim]
    lab = lab_of(last, rough)
    grid = np.stack(np.meshgrid(*(np.arange(last + 1),) * 4, indexing="ij"), axis=-1).reshape(-1, 4)
    parts = np.array_split(grid, 20)
    return min(float(wanted(lab.run(part, fine=True, rough=rough, alone=not rough)).min()) for part in parts)


def aims(least: int = 6, most: int = 20) -> list[dict[str, object]]:
    """L5: the search over 21⁴ clicks; how far the best of 7⁴ lies above the best of all."""
    out = []
    for i, (words, _, _) in enumerate(AIMS):
        aimed(most, i)  # roads made
        spent, _, found = aimed(most, i)
        off = aimed(least, i)[1] / best_of_all(least, i) - 1
        out.append(row(f"L5: clicks of an axle for an aim: {words}", f"{found.possible:,}",
                       f"{took(spent)}, {100 * off:.2g} % above the best of all {(least + 1) ** 4:,}", "10 s allowed",
                       f"{spent / 10:.2g}"))  # fmt: skip
    return out


def rows() -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    return [*first_launch(), *one_launch(), *aims()]


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
