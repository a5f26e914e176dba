"""Made launches of a car that is not what its file says, and what loggers wrote of them.

A whole car on four wheels: the body heaves, pitches and rolls on springs that go slack, stops, shocks with friction and
a steep and a flat part; each wheel has its tyre and its own side of a rough road. The drive is what a throttle asks or
the tyres hold, late by the tyres' relaxation, through links whose angle changes with travel; a gear may be changed. The
moment about the sprung mass is written from each mass at its own height. Sensors have scale, zero and drift, noise and
steps. Many launches run side by side; SI, travel positive in compression, angles nose up and left side up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

GRAVITY = 9.80665
STEP = 4e-3  #: of the integration [s]
LENGTH = 3.4  #: of a launch [s]
CORNERS = ("fl", "fr", "rl", "rr")
#: what the team wrote into the car's file: values and the ± beside them; ratios of damping are of the dyno's curves
FILE: Mapping[str, tuple[float, float]] = {
    "cg_height": (0.51, 0.05), "antisquat": (0.45, 0.25), "pitch_inertia": (1250.0, 250.0),
    "front.tyre": (210e3, 25e3), "rear.tyre": (210e3, 25e3), "front.spring": (45e3, 2e3), "rear.spring": (38e3, 2e3),
    "front.shock_ratio": (0.92, 0.02), "rear.shock_ratio": (0.88, 0.02), "grip": (0.65, 0.15),
    "front.damping": (1.0, 0.15), "rear.damping": (1.0, 0.15),
}  # fmt: skip
#: the same of the mean mass of an axle's corners [kg]
WEIGHED: Mapping[str, tuple[float, float]] = {"front.mass": (265.0, 8.0), "rear.mass": (244.0, 8.0)}
WHEELBASE, TRACK, RADIUS = 2.43, 1.45, 0.30
MASSES = (268.0, 262.0, 241.0, 247.0)
UNSPRUNG = (34.0, 34.0, 32.0, 32.0)
SPRING_RATIO = (0.95, 0.95, 0.90, 0.90)
BUMP, DROOP = (0.075, 0.075, 0.080, 0.080), (0.085, 0.085, 0.095, 0.095)
#: the shock's force on the dyno: slopes slow and fast in compression and rebound, and the speed between, front and rear
DYNO = (((1900.0, 3400.0), (1000.0, 1500.0), 0.09), ((1700.0, 3000.0), (900.0, 1400.0), 0.09))


def dyno_force(axle: int, speed):
    """Damping force of one shock of an axle at a shaft speed, as the dyno has it. [N]"""
    slow, fast, knee = DYNO[axle]
    side = np.where(speed > 0, 0, 1)
    steep, flat = np.take(slow, side), np.take(fast, side)
    v = np.abs(speed)
    return np.sign(speed) * (flat * v + (steep - flat) * knee * np.log1p(v / knee))


@dataclass(frozen=True)
class Run:
    """One launch: the ground, the driver, and what is not in any file."""

    grip: float  #: mean over the launch
    wander: np.ndarray  #: of the grip over time, a factor at every 0.2 s
    rise: float  #: of the throttle [s]
    shift: float  #: when a gear is changed; 99 for never [s]
    roughness: float  #: Gd(n0) [m³]
    road: np.random.Generator
    demand: float = 1.6  #: drive force the engine has, over what the tyres hold at rest


@dataclass(frozen=True)
class Logged:
    """What one logger wrote of one launch, and what the car did."""

    columns: Mapping[str, np.ndarray]  #: "time" [s], shocks "fl" … [m], "acceleration" [m/s²], "speed" [m/s]
    true: Mapping[str, np.ndarray]  #: at every step from the start: shocks [m], "acceleration", "pitch"
    start: float  #: when the car leaves the line, on the logger's clock [s]


@dataclass(frozen=True)
class Weekend:
    """A car as it truly is, and its launches."""

    values: Mapping[str, float]  #: as keys of FILE
    launches: tuple[Logged, ...]
    extras: Mapping[str, float] = field(default_factory=dict)


def true_values(random: np.random.Generator, keys: Sequence[str] = tuple(FILE)) -> dict[str, float]:
    """Values that lie about the file's as far as its ± says; a ± is taken as 95 % limits."""
    return {k: v + (random.normal(0.0, half / 1.96) if k in keys else 0.0) for k, (v, half) in FILE.items()}


def true_masses(seed: int, keys: Sequence[str] | None) -> dict[str, float]:
    """Masses that lie about the file's, drawn apart from all else."""
    random = np.random.default_rng([seed, 78])
    return {k: v + (random.normal(0.0, half / 1.96) if keys is None else 0.0) for k, (v, half) in WEIGHED.items()}


