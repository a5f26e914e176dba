"""``dynoan.read`` and ``dynoan.fit``: from a file to sweeps, and from sweeps to a curve that can be drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Unpack

from dynoan.errors import CallError, ReadError
from dynoan.model.curve import Curve
from dynoan.model.sweep import Sweep
from dynoan.units import Shown, brief

if TYPE_CHECKING:
    from dynoan.jobs.read.options import Stated
    from dynoan.model.importing import ReadOptions


def read(path: Path | str, options: ReadOptions | None = None, **stated: Unpack[Stated]) -> tuple[Sweep, ...]:
    """Return the sweeps in a rig's file.

    Parameters
    ----------
    path
        The file.
    options
        What you state (`dynoan.model.importing.ReadOptions`); it wins over what the file says.
    **stated
        The same by name, as an error advises: ``units`` and ``columns`` by channel ({"force": "lbf"}), ``rate``,
        ``positive``, ``clicks``, ``shock``, ``pack``, ``delimiter``, ``decimal``, ``dates``.

    Raises
    ------
    CallError, QuantityError
        If a stated value cannot be, or `options` are given beside it.
    ReadError
        If the file cannot be understood; the text names file, place and which option would help.
    OSError
        If the file cannot be opened.

    Examples
    --------
    >>> [sweep.shock for sweep in dynoan.read("demo/dyno/RL-03_gravel_lsc10_hsc10_lsr10_hsr10.csv")]
    ['RL-03']
    >>> dynoan.read("demo/unlabelled.csv", shock="FL-01", units={"force": "lbf"})[0].shock
    'FL-01'
    """
    from dynoan.interface.speaking import spoken
    from dynoan.jobs.read.options import read_options
    from dynoan.reading import read as read_file

    if stated and options is not None:
        raise CallError("options and what is stated by name are two ways to say one thing", hint="give one of them")
    try:
        return read_file(path, read_options(stated) if stated else options)
    except ReadError as error:
        raise error.again(told=lambda text: spoken(text, "metric")) from None


def fit(sweeps: Sweep | Sequence[Sweep], *, units: Shown = "metric") -> Curve:
    """Return the damping curve of one setting, gas, friction and lag taken out.

    Parameters
    ----------
    sweeps
        A sweep, or several of the same setting, which are pooled.
    units
        What people are shown, "metric" or "us": in words, notebook and picture. The figures are SI whatever it says.

    Returns
    -------
    Curve
        ``curve(v)`` and ``curve.band(v)`` are damping alone at signed velocities, compression positive [N]; beside them
        ``friction``, ``gas_force`` [N], ``findings`` and ``warnings``.

    Raises
    ------
    FitError
        If the data carry no curve: too few samples, no motion, a stuck channel.
    CallError
        If there are no such units.

    Examples
    --------
    >>> sweeps = dynoan.read("demo/unlabelled.csv")
    >>> curve = dynoan.fit(sweeps)
    >>> bool(curve(0.25) > 0 > curve(-0.25))
    True
    >>> "lbf" in repr(dynoan.fit(sweeps, units="us"))
    True
    """
    from dynoan.analysis.fitting.fit import fit as fit_sweeps
    from dynoan.show.text.restated import restated

    if units not in ("metric", "us"):
        raise CallError(f"units: '{brief(units)}' are none", hint='give "metric" or "us"')
    draw_with_pictures()
    curve = fit_sweeps(sweeps)
    findings, warnings = (tuple(restated(text, units) for text in told) for told in (curve.findings, curve.warnings))
    return replace(curve, units=units, findings=findings, warnings=warnings)


def draw_with_pictures() -> None:
    """Let every curve be drawn by ``curve.plot()``."""
    Curve.drawer = _draw


def _draw(ax: Any, curve: Curve) -> Any:
    from dynoan.show.plots.force_over_velocity import draw_curve

    return draw_curve(ax, curve, curve.units)
