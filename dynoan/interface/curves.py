"""``dynoan.fit``: from sweeps to a curve that can be drawn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dynoan.model.curve import Curve
from dynoan.model.sweep import Sweep


def fit(sweeps: Sweep | Sequence[Sweep]) -> Curve:
    """Return the damping curve of one setting, gas, friction and lag taken out.

    Parameters
    ----------
    sweeps
        A sweep, or several of the same setting, which are pooled.

    Returns
    -------
    Curve
        ``curve(v)`` and ``curve.band(v)`` are damping alone at signed velocities, compression positive [N]; beside them
        ``friction``, ``gas_force`` [N], ``findings`` and ``warnings``.

    Raises
    ------
    FitError
        If the data carry no curve: too few samples, no motion, a stuck channel.

    Examples
    --------
    >>> sweeps = dynoan.read("demo/unlabelled.csv")
    >>> curve = dynoan.fit(sweeps)
    >>> bool(curve(0.25) > 0 > curve(-0.25))
    True
    """
    from dynoan.analysis.fitting.fit import fit as fit_sweeps

    draw_with_pictures()
    return fit_sweeps(sweeps)


def draw_with_pictures() -> None:
    """Let every curve be drawn by ``curve.plot()``."""
    Curve.drawer = _draw


def _draw(ax: Any, curve: Curve) -> Any:
    from dynoan.show.plots.curve import draw_curve

    return draw_curve(ax, curve)
