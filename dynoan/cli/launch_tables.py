"""The figures of launches as a table for people and as JSON."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from dynoan.cli.call import Call
from dynoan.units import Shown, shown

if TYPE_CHECKING:
    from dynoan.analysis.launch.compare import LaunchRun
    from dynoan.analysis.launch.model import Half

#: what people see without -v
SHORT = (
    "level_nose_rise_m", "level_nose_rise_rate_m_s", "level_rear_squat_m", "level_rear_lift_m", "level_pitch_peak_rad",
    "level_steady_after_s", "driven_load_least_n", "driven_load_dip_n", "driven_load_rms_n", "front_wheel_lift_s",
    "rear_wheel_lift_s",
    "front_on_droop_stop_s", "rear_on_bump_stop_s", "front_shock_compression_peak_m_s", "front_shock_rebound_peak_m_s",
    "rear_shock_compression_peak_m_s", "rear_shock_rebound_peak_m_s", "acceleration_end_m_s2", "distance_m",
)  # fmt: skip
#: suffix of a figure's name: kind of quantity shown in the people's units, or unit, factor and places
_SUFFIXES: tuple[tuple[str, str | tuple[str, float, int]], ...] = (
    ("_rad_s", ("°/s", 57.29577951308232, 1)), ("_m_s2", ("m/s²", 1.0, 2)), ("_m_s", "velocity"),
    ("_rad", ("°", 57.29577951308232, 2)), ("_pct", ("%", 1.0, 1)), ("distance_m", ("m", 1.0, 2)), ("_m", "length"),
    ("_n", "force"), ("_s", ("s", 1.0, 2)),
)  # fmt: skip
#: what decides between settings: figure to make small, and how it reads
VERDICTS = (("driven_load_rms_n", "Steadiest driven tyres"), ("level_nose_rise_rate_m_s", "Slowest nose rise"))


def figure_text(name: str, value: float, units: Shown, *, unit: bool = True) -> str:
    """Return a figure in the units people see, "–" where the run cannot tell."""
    if value != value:
        return "–"
    if name in ("speed_end_m_s",):
        return f"{value:.2f} m/s" if unit else f"{value:.2f}"
    kind = next(kind for suffix, kind in _SUFFIXES if name.endswith(suffix))
    if isinstance(kind, str):
        return shown(kind, units).text(value, unit=unit)
    name_, factor, places = kind
    body = f"{value * factor:.{places}f}"
    body = body.removeprefix("-") if float(body) == 0 else body
    return f"{body} {name_}" if unit else body


def _unit(name: str, units: Shown) -> str:
    return figure_text(name, 1.0, units).split(" ", 1)[1]


def banded(name: str, run: LaunchRun, units: Shown) -> str:
    """Return a figure with its band, such as "17.3 (16.9 to 17.8)"; without where the band does not show."""
    value, low, high = (figure_text(name, m[name], units, unit=False) for m in (run.metrics, run.low, run.high))
    return value if low == high or "–" in (value, low, high) else f"{value} ({low} to {high})"


def show_runs(call: Call, runs: Sequence[LaunchRun]) -> None:
    """Print the figures of runs side by side, their bands, and which is best where that can be told."""
    if call.json:
        return
    from dynoan.analysis.launch.compare import BAND_COVERS
    from dynoan.analysis.launch.metrics import MEANING
    from dynoan.show.text.tables import table

    units = call.shown_units
    names = [n for n in MEANING if n in runs[0].metrics] if call.verbose else SHORT
    rows = [[f"{MEANING[n]} [{_unit(n, units)}]", *(banded(n, run, units) for run in runs)] for n in names]
    table(["", *(run.label for run in runs)], rows)
    for text in verdicts(runs):
        call.say(text)
    call.say(f"The {BAND_COVERS}.")


def verdicts(runs: Sequence[LaunchRun]) -> list[str]:
    """Return which run is best in what decides, or that the bands cannot tell."""
    if len(runs) < 2:
        return []
    out = []
    for name, what in VERDICTS:
        first, second = sorted(runs, key=lambda r: r.metrics[name])[:2]
        if all(r.metrics[name] == first.metrics[name] for r in runs):
            out.append(f"{what}: no difference.")
        elif first.high[name] < second.low[name]:
            out.append(f"{what}: {first.label}.")
        else:
            out.append(f"{what}: {first.label}, but its band overlaps that of {second.label}: cannot tell for sure.")
    return out


def assumptions(call: Call, halves: Sequence[Half]) -> dict[str, Any]:
    """Say once what was estimated or left out, and the cautions; return both for the JSON."""
    from dynoan.cautions import CAUTIONS

    notes = list(dict.fromkeys(note for half in halves for note in half.notes))
    for note in notes:
        call.say(f"Taken: {note}.")
    call.say(CAUTIONS)
    return {"assumptions": notes, "cautions": CAUTIONS}


def run_json(run: LaunchRun, thin: int) -> dict[str, Any]:
    """Return a run as JSON: figures, their bands, and the trace at every `thin`-th kept time."""
    trace: Mapping[str, Any] = {name: values[::thin] for name, values in run.trace.items()}
    return {"label": run.label, "metrics": dict(run.metrics), "low": dict(run.low), "high": dict(run.high),
            "trace": trace}  # fmt: skip