def any_run(random: np.random.Generator, grip: float, rough: tuple[float, float] = (1e-5, 2e-4)) -> Run:
    """A launch as they come: a grip that wanders, a throttle, now and then a change of gear."""
    points = int(LENGTH / 0.2) + 2
    wander = np.cumsum(random.normal(0.0, 0.008, points))
    day = random.normal(0.0, 0.02)
    return Run(
        grip * (1 + day), 1 + wander - wander.mean(), random.uniform(0.08, 0.3),
        random.uniform(1.2, 2.4) if random.random() < 0.25 else 99.0,
        float(np.exp(random.uniform(*np.log(rough)))), np.random.default_rng(random.integers(2**32)),
    )  # fmt: skip


def _road(run: Run) -> np.ndarray:
    """Heights under the left and the right wheels every 2 cm from behind the rear wheels on, shape (2, n). [m]"""
    place = np.arange(0.0, 90.0, 0.02)
    n = np.geomspace(0.03, 4.0, 220)
    width = np.gradient(n)
    size = np.sqrt(2 * run.roughness * (n / 0.1) ** -2.0 * width)
    patch = np.sinc(n * 0.12)  # the tyre's patch evens out short waves
    common = np.exp(-n * TRACK * 1.2)  # long waves lift both sides
    both, own = run.road.uniform(0, 2 * np.pi, len(n)), run.road.uniform(0, 2 * np.pi, (2, len(n)))
    wave = 2 * np.pi * np.outer(place, n)
    shared = np.cos(wave + both) @ (size * patch * np.sqrt(common))
    return np.stack([shared + np.cos(wave + o) @ (size * patch * np.sqrt(1 - common)) for o in own])


class _Car:
    """The right-hand side for launches side by side; arrays of shape (4, m) are corners by launches."""

    def __init__(
        self,
        values: Sequence[Mapping[str, float]],
        extras: Sequence[Mapping[str, float]],
        runs: Sequence[Run],
        force=None,
    ):
        self.dyno = force or dyno_force
        usual = {key: value for key, (value, _) in WEIGHED.items()}
        get = lambda key: np.array([(usual | v)[key] for v in values])  # noqa: E731
        self.runs = runs
        per = lambda key: np.stack([get(f"front.{key}")] * 2 + [get(f"rear.{key}")] * 2)  # noqa: E731
        means = np.array([WEIGHED[f"{axle}.mass"][0] for axle in ("front", "front", "rear", "rear")])[:, None]
        mass, unsprung = np.array(MASSES)[:, None] / means * per("mass"), np.array(UNSPRUNG)[:, None]
        self.mass, self.unsprung, sprung = mass.sum(axis=0), unsprung, mass - unsprung
        self.body = sprung.sum(axis=0)
        front = sprung[:2].sum(axis=0) / self.body
        a, b = WHEELBASE * (1 - front), WHEELBASE * front
        self.arm = np.stack([a, a, -b, -b])
        self.side = np.array([1, -1, 1, -1])[:, None] * TRACK / 2
        self.inertia, self.roll = get("pitch_inertia"), 0.28 * self.body
        self.height = (self.mass * get("cg_height") - unsprung.sum() * RADIUS) / self.body  # of the sprung mass
        self.ratio, self.tyre, self.damp = per("shock_ratio"), per("tyre"), per("damping")
        self.spring = per("spring") * np.array(SPRING_RATIO)[:, None] ** 2
        self.preload = sprung * GRAVITY - 180.0 * self.ratio
        self.static = mass * GRAVITY
        self.friction = np.array([[e["friction"]] * 4 for e in extras]).T * self.ratio
        self.tyre_damping = np.array([e["tyre_damping"] for e in extras])
        self.slope = get("antisquat") * get("cg_height") / WHEELBASE
        self.bend = np.array([e["antisquat_bend"] for e in extras])
        self.drag = np.array([e["drag"] for e in extras])
        self.roads = np.stack([_road(r) for r in runs])  # (m, 2, n)
        self.at = np.arange(len(runs))
        self.limits = np.array([BUMP, DROOP])[:, :, None]
        self.asked = np.array([r.demand * r.grip for r in runs]) * self.static[2:].sum(axis=0)
        self.rise, self.shift = (np.array([getattr(r, k) for r in runs]) for k in ("rise", "shift"))
        self.grips = np.stack([r.grip * r.wander for r in runs])

    def ground(self, x):
        """Heights under the wheels, above where each stood, and slopes there."""
        out, steep = np.empty((4, len(self.at))), np.empty((4, len(self.at)))
        for i in range(4):
            lead = 0.0 if i >= 2 else WHEELBASE
            place = np.clip((x + lead + 1.0) / 0.02, 0, self.roads.shape[2] - 2.001)
            k = place.astype(int)
            low, high = self.roads[self.at, i % 2, k], self.roads[self.at, i % 2, k + 1]
            stood = self.roads[:, i % 2, round((lead + 1.0) / 0.02)]
            out[i], steep[i] = low + (place - k) * (high - low) - stood, (high - low) / 0.02
        return out, steep

    def rates(self, t, y):
        """State: heave, pitch, roll, 4 wheels; their rates; place, speed, drive force at the rear."""
        q, v = y[:7], y[7:14]
        place, speed, drive = y[14], y[15], y[16]
        body = q[0] + self.arm * q[1] + self.side * q[2]
        rate = v[0] + self.arm * v[1] + self.side * v[2]
        u, du = q[3:] - body, v[3:] - rate
        road, steep = self.ground(place)
        squash = self.static + self.tyre * (road - q[3:])
        load = np.where(squash > 0, np.maximum(squash + self.tyre_damping * (steep * speed - v[3:]), 0), 0.0)
        spring = np.maximum(self.preload + self.spring * u, 0.0) - self.preload
        spring = spring + 300e3 * (np.maximum(u - self.limits[0], 0) - np.maximum(-u - self.limits[1], 0))
        shaft = self.ratio * du
        damper = np.concatenate([self.dyno(0, shaft[:2]), self.dyno(1, shaft[2:])])
        force = spring + self.ratio * damper * self.damp + self.friction * np.tanh(du / 0.006)
        link = np.zeros_like(force)
        # the links lead the wheel along a line fixed to the body, which has pitched: against the ground it is steeper
        link[2:] = (self.slope * (1 + self.bend * u[2:]) + q[1]) * drive / 2
        push = force + link
        acceleration = (drive - self.drag * speed**2) / self.mass
        out = np.empty_like(y)
        out[:7] = v
        out[7] = push.sum(axis=0) / self.body
        high = self.height + q[0]
        turning = high * drive - (high - RADIUS) * self.unsprung.sum() * acceleration
        turning = turning + self.body * GRAVITY * (self.height - RADIUS) * q[1]  # leaning back over its wheels
        out[8] = ((self.arm * push).sum(axis=0) + turning) / self.inertia
        out[9] = (self.side * push).sum(axis=0) / self.roll
        out[10:14] = (load - self.static - push) / self.unsprung
        out[14], out[15] = speed, acceleration
        grip = self.grips[:, min(int(t / 0.2), self.grips.shape[1] - 2)]
        following = self.grips[:, min(int(t / 0.2) + 1, self.grips.shape[1] - 1)]
        held = (grip + (t / 0.2 % 1) * (following - grip)) * load[2:].sum(axis=0)
        gap = np.clip(1 - np.minimum(np.abs(t - self.shift - 0.08) / 0.08, 1) * 1.0, 0, 1)
        wanted = np.minimum(self.asked * np.clip(t / self.rise, 0, 1) * (1 - gap), held)
        out[16] = (wanted - drive) / 0.03
        return out, u, acceleration


