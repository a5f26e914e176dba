"""The figures of a launch, each declared once: terminal, JSON, frames and pages are made from these lists."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from dynoan.jobs.measures import Measure
from dynoan.model.banded import Banded

Figures = Mapping[str, float]  #: by key, SI; NaN where the run cannot tell

#: how a figure is shown, by the end of its key
_ENDS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("distance_m", {"kind": "far"}), ("speed_end_m_s", {"kind": "speed"}), ("_rad_s", {"kind": "rotation"}),
    ("_m_s2", {"kind": "acceleration"}), ("_m_s", {"kind": "velocity"}), ("_rad", {"kind": "angle"}),
    ("_pct", {"unit": "%", "digits": 1}), ("_m", {"kind": "length"}), ("_n", {"kind": "force"}), ("_s", {"unit": "s"}),
)  # fmt: skip


def _figure(key: str, words: str, *, always: bool = False) -> Measure[Figures]:
    return Measure(key, words, _of(key), terminal="always" if always else "more", **_shown_as(key))


def _shown_as(key: str) -> dict[str, Any]:
    for end, how in _ENDS:
        if key.endswith(end):
            return how
    ends = ", ".join(end for end, _ in _ENDS)
    raise ValueError(f"the launch figure '{key}' says no unit that is known: end it in {ends}, or add its end to _ENDS")


def _of(key: str) -> Callable[[Figures], float | Banded | str | None]:
    return lambda figures: figures.get(key)


#: what a launch is asked for: shown beside another one also where the two are the same
ASKED_FOR = ("level_nose_rise_m", "level_nose_rise_rate_m_s", "level_rear_squat_m", "wheelspin_s", "distance_m")
#: the figures of a run; a new one is computed in `analysis.launch.metrics` and gets a line here
FIGURES: tuple[Measure[Figures], ...] = (
    _figure("level_nose_rise_m", "nose: highest rise, level road", always=True),
    _figure("level_nose_rise_rate_m_s", "nose: fastest rise, level road", always=True),
    _figure("level_rear_squat_m", "rear: deepest squat, level road", always=True),
    _figure("level_rear_lift_m", "rear: highest lift, level road", always=True),
    _figure("level_pitch_peak_rad", "pitch: most nose up, level road", always=True),
    _figure("level_steady_after_s", "pitch: settled after, level road", always=True),
    _figure("driven_load_least_n", "driven tyres: least load", always=True),
    _figure("driven_load_dip_n", "driven tyres: deepest dip below steady load", always=True),
    _figure("driven_load_rms_n", "driven tyres: unsteadiness, ± about steady load", always=True),
    _figure("driven_left_load_end_n", "driven tyres: load of the left one at the end", always=True),
    _figure("driven_right_load_end_n", "driven tyres: load of the right one at the end", always=True),
    _figure("goes_over_s", "goes over after", always=True),
    _figure("front_wheel_height_m", "front wheels: highest off the ground", always=True),
    _figure("wheelspin_s", "driven wheels: time spinning", always=True),
    _figure("wheelie_bar_n", "wheelie bar: most load", always=True),
    _figure("front_wheel_lift_s", "front tyres: time without load", always=True),
    _figure("rear_wheel_lift_s", "rear tyres: time without load", always=True),
    _figure("front_on_droop_stop_s", "front shocks: time on the droop stops", always=True),
    _figure("rear_on_bump_stop_s", "rear shocks: time on the bump stops", always=True),
    _figure("front_shock_compression_peak_m_s", "front shocks: fastest compression", always=True),
    _figure("front_shock_rebound_peak_m_s", "front shocks: fastest rebound", always=True),
    _figure("rear_shock_compression_peak_m_s", "rear shocks: fastest compression", always=True),
    _figure("rear_shock_rebound_peak_m_s", "rear shocks: fastest rebound", always=True),
    _figure("acceleration_end_m_s2", "acceleration at the end", always=True),
    _figure("speed_end_m_s", "speed at the end", always=True),
    _figure("distance_m", "distance covered", always=True),
    _figure("nose_rise_m", "nose: highest rise"),
    _figure("nose_rise_rate_m_s", "nose: fastest rise"),
    _figure("nose_rise_end_m", "nose: rise at the end (mean of the last tenth)"),
    _figure("rear_squat_m", "rear: deepest squat"),
    _figure("rear_lift_m", "rear: highest lift"),
    _figure("pitch_peak_rad", "pitch: most nose up"),
    _figure("pitch_end_rad", "pitch: at the end"),
    _figure("pitch_rate_peak_rad_s", "pitch: fastest"),
    _figure("level_pitch_rate_peak_rad_s", "pitch: fastest, level road"),
    _figure("steady_after_s", "pitch: settled after (within 5 % of its end)"),
    _figure("front_load_end_n", "front tyres: load at the end"),
    _figure("rear_load_end_n", "rear tyres: load at the end"),
    _figure("load_transfer_end_n", "load moved to the rear at the end"),
    _figure("driven_load_dip_pct", "driven tyres: that dip, of the load at rest"),
    _figure("driven_load_rms_roads_n", "driven tyres: what the choice of road leaves open of that, ±"),
    _figure("shaft_moves_n", "driven tyres: most the driveshaft moves from one to the other"),
    _figure("drive_force_mean_n", "drive force: mean"),
    _figure("grip_limited_s", "time the grip limits the drive"),
    _figure("beyond_grip_s", "time the given acceleration asks more than the grip"),
    _figure("front_on_bump_stop_s", "front shocks: time on the bump stops"),
    _figure("rear_on_droop_stop_s", "rear shocks: time on the droop stops"),
    _figure("front_shock_rms_m_s", "front shocks: usual speed (rms)"),
    _figure("rear_shock_rms_m_s", "rear shocks: usual speed (rms)"),
    _figure("front_beyond_tested_s", "front shocks: time faster than any test"),
    _figure("rear_beyond_tested_s", "rear shocks: time faster than any test"),
    _figure("ride_felt_m_s2", "shaking of the body as people feel it (ISO 2631-1 Wk)"),
    _figure("energy_miss_pct", "energy that does not add up (a check of the reckoning)"),
)
#: what only a search reckons, besides figures of a run
SEARCHED: tuple[Measure[Figures], ...] = (
    _figure("level_body_lift_m", "body: highest rise over either axle, level road"),
)
BY_KEY: Mapping[str, Measure[Figures]] = {m.key: m for m in (*FIGURES, *SEARCHED)}
#: what decides between settings: the figure to make small, and its name where settings are judged
DECIDING = {"driven_load_rms_n": "Steadiest driven tyres", "level_nose_rise_rate_m_s": "Slowest nose rise",
            "wheelspin_s": "Least wheelspin"}  # fmt: skip


def deciding(found: Sequence[Figures]) -> tuple[tuple[str, str], ...]:
    """Return what decides between runs, key and name; wheelspin only where some wheel spins."""
    return tuple(
        (key, words)
        for key, words in DECIDING.items()
        if key != "wheelspin_s" or any(of.get(key, 0.0) > 0 for of in found)
    )
