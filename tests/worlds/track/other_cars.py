"""Launches of a car that is other than its file, by `whole_car`, and what its loggers wrote; from the physics alone.

Links swing, the body leans back at any angle, scales and spring ratios are a little off as well, grip wanders, the road
is rough, pots have a scale and drift, an accelerometer leans with the body. Some channels are missing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from tests.worlds.track.odd_cars import ODD, Odd, as_car, whole
from tests.worlds.track.whole_car import G, leave

BASES = tuple(o for o in ODD if o.name in ("loose", "front-heavy hatch", "light buggy"))
LASTS = 2.9
#: what a file's value is off by, 95 % limits, as shares; as people measure
OFF = {"height": 0.08, "inertia": 0.2, "grip": 0.2, "spring": 0.05, "tyre": 0.12, "shock": 0.025, "damping": 0.12}


@dataclass(frozen=True)
class Team:
    """A car as its file says, as it truly is, and its logged launches."""

    says: Odd
    true: Odd
    values: dict  #: key of the car's file: true value
    logs: tuple  #: columns by name


def _ends(random, odd, values):
    """Both axles with springs, tyres, motion ratios and shocks as they truly are."""
    out = {}
    for name in ("front", "rear"):
        end, off = getattr(odd, name), {k: np.exp(random.normal(0, v / 1.96)) for k, v in OFF.items()}
        slopes = end.damper
        spring_ratio, shock_ratio = end.ratios[0] * np.exp(random.normal(0, 0.005)), end.ratios[1] * off["shock"]
        out[name] = replace(
            end, mass=end.mass * np.exp(random.normal(0, 0.004)), spring=end.spring * off["spring"],
            tyre=end.tyre * off["tyre"], ratios=(spring_ratio, shock_ratio),
            damper=(slopes[0] * off["damping"], slopes[1] * off["damping"], *slopes[2:]),
            friction=float(np.exp(random.normal(np.log(25.0), 0.5))),
        )  # fmt: skip
        values |= {
            f"{name}.spring": end.spring * off["spring"], f"{name}.tyre": end.tyre * off["tyre"],
            f"{name}.shock_ratio": shock_ratio, f"{name}.damping": off["damping"],
        }  # fmt: skip
    return out


def _road(random, rough, starts):
    place = np.arange(-1.0, 60.0, 0.01)
    n = np.geomspace(0.05, 3.0, 150)
    size = np.sqrt(2 * rough * (n / 0.1) ** -2.0 * np.gradient(n)) * np.sinc(n * 0.1)
    height = np.cos(2 * np.pi * np.outer(place, n) + random.uniform(0, 2 * np.pi, len(n))) @ size
    slope = np.gradient(height, place)

    def under(end, at):
        # the car stands level: the road comes in over the first half metre of each wheel
        share = min(max((at - starts[end]) / 0.5, 0.0), 1.0)
        rising = 2.0 if 0 < share < 1 else 0.0
        h, s = np.interp(at + 1.0, place + 1.0, height), np.interp(at + 1.0, place + 1.0, slope)
        return share * h, share * s + rising * h

    return under


def _launch(random, odd, rough):
    """One launch of the true car: time and the states that loggers see."""
    of = whole(odd)
    knots = np.arange(0.0, LASTS + 0.3, 0.3)
    wander = odd.grip * (1 + random.normal(0, 0.015)) * (1 + np.cumsum(random.normal(0, 0.008, len(knots))))
    rise, most = random.uniform(0.1, 0.3), odd.asked * of.mass
    to_rear = of.centre[0]
    road = _road(random, rough, (of.wheelbase - to_rear, -to_rear))
    drive = lambda t, load, _v: min(most * min(t / rise, 1.0), float(np.interp(t, knots, wander)) * load)  # noqa: E731
    ran = leave(of, drive, LASTS, 0.004, over=False, road=road)
    motion = ran.parts["motion"]
    felt = np.array([motion.rates(t, y)[5:7] for t, y in zip(ran.time, ran.states.T, strict=True)]).T
    pitch = ran.states[2]
    along = felt[0] * np.cos(pitch) + (felt[1] + G) * np.sin(pitch)
    return ran, along


def _logged(random, odd, rough, missing):
    ran, along = _launch(random, odd, rough)
    rate, still = random.uniform(50, 300), random.uniform(2.0, 3.0)
    time = np.arange(0.0, still + LASTS, 1 / rate)
    t = time - still
    drift = random.normal(0, 2e-4, 4)
    columns = {"time": time}
    for i, name in enumerate(("front", "rear")):
        travel = np.interp(t, ran.time, ran.states[3 + i]) * getattr(odd, name).ratios[1]
        pot = travel * (1 + random.normal(0, 0.007)) + drift[i] * np.maximum(t, 0) + random.uniform(0.03, 0.08)
        columns[name] = np.round((pot + 1e-4 * random.standard_normal(len(t))) / 1e-4) * 1e-4
    columns["acceleration"] = (
        np.interp(t, ran.time, along, left=0.0) * (1 + random.normal(0, 0.007)) + 0.1 * random.standard_normal(len(t))
        + random.normal(0, 0.2)
    )  # fmt: skip
    late = random.uniform(0.02, 0.06)
    columns["speed"] = np.interp(t - late, ran.time, ran.states[5], left=0.0) * (1 + random.normal(0, 0.007))
    return still, {k: v for k, v in columns.items() if k not in missing}


def team(seed, launches=3):
    """Return a team whose file is off, and its logs."""
    random = np.random.default_rng(seed)
    base = BASES[seed % len(BASES)]
    says = replace(base, name=f"team {seed}", grip=0.6, asked=9.0)
    values = {}
    ends = _ends(random, says, values)
    draw = {k: float(np.exp(random.normal(0, OFF[k] / 1.96))) for k in ("height", "inertia", "grip")}
    raised = float(np.clip(random.normal(0, 0.01), -0.02, 0.02))
    rods = {k: (axle, (body[0], body[1] + raised)) for k, (axle, body) in says.rods.items()}
    pivot = says.pivot and (says.pivot[0], says.pivot[1] + raised)
    true = replace(
        says, height=says.height * draw["height"], inertia=says.inertia * draw["inertia"],
        grip=says.grip * draw["grip"], rods=rods, pivot=pivot, **ends,
    )  # fmt: skip
    values |= {
        "cg_height": true.height, "pitch_inertia": true.inertia, "links.body": raised, "surfaces.loose.grip": true.grip,
    }  # fmt: skip
    missing = [(), ("acceleration",), ("speed",), ("acceleration", "front")][int(random.integers(4))]
    rough = float(np.exp(random.uniform(np.log(1e-6), np.log(1e-4))))
    return Team(says, true, values, tuple(_logged(random, true, rough, missing) for _ in range(launches)))


def file_of(made):
    """The team's car as the program reads it, ± where the team states them."""
    car = as_car(made.says)
    half = {"cg_height": OFF["height"] * made.says.height, "pitch_inertia": OFF["inertia"] * made.says.inertia}
    half["surfaces.loose.grip"] = OFF["grip"] * made.says.grip
    for name in ("front", "rear"):
        end = getattr(made.says, name)
        half |= {
            f"{name}.spring": OFF["spring"] * end.spring, f"{name}.tyre": OFF["tyre"] * end.tyre,
            f"{name}.shock_ratio": OFF["shock"] * end.ratios[1],
        }  # fmt: skip
    return replace(car, plus_minus=half)
