"""Knee search and curve fit against general programs, each by its own public call, in turn with ours.

Truth: a faint and a plain broken line of three knees, noise 8 N, speeds crowded as a sine stroke makes them, unsorted.
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Callable
from statistics import median

import numpy as np

from dynoan.analysis.fitting.choice import choose
from tests.benchmarks.measuring import faster, in_turn, row, share
from tests.oracles.broken_stick import broken_stick

KNEES = np.array([0.06, 0.2, 0.35])


def points(n: int, seed: int = 0, faint: bool = False) -> tuple[np.ndarray, np.ndarray]:
    """Speeds and forces with three knees."""
    rng = np.random.default_rng(seed)
    x = 0.5 * np.abs(np.sin(rng.uniform(0, 2 * np.pi, n)))
    forces = [0, 300, 650, 960, 1300] if faint else [0, 300, 550, 700, 1100]
    return x, np.interp(x, [0, *KNEES, 0.5], forces) + rng.normal(0, 8, n)


def timed(call: Callable[[], object], repeats: int = 5) -> tuple[float, object]:
    """Median seconds of a call, and what it returned."""
    spent, out = [], None
    for _ in range(repeats):
        start = time.perf_counter()
        out = call()
        spent.append(time.perf_counter() - start)
    return median(spent), out


def refit(x: np.ndarray, y: np.ndarray, knees: np.ndarray) -> float:
    """Sum of squares at knees, by lstsq: every program is judged by it."""
    matrix = np.column_stack([np.ones_like(x), x, *(np.maximum(x - k, 0) for k in knees)])
    return float(np.sum((y - matrix @ np.linalg.lstsq(matrix, y, rcond=None)[0]) ** 2))


def evolved(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Knees by differential evolution (pwlf)."""
    import pwlf

    return np.asarray(pwlf.PiecewiseLinFit(x, y, seed=1).fit(4)[1:-1])


def fast(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Knees by pwlf's multi-start search."""
    import pwlf

    return np.asarray(pwlf.PiecewiseLinFit(x, y, seed=1).fitfast(4)[1:-1])


def one_start(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Knees by scipy's least squares from one start."""
    from scipy.optimize import least_squares

    def rest(p: np.ndarray) -> np.ndarray:
        return p[0] + p[1] * x + sum(p[5 + i] * np.maximum(x - p[2 + i], 0) for i in range(3)) - y

    start = np.array([0.0, (y.max() - y.min()) / np.ptp(x), *np.quantile(x, [0.25, 0.5, 0.75]), 0, 0, 0])
    return np.sort(least_squares(rest, start, method="lm").x[2:5])


def muggeo(x: np.ndarray, y: np.ndarray) -> np.ndarray | None:
    """Knees by piecewise-regression, or None where it does not converge."""
    import piecewise_regression

    np.random.seed(0)
    found = piecewise_regression.Fit(x, y, n_breakpoints=3, n_boot=10).get_results()
    if not found["converged"]:
        return None
    return np.sort([found["estimates"][f"breakpoint{i}"]["estimate"] for i in (1, 2, 3)])


def against(n: int, name: str, peer: Callable[..., object], label: str) -> dict[str, object]:
    """One row: our fit and a peer's on the same points, in turn."""
    x, y = points(n)
    broken_stick(x, y, 3)
    ours, mine = timed(lambda: broken_stick(x, y, 3))
    theirs, other = timed(lambda: peer(x, y), 1 if n > 2000 else 3)
    low = refit(x, y, mine.knees)  # type: ignore[attr-defined]
    excess = "failed" if other is None else f"{low / refit(x, y, np.asarray(other)) - 1:+.0e}"
    return faster(f"{label}: fit, 3 knees, against {name}", n, (ours, theirs), f"SSE {excess} of theirs")


def choice() -> dict[str, object]:
    """F5: 0 to 3 knees and bends, both directions, choice made, against one pwlf fit of one direction."""
    sides = [points(10_000, s) for s in (0, 1)]

    def ours() -> None:
        from dynoan.analysis.fitting.cells import Points, cells_of

        for x, y in sides:
            order = np.argsort(x)
            none = np.zeros(len(x), dtype=np.int64)
            cells = cells_of(Points(x[order], y[order], np.ones(len(x)) / 64, none, none))
            choose(cells.speed, cells.force, cells.weight)

    ours()
    spent, _ = timed(ours)
    peer, _ = timed(lambda: evolved(*points(20_000)), 1)
    return faster("F5: knees and bends chosen, both directions, against one pwlf fit(4) of one", 20_000, (spent, peer))


def cold() -> dict[str, object]:
    """F7: a fresh process that fits one curve, against one that imports numpy."""
    fit = (
        "import numpy as np; from tests.oracles.broken_stick import broken_stick\n"
        "x = 0.5 * np.abs(np.sin(np.arange(20000.0))); broken_stick(x, np.interp(x, [0, .1, .5], [0, 5, 9]), 3)"
    )
    jobs = (lambda c=c: subprocess.run([sys.executable, "-c", c], check=True) for c in (fit, "import numpy"))
    spent = in_turn(*jobs, turns=9)
    return share("F7: a fresh process that fits one curve, against importing numpy", 20_000, spent)


def accuracy(n: int, sets: int = 12) -> dict[str, object]:
    """F4: sum of squares against the best peer over several data sets."""
    excess = []
    for seed in range(sets):
        x, y = points(n, seed, faint=bool(seed % 2))
        other = [refit(x, y, k) for k in (fast(x, y), one_start(x, y))]
        excess.append(refit(x, y, broken_stick(x, y, 3).knees) / min(other) - 1)
    return row("F4: SSE over the best of pwlf fitfast and one-start least_squares", f"{sets} sets of {n:,}",
               f"worst {max(excess):+.1e}", "0", f"median {median(excess):+.1e}")  # fmt: skip


def rows() -> list[dict[str, object]]:
    """All rows of the knee search."""
    return [
        against(20_000, "pwlf fit", evolved, "F1"), against(20_000, "pwlf fitfast", fast, "F2"),
        against(20_000, "one-start least_squares", one_start, "F2"), against(200, "pwlf fit", evolved, "F3"),
        against(200, "pwlf fitfast", fast, "F3"), against(200, "piecewise-regression", muggeo, "F3"),
        accuracy(200), accuracy(2_000), choice(), cold(),
    ]  # fmt: skip


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows()))
