"""Made launches as learning takes them: the car's file, the dyno's curves, the logs."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.learning.fitting import LearnScene
from dynoan.analysis.learning.logged import LoggedLaunch, logged_launch
from dynoan.analysis.learning.values import UncertainValue, uncertain_values
from dynoan.library.car_file import car_from_text
from dynoan.model.curve import Curve
from dynoan.model.side import Side
from tests.worlds.track import launches as world

SPEEDS = np.concatenate([[0.0], np.geomspace(0.005, 1.0, 60)])
GRIP = "surfaces.loose.grip"


def curve(axle: int) -> Curve:
    """The dyno's curve of a shock of an axle."""
    sides = (world.dyno_force(axle, SPEEDS), -world.dyno_force(axle, -SPEEDS))
    return Curve(*(Side((), (), SPEEDS, f, f, 1.0, forces=f) for f in sides), gas_force=180.0)


def _text(key: str, factor: float, unit: str) -> str:
    value, half = world.FILE[key]
    return f'{key.rpartition(".")[2]} = "{value * factor:g} ± {half * factor:g} {unit}"\n'


def car_text() -> str:
    """The car's file, every ± stated."""
    text = 'wheelbase = "2430 mm"\ndriven = "rear"\n'
    text += _text("cg_height", 1e3, "mm") + _text("antisquat", 100, "%") + _text("pitch_inertia", 1, "kg m2")
    for i, axle in ((0, "front"), (2, "rear")):
        text += f'[{axle}]\nunsprung = "{world.UNSPRUNG[i]} kg"\nspring_ratio = {world.SPRING_RATIO[i]}\n'
        text += _text(f"{axle}.spring", 1e-3, "N/mm") + _text(f"{axle}.tyre", 1e-3, "N/mm")
        text += _text(f"{axle}.shock_ratio", 1.0, "")
        text += f'bump_travel = "{1e3 * world.BUMP[i]} mm"\ndroop_travel = "{1e3 * world.DROOP[i]} mm"\n'
    text += "".join(f'[{c}]\nmass = "{m} ± 8 kg"\n' for c, m in zip(world.CORNERS, world.MASSES, strict=True))
    return text + "[surfaces.loose]\n" + _text("grip", 1.0, "")


def scene() -> LearnScene:
    """What the team knows before."""
    car = car_from_text(car_text(), "kestrel.toml")
    surface = car.surfaces["loose"]
    curves = {c: curve(int(c[0] == "r")) for c in world.CORNERS}
    return LearnScene(car, curves, uncertain_values(car, surface), surface)


def ready(weekend: world.Weekend) -> list[LoggedLaunch]:
    """The launches of a weekend, seen a fifth of a second late."""
    out = []
    for n, log in enumerate(weekend.launches):
        columns = {c: log.columns[c] for c in ("acceleration", "speed") if c in log.columns}
        alone = set()
        for axle, corners in (("front", ("fl", "fr")), ("rear", ("rl", "rr"))):
            if have := [log.columns[c] for c in corners if c in log.columns]:
                columns[axle] = np.mean(have, axis=0)
                alone |= {axle} if len(have) == 1 else set()
        out.append(logged_launch(f"run {n + 1}", log.columns["time"], columns, log.start + 0.2,
                                 one_sided=frozenset(alone)))  # fmt: skip
    return out


def truth(weekend: world.Weekend, value: UncertainValue) -> float:
    """What a value truly is."""
    return weekend.values["grip" if value.key == GRIP else value.key]
