"""What a stranger's files are made with: a damper known by a formula, its strokes, what must be read from them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
IN, LBF, KGF = 0.0254, 4.4482216152605, 9.80665
SPEEDS = np.array([0.025, 0.05, 0.1, 0.15, 0.2, 0.3])  #: of the peak tables [m/s]


class File(NamedTuple):
    """A file and what each of its sweeps must be read as."""

    name: str
    data: bytes
    sweeps: tuple[dict[str, Any], ...]


class Stroke(NamedTuple):
    """A record in SI, compression positive."""

    t: Floats
    x: Floats
    v: Floats
    f: Floats


def damping(v: Floats, c: float = 6, r: float = 8) -> Floats:
    """Return the damping force [N] at signed speeds [m/s], clicks from closed."""
    knee = 1 - np.exp(-np.abs(v) / 0.06)
    return np.where(v >= 0, (1.3 - 0.03 * c) * (1500 * v + 260 * knee), -(1.3 - 0.03 * r) * (-2400 * v + 420 * knee))


def stroke(
    hz: float = 1.6, half: float = 0.025, *, c: float = 6, r: float = 8, rate: float = 400, seconds: float = 2.5
) -> Stroke:
    """Return strokes of a sine with gas force and a little friction."""
    t = np.arange(round(seconds * rate)) / rate
    w = 2 * np.pi * hz
    return moved(t, half * np.sin(w * t), half * w * np.cos(w * t), c, r)


def moved(t: Floats, x: Floats, v: Floats, c: float = 6, r: float = 8) -> Stroke:
    """Return what the damper answers to a motion."""
    return Stroke(t, x, v, damping(v, c, r) + 160 + 1500 * x + 8 * np.tanh(v / 0.004))


def trace(s: Stroke, rate: float | None = 400, **more: Any) -> dict[str, Any]:
    """Return what a record must be read as."""
    peak = {"comp": (s.v.max(), s.f.max()), "reb": (-s.v.min(), -s.f.min())}
    return {"layout": "trace", "samples": len(s.t), "rate_hz": rate, **peak, **more}


def peaks(c: float = 6, r: float = 8, speeds: Floats = SPEEDS, **more: Any) -> dict[str, Any]:
    """Return what a peak table must be read as."""
    top = float(speeds.max())
    forces = (float(damping(speeds, c, r).max()), float(-damping(-speeds, c, r).min()))
    return {"layout": "peaks", "comp": (top, forces[0]), "reb": (top, forces[1]), **more}


def rows(
    columns: Sequence[Iterable[float]], digits: Sequence[int] | int = 3, sep: str = ",", decimal: str = "."
) -> list[str]:
    """Return lines of numbers."""
    places = [digits] * len(columns) if isinstance(digits, int) else digits
    return [
        sep.join(f"{value:.{n}f}".replace(".", decimal) for value, n in zip(row, places, strict=True))
        for row in zip(*columns, strict=True)
    ]


def file(name: str, lines: Sequence[str], *sweeps: dict[str, Any], eol: str = "\n", encoding: str = "utf-8") -> File:
    """Return a file of lines."""
    return File(name, (eol.join(lines) + eol).encode(encoding), sweeps)


def both(c: float = 6, r: float = 8, unit: float = 1.0) -> tuple[Floats, Floats]:
    """Return the forces of both directions at the table's speeds, both positive."""
    return damping(SPEEDS, c, r) / unit, -damping(-SPEEDS, c, r) / unit
