"""One launch, and ten thousand, against scipy's solve_ivp on the same equations.

The case is a hard one: a rough road, front tyres that lift, bump and droop stops. Errors are the largest over the run
as a share of the range, against DOP853 at 1e-11. The peer is LSODA at rtol 1e-6, its right-hand side in plain Python or
compiled; both read the same road table. Peer and ours run in turn, medians are compared. Times are processor time, so
that a busy machine does not blur them; on an idle one the batch takes less of the clock, as it runs in threads.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from typing import Any

import numba
import numpy as np
from scipy.integrate import solve_ivp

from dynoan.analysis.launch.drive import full_grip
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides, sides
from dynoan.model.car import Surface
from tests.analysis.launch_cars import curves, damping, kestrel
from tests.benchmarks.measuring import row, took
from tests.oracles.small_angle.kernel import _car, _one, _rhs
from tests.oracles.small_angle.packing import pack, packed
from tests.oracles.small_angle.road import table
from tests.oracles.small_angle.running import run_figures, run_states

ROAD = Surface("washboard", 0.9, 5000e-6)
SOFT = {"spring": 24e3, "bump_travel": 0.035, "droop_travel": 0.04}
EVERY = 5  #: of our steps, where the peer gives its states
FIGURES = ("nose_rise_m", "pitch_rate_peak_rad_s", "driven_load_least_n")


class Case:
    """The car, its road, and its dampers, and the same equations for scipy."""

    def __init__(self, step: float = 2.5e-4, count: int = 1, row: int | None = None) -> None:
        car = kestrel(SOFT, antisquat=0.8)
        self.half = half_car(car, curves(car))
        self.scene = Scene(full_grip(self.half, ROAD), ROAD, step=step)
        levels = sides(*damping(car))
        scale = 0.6 + 0.9 * np.random.default_rng(4).random((4, count))
        one = [side.take([1] * count) for side in levels]
        scaled = [
            type(h)(h.knots, h.gains * (s[:, None] if count > 1 else 1.0)) for h, s in zip(one, scale, strict=True)
        ]
        self.damping = Sides(*(h.take([row]) for h in scaled)) if row is not None else Sides(*scaled)

    def load(self, states: np.ndarray, time_: np.ndarray) -> np.ndarray:
        """Load of the rear tyres over a run's states (8, n)."""
        grid = table(self.half, self.scene)
        road = np.interp(time_, np.arange(len(grid)) * self.scene.step / 2, grid[:, 1])
        rear = self.half.rear
        return np.maximum(rear.static_load + rear.tyre * (road - states[3]), 0.0)

    def compiled(self) -> Callable[[float, np.ndarray], np.ndarray]:
        """The right-hand side, compiled."""
        args = (packed(self.half, self.scene.grip), table(self.half, self.scene), pack(self.damping)[0])
        half_step = self.scene.step / 2
        return lambda t, y: _compiled(t, y, half_step, *args)

    def plain(self) -> Callable[[float, np.ndarray], list[float]]:
        """The right-hand side in plain Python."""
        return plain_rhs(self)

    def solve(self, rhs: Callable[..., Any], method: str = "LSODA", rtol: float = 1e-6, atol: float = 1e-9) -> Any:
        """Run scipy on it."""
        time_ = np.arange(self.scene.steps + 1) * self.scene.step
        return solve_ivp(rhs, (0, time_[-1]), np.zeros(8), method=method, rtol=rtol, atol=atol, t_eval=time_[::EVERY])


@numba.njit(cache=False)
def _compiled(t, y, half_step, p, grid, d):  # type: ignore[no-untyped-def]
    at = min(t / half_step, grid.shape[0] - 1.000001)
    i = int(at)
    w = at - i
    tab = (
        grid[i, 0] * (1 - w) + grid[i + 1, 0] * w, grid[i, 1] * (1 - w) + grid[i + 1, 1] * w,
        grid[i, 2] * (1 - w) + grid[i + 1, 2] * w, grid[i, 3] * (1 - w) + grid[i + 1, 3] * w,
    )  # fmt: skip
    car, fa, ra = _car(p)
    a, _ = _rhs((y[0], y[1], y[2], y[3]), (y[4], y[5], y[6], y[7]), tab, _one, d, 0, car, fa, ra)
    return np.array([y[4], y[5], y[6], y[7], a[0], a[1], a[2], a[3]])


