"""Compares what was read with what must be: nothing for right, else what differs."""

from __future__ import annotations

import math
from typing import Any

from dynoan.errors import DynoanError
from dynoan.jobs.read import SweepRead
from dynoan.reading import read_bytes
from tests.importers.strangers.making import File


def verdict(made: File) -> tuple[str, list[str]]:
    """Return ``right``, ``refused`` with the reason, ``warned`` or ``silent`` with what differs."""
    try:
        sweeps = [SweepRead.of(s).to_dict() for s in read_bytes(made.data, made.name)]
    except DynoanError as error:
        return "refused", [str(error)]
    if len(sweeps) != len(made.sweeps):
        wrong = [f"{len(sweeps)} sweeps instead of {len(made.sweeps)}"]
    else:
        wrong = [w for got, want in zip(sweeps, made.sweeps, strict=True) for w in _differences(got, want)]
    said = [w for s in sweeps for w in s["warnings"]]
    return ("warned" if said else "silent", wrong + said) if wrong else ("right", [])


def _differences(got: dict[str, Any], want: dict[str, Any]) -> list[str]:
    wrong = []
    for key, value in want.items():
        if key in ("comp", "reb"):
            wrong += _peak(
                got["compression" if key == "comp" else "rebound"], value, key, "velocity" in got["channels"]
            )
        elif key == "must_warn":
            wrong += [] if any(value in w for w in got["warnings"]) else [f"no warning of {value}"]
        elif value is None and key in ("samples", "rate_hz"):
            continue
        elif not _alike(got[key], value):
            wrong.append(f"{key} {got[key]} instead of {value}")
    return wrong


def _peak(got: dict[str, Any], want: tuple[float, float] | None, key: str, recorded: bool) -> list[str]:
    if want is None:
        return [f"{key} {got}"] if got["peak_force_n"] else []
    if got["peak_force_n"] is None:
        return [f"no {key}"]
    speed, force = want
    far = abs(got["peak_force_n"] - force) > 0.003 * force + 0.6
    slow = abs(got["peak_velocity_m_s"] - speed) > (0.005 if recorded else 0.03) * speed + 1e-3
    return [f"{key} {got} instead of {speed:.4f} m/s {force:.1f} N"] if far or slow else []


def _alike(got: Any, want: Any) -> bool:
    if isinstance(want, float) and isinstance(got, float | int):
        return math.isclose(got, want, rel_tol=5e-3)
    return bool(got == want)
