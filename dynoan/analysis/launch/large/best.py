"""The best clicks of an axle for an objective a person can name, at large angles, and what they cost."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from dynoan.analysis.launch.assumptions import TIE
from dynoan.analysis.launch.large.search import ClickLab, search
from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.analysis.launch.search import ClickSearch, pareto
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray, IntArray


def best_clicks_large(lab: ClickLab, objective: str, watch: Callable[[float], None] = lambda _: None) -> ClickSearch:
    """Return the settings of an axle that were run, the best of them and the trade-off line.

    Parameters
    ----------
    lab
        The axle's clicks.
    objective
        A key of `OBJECTIVES`. Equally good settings (`TIE`): the one nearest to what is on the car.
    watch
        Told the share done, 0 to 1.

    Raises
    ------
    CallError
        If the objective is unknown.
    """
    if objective not in OBJECTIVES:
        raise CallError(f"'{objective}' is not one of {', '.join(OBJECTIVES)}", part="best")
    wanted = OBJECTIVES[objective]

    def score(figures: Mapping[str, FloatArray], _clicks: IntArray) -> FloatArray:
        return np.asarray(figures[wanted.aim] * (1.0 + figures["goes_over"]) + 1e9 * figures["goes_over"])

    found = search(lab, score, watch=watch)
    rows = np.flatnonzero(found.fine > 0)
    aim, against = (found.figures[key][rows] for key in (wanted.aim, wanted.against))
    good = rows[score(found.figures, found.clicks)[rows] <= aim.min() + TIE * np.ptp(aim)]
    best = found.best
    if len(good):
        away = np.zeros(len(good))
        if found.now is not None:
            away = np.abs(found.clicks[good] - found.clicks[found.now]).sum(axis=1).astype(float)
        best = int(good[np.lexsort((found.figures[wanted.aim][good], away))[0]])
    return ClickSearch(
        objective, lab.clicked.adjusters, found.clicks, found.figures, best, found.now,
        np.asarray(rows[pareto(aim, against)], dtype=int), found.fine > 0, found.possible,
    )  # fmt: skip