def plain_rhs(case: Case) -> Callable[[float, np.ndarray], list[float]]:
    """The equations as anyone would write them in Python."""
    half, grip = case.half, case.scene.grip
    grid = [tuple(row) for row in table(half, case.scene).tolist()]
    half_step, last = case.scene.step / 2, len(grid) - 2
    hinges = [list(zip(s.knots[0].tolist(), s.gains[0].tolist(), strict=True)) for s in case.damping]
    a, b = half.arms
    f, r, h = half.front, half.rear, half.frame.height
    loads = (f.static_load, r.static_load)

    def axle(x: Any, u: float, v: float, at: int) -> float:
        spring = max(x.spring * u + x.preload, 0.0) - x.preload + x.gas * u
        stop = x.stop_rate * (max(u - x.bump, 0.0) - max(-u - x.droop, 0.0))
        side, speed, sign = (hinges[at], v, 1.0) if v > 0 else (hinges[at + 1], -v, -1.0)
        return spring + stop + sign * sum(g * (speed - k) for k, g in side if speed > k)

    def rhs(t: float, y: np.ndarray) -> list[float]:
        z, th, zf, zr, vz, vt, vf, vr = y.tolist()
        at = t / half_step
        i = min(int(at), last)
        w = at - i
        roadf, roadr, wantf, wantr = (p * (1 - w) + q * w for p, q in zip(grid[i], grid[i + 1], strict=True))
        nf = max(loads[0] + f.tyre * (roadf - zf), 0.0)
        nr = max(loads[1] + r.tyre * (roadr - zr), 0.0)
        xf, xr = min(wantf, grip * nf), min(wantr, grip * nr)
        front = axle(f, zf - z - a * th, vf - vz - a * vt, 0) + f.slope * xf
        rear = axle(r, zr - z + b * th, vr - vz + b * vt, 2) + r.slope * xr
        return [vz, vt, vf, vr, (front + rear) / half.sprung,
                (a * front - b * rear + h * (xf + xr)) / half.pitch_inertia,
                (nf - loads[0] - front) / f.unsprung, (nr - loads[1] - rear) / r.unsprung]  # fmt: skip

    return rhs


def _timed(call: Callable[[], Any]) -> tuple[float, Any]:
    start = time.process_time()
    out = call()
    return time.process_time() - start, out


def _errors(case: Case, states: np.ndarray, exact: np.ndarray, time_: np.ndarray) -> tuple[float, float]:
    pitch = float(np.max(np.abs(states[1] - exact[1])) / np.ptp(exact[1]))
    ours, true = case.load(states, time_), case.load(exact, time_)
    return pitch, float(np.max(np.abs(ours - true)) / np.ptp(true))


def one_launch(rounds: int = 3) -> list[dict[str, object]]:
    """L1: one run with its motion kept at every step."""
    case = Case(2e-4)
    compiled, plain = case.compiled(), case.plain()
    run_states(case.half, case.scene, case.damping)
    exact = case.solve(compiled, "DOP853", 1e-11, 1e-13).y
    times: dict[str, list[float]] = {"ours": [], "python": [], "compiled": []}
    found: dict[str, Any] = {}
    for _ in range(rounds):
        for name, call in (
            ("ours", lambda: run_states(case.half, case.scene, case.damping)),
            ("python", lambda: case.solve(plain)),
            ("compiled", lambda: case.solve(compiled)),
        ):
            spent, found[name] = _timed(call)
            times[name].append(spent)
    time_ = found["ours"].time[::EVERY]
    mine = _errors(case, found["ours"].values[0][:, ::EVERY], exact, time_)
    ours = statistics.median(times["ours"])
    out = []
    for name in ("python", "compiled"):
        theirs, err = statistics.median(times[name]), _errors(case, found[name].y, exact, time_)
        out.append(row(
            f"L1: one launch of 3 s, against solve_ivp LSODA, {name} right-hand side", f"{case.scene.steps:,} steps",
            f"{took(ours)}, errors {max(mine):.1e}", f"{took(theirs)}, errors {max(err):.1e}",
            f"{theirs / ours:.0f} × faster",
        ))  # fmt: skip
    return out


def ten_thousand(count: int = 10_000, step: float = 5e-4) -> list[dict[str, object]]:
    """L2: a batch of settings, three figures each; the peer is timed on five of them and reckoned up."""
    batch = Case(step, count)
    run_figures(batch.half, batch.scene, batch.damping.take(range(64)))
    ours, figures = _timed(lambda: run_figures(batch.half, batch.scene, batch.damping))
    worst, spent = 0.0, []
    for at in np.linspace(0, count - 1, 5).astype(int):
        case = Case(1.25e-4, count, int(at))
        rhs = case.compiled()
        used, _ = _timed(lambda case=case, rhs=rhs: case.solve(rhs))  # type: ignore[misc]
        spent.append(used)
        exact = run_figures(case.half, case.scene, case.damping)
        worst = max(worst, *(abs(figures[n][at] / exact[n][0] - 1) for n in FIGURES[:2]))
        load = figures[FIGURES[2]][at] - exact[FIGURES[2]][0]
        worst = max(worst, abs(load) / case.half.rear.static_load)
    theirs = statistics.median(spent) * count
    return [row("L2: settings of a launch, against LSODA, compiled, one by one (reckoned from 5)", count,
                f"{took(ours)}, errors {worst:.0e}", took(theirs), f"{theirs / ours:,.0f} × faster")]  # fmt: skip


def rows() -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    return [*one_launch(), *ten_thousand()]


if __name__ == "__main__":
    from tests.benchmarks.run import table as markdown

    print(markdown(rows()))