def driven(values, extras, runs, force=None) -> list[dict[str, np.ndarray]]:
    """What each launch truly does at every step: travel of each shock, acceleration, speed, pitch; from the start on.

    `force` is the shock's on the dyno, of axle and shaft speed, in the place of this module's own.
    """
    car, count = _Car(values, extras, runs, force), len(runs)
    y = np.zeros((17, count))
    kept = {name: [] for name in (*CORNERS, "acceleration", "speed", "pitch")}
    for n in range(round(LENGTH / STEP) + 1):
        t = n * STEP
        k1, u, acceleration = car.rates(t, y)
        for i, corner in enumerate(CORNERS):
            kept[corner].append(u[i] * car.ratio[i])
        for name, value in (("acceleration", acceleration), ("speed", y[15]), ("pitch", y[1])):
            kept[name].append(value.copy())
        k2 = car.rates(t + STEP / 2, y + STEP / 2 * k1)[0]
        k3 = car.rates(t + STEP / 2, y + STEP / 2 * k2)[0]
        k4 = car.rates(t + STEP, y + STEP * k3)[0]
        y = y + STEP / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
    whole = {name: np.array(rows) for name, rows in kept.items()}
    return [{name: rows[:, i] for name, rows in whole.items()} for i in range(count)]


def logged(random: np.random.Generator, true: Mapping[str, np.ndarray], channels: Sequence[str], gear) -> Logged:
    """What a logger wrote: the same sensors (`gear`) on each launch, zero and drift of the day."""
    rate, wait = gear["rate"], random.uniform(1.2, 2.5)
    t = np.arange(0.0, wait + LENGTH - 0.01, 1 / rate)
    of_launch, at = t - wait, np.arange(len(true["pitch"])) * STEP
    columns = {"time": t}
    for name in channels:
        if name in CORNERS:
            moved = np.interp(of_launch, at, true[name]) * gear["scale"][name]
            walk = np.cumsum(random.normal(0.0, 1e-4 / np.sqrt(rate), len(t)))  # 0.1 mm in a second
            drift = random.normal(0.0, 2e-4) * t / t[-1] + walk
            raw = moved + drift + random.uniform(0.02, 0.08) + random.normal(0.0, gear["noise"], len(t))
            columns[name] = np.round(raw / gear["step"]) * gear["step"]
        elif name == "acceleration":
            pitch = np.interp(of_launch, at, true["pitch"])
            felt = np.interp(of_launch, at, true["acceleration"], left=0.0) * np.cos(pitch) + GRAVITY * np.sin(pitch)
            shaking = random.normal(0.0, gear["shaking"], len(t)) * (0.3 + (of_launch > 0))
            columns[name] = felt * gear["scale"][name] + random.normal(0.0, 0.15) + shaking
        else:
            late = np.interp(of_launch - gear["late"], at, true["speed"])
            columns[name] = np.round((late * gear["scale"][name] + random.normal(0, 0.03, len(t))) / 0.03) * 0.03
    return Logged(columns, true, wait)


