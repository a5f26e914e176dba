"""A launch at large angles beside scipy's LSODA, and all clicks of an axle for an aim beside running every one."""

from __future__ import annotations

import time

import numba
import numpy as np
from scipy.integrate import solve_ivp

from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.drive import Scene, constant_acceleration, full_grip
from dynoan.analysis.launch.large import compiled
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.rows import SPACING, _grounds, _roads, hinges_of, packed, run
from dynoan.analysis.launch.large.search import ClickLab, search
from dynoan.analysis.launch.model import half_car
from dynoan.analysis.launch.run import sides
from tests.analysis.launch_cars import FLAT, ROUGH, curves, damping, kestrel
from tests.made import made_map

DURATION = 3.0


@numba.njit
def _rates(t, y, p, paths, hinges, ground, heights, spacing, force, engine, dy, f, r):  # type: ignore[no-untyped-def]
    ramp = min(t / 0.15, 1.0) * force
    compiled._rates(y, dy, p, paths, hinges, 0, ground, heights, spacing, ramp, 0.0, engine, f, r)
    return dy


def launches() -> tuple[float, float, float, float]:
    """Return the times of ours, of LSODA with the compiled right-hand side [s], and our errors of pitch and load."""
    car = kestrel()
    half = half_car(car, curves(car))
    large, scene = large_car(car, half), Scene(full_grip(half, ROUGH), ROUGH, DURATION)
    levels = sides(*damping(car, lsc=3, hsc=3, lsr=3, hsr=3)).take([1])
    ours = run(large, levels, [scene], [(0, 0)], keep=True)
    begin = time.process_time()
    for _ in range(20):
        ours = run(large, levels, [scene], [(0, 0)], keep=True)
    mine = (time.process_time() - begin) / 20
    p, paths = packed(large, slips=False)
    hinges, base = hinges_of(levels), half.frame.wheelbase
    road = _roads([scene], 15.0 * DURATION**2 + 10.0, base)
    ground = _grounds([scene], road, base)[0]
    force = float(scene.drive.asked[-1]) * half.frame.mass
    room = np.zeros((3, 32))
    engine = np.zeros((2, 1))

    def rates(t: float, y: np.ndarray) -> np.ndarray:
        return np.array(
            _rates(t, y, p, paths, hinges, ground, road[0], SPACING, force, engine, room[0], room[1], room[2])
        )[: at.STATES]

    start = np.zeros(at.STATES)
    start[at.Z] = large.height
    rates(0.0, start)
    exact = solve_ivp(
        rates, (0, DURATION), start, method="DOP853", rtol=1e-11, atol=1e-12, t_eval=ours.time, max_step=1e-3
    ).y
    begin = time.process_time()
    solve_ivp(rates, (0, DURATION), start, method="LSODA", rtol=1e-6, atol=1e-8, max_step=0.01)
    theirs = time.process_time() - begin
    off = [float(np.abs(ours.states[0, k] - exact[k]).max() / np.ptp(exact[k])) for k in (at.PITCH, at.REAR)]
    return mine, theirs, off[0], off[1]


def aims(last: int, *, every: bool) -> tuple[float, float, float, int]:
    """Return the time of the search [s], its best, the best of all (as far as asked), and how many there are."""
    car = kestrel()
    half = half_car(car, curves(car))
    large = large_car(car, half)
    one = made_map("gravel", last)
    clicked = Clicked((one, one), (0.92, 0.92), dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), last // 2))
    scene = Scene(constant_acceleration(5.0), FLAT, 1.0)
    lab = ClickLab.of(large, scene, damping(car)[0], clicked, "rear")
    key = "level_rear_squat_m"
    lab.run(np.zeros((1, 4), dtype=int), fine=False, rough=False)
    begin = time.process_time()
    found = search(lab, lambda f, _c: f[key], rough=False)
    spent = time.process_time() - begin
    least = float(found.figures[key][found.best])
    best = np.inf
    if every:
        grid = np.stack(np.meshgrid(*(np.arange(last + 1),) * 4, indexing="ij"), axis=-1).reshape(-1, 4)
        best = min(float(lab.run(part, fine=True, rough=False)[key].min()) for part in np.array_split(grid, 20))
    return spent, least, best, (last + 1) ** 4


if __name__ == "__main__":
    mine, theirs, pitch, travel = launches()
    print(f"one launch of {DURATION:g} s: {1e3 * mine:.1f} ms, LSODA compiled {1e3 * theirs:.0f} ms: "
          f"{theirs / mine:.0f} x; errors {pitch:.1e} of pitch, {travel:.1e} of rear travel")  # fmt: skip
    spent, least, best, count = aims(8, every=True)
    print(f"{count} clicks: {spent:.1f} s, best {least:.6f}, of all {best:.6f}: {100 * (least / best - 1):.3f} % above")
    spent, least, _, count = aims(20, every=False)
    print(f"{count} clicks: {spent:.1f} s, best {least:.6f}")