def any_gear(random: np.random.Generator) -> dict:
    """Sensors and logger of a team."""
    scale = {c: 1 + random.normal(0.0, 0.01) for c in CORNERS}
    scale |= {"acceleration": 1 + random.normal(0.0, 0.01), "speed": 1 + random.normal(0.0, 0.01)}
    return {
        "rate": float(np.exp(random.uniform(np.log(50), np.log(500)))), "scale": scale,
        "noise": random.uniform(3e-5, 3e-4), "step": float(random.choice([1e-5, 1e-4])),
        "shaking": random.uniform(0.2, 0.8), "late": random.uniform(0.0, 0.08),
    }  # fmt: skip


def any_extras(random: np.random.Generator) -> dict[str, float]:
    """What no file states: friction beyond the dyno's, tyre damping, anti-squat that changes over travel, drag."""
    return {"friction": random.uniform(10.0, 60.0), "tyre_damping": random.uniform(50.0, 250.0),
            "antisquat_bend": random.normal(0.0, 2.0), "drag": random.uniform(0.3, 0.6)}  # fmt: skip


#: what is logged: all, or some
ALL = (*CORNERS, "acceleration", "speed")
SETS = (
    ALL,
    ("fl", "rl"),
    ("fl", "rr", "acceleration"),
    ("rl", "rr", "speed"),
    (*CORNERS,),
    (*CORNERS, "speed"),
    ("acceleration", "speed"),
)


def weekends(
    seeds: Sequence[int], launches: int = 3, channels: Sequence[str] | None = None, **changes
) -> list[Weekend]:
    """Cars of many teams with their launches, run side by side; `channels` None: a set a team.

    `keys` in changes: the values that differ from the file, all and the masses where left out; `rough`: limits of
    the road's roughness; `force`: the shock's.
    """
    cars, extras, runs, gears, randoms = [], [], [], [], []
    for seed in seeds:
        random = np.random.default_rng([seed, 77])
        values, more = true_values(random, changes.get("keys", tuple(FILE))), any_extras(random)
        values |= true_masses(seed, changes.get("keys"))
        randoms.append(random)
        gears.append(any_gear(random))
        for _ in range(launches):
            cars.append(values)
            extras.append(more)
            runs.append(any_run(random, values["grip"], changes.get("rough", (1e-5, 2e-4))))
    true = driven(cars, extras, runs, changes.get("force"))
    out = []
    for i, seed in enumerate(seeds):
        wanted = channels or SETS[seed % len(SETS)]
        mine = true[i * launches : (i + 1) * launches]
        logs = tuple(logged(randoms[i], one, wanted, gears[i]) for one in mine)
        used = float(np.mean([r.grip for r in runs[i * launches : (i + 1) * launches]]))
        out.append(Weekend(cars[i * launches] | {"grip": used}, logs, extras[i * launches]))
    return out


def csv_text(log: Logged) -> str:
    """The log as a file: millimetres, km/h, m/s²."""
    heads = {
        "time": ("Time [s]", 1.0),
        "acceleration": ("Longitudinal acc [m/s2]", 1.0),
        "speed": ("Speed [km/h]", 3.6),
    }
    named = {c: (f"Shock {c.upper()} [mm]", 1e3) for c in CORNERS} | heads
    names = [c for c in ("time", "speed", "acceleration", *CORNERS) if c in log.columns]
    rows = np.column_stack([log.columns[c] * named[c][1] for c in names])
    head = ",".join(named[c][0] for c in names)
    return "# invented, no real car\n" + head + "\n" + "".join(",".join(f"{v:.3f}" for v in r) + "\n" for r in rows)
