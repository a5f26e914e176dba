"""A second small library of invented data: other adjusters, both ways of counting, peak tables, US units, other cars.

The Kestrel again, in variants its team tried: front shocks with one adjuster per direction, rear shocks with a single
one for both, some counted from soft. The forces are plain formulas written with few digits, so that the files are the
same on every machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

SPEEDS_IN_S = (0.5, 1.0, 2.0, 3.0, 5.0, 7.5, 10.0, 13.0, 16.0, 20.0)
NEWTON_PER_LBF = 4.4482216152605
INCH = 0.0254


@dataclass(frozen=True)
class Test:
    """One peak table to write. Clicks are from closed; `counted` is how the file states them."""

    shock: str
    pack: str
    closed: dict[str, int]
    counted: str
    date: str = "2026-04-18"
    scale: float = 1.0


TESTS = (
    *(Test("FL-11", "gravel", {"c": c, "r": r}, f"C{12 - c} R{r}")
      for c, r in ((2, 2), (2, 10), (10, 2), (10, 10), (6, 6))),
    Test("FR-12", "gravel", {"c": 6, "r": 6}, "C6 R6", scale=1.012),
    *(Test("RL-13", "tarmac", {"cr": n}, f"CR {20 - n}") for n in (0, 9, 18)),
    Test("RR-14", "tarmac", {"cr": 9}, "CR 9", "2025-09-27", 1.004),
    Test("RR-14", "tarmac", {"cr": 9}, "CR 9", scale=0.93),
)  # fmt: skip

SHOCKS = {
    "FL-11": 'rod = "0.55 in"\ngas_pressure = "120 psi"\n[adjusters.c]\nclicks = 12\ncounted = "from soft"\n'
    "[adjusters.r]\nclicks = 12\n",
    "FR-12": 'rod = "0.55 in"\n[adjusters.c]\nclicks = 12\n[adjusters.r]\nclicks = 12\n',
    "RL-13": 'rod = "14 mm"\ncounted = "from soft"\n[adjusters.cr]\nclicks = 20\n',
    "RR-14": 'rod = "14 mm"\n[adjusters.cr]\nclicks = 20\n',
}

FRONT_DRIVEN = """\
# The Kestrel as its team tried it with the drive at the front. Invented, no real car.
wheelbase = "95.7 in"
cg_height = "20.5 in"
driven = "front"
pitch_inertia = "1150 kg m2"
roll_inertia = "310 kg m2"
wheel_radius = "11.8 in"

[front]
unsprung = "75 lb"
spring = "257 lb/in"
spring_ratio = 0.95
shock_ratio = 0.92
tyre = "1200 lb/in"
track = "1480 mm"
bump_travel = "3 in"
droop_travel = "3.3 in"
instant_centre = ["1900 mm behind", "240 mm up"]
pack = "gravel"

[rear]
unsprung = "32 kg"
spring = "38 N/mm"
spring_ratio = 0.90
shock_ratio = 0.88
tyre = "210 N/mm"
track = "1460 mm"
pack = "tarmac"

[fl]
mass = "640 lb"
shock = "FL-11"
clicks = "c=6,r=5"
spring = "271 lb/in"

[fr]
mass = "632 lb"
shock = "FR-12"
clicks = "c=6,r=5"

[rl]
mass = "212 kg"
shock = "RL-13"
clicks = "cr=12"

[rr]
mass = "208 kg"
shock = "RR-14"
clicks = "cr=8"
gas_rate = "0.4 N/mm"

[targets.front]
low_velocity = "2 in/s"
high_velocity = "10 in/s"
compression = { low = 0.40, high = 0.28, weight = 2 }
rebound = { low = 0.60, high = 0.40 }

[targets.rear]
rebound = { curve = [["50 mm/s", 0.6], ["120 mm/s", 0.5], ["250 mm/s", 0.4]] }

[surfaces.wet]
grip = 0.55
roughness = "C"

[surfaces.dry]
grip = 1.0
"""

BARE = """\
# Nothing wanted, all wheels driven, no tyres known. Invented, no real car.
wheelbase = "2430 mm"
cg_height = "510 mm"
driven = "all"
front_drive = "45 %"

[front]
unsprung = "34 kg"
spring = "45 N/mm"
spring_ratio = 0.95
shock_ratio = 0.92
pack = "gravel"
mass = "265 kg"

[rear]
unsprung = "32 kg"
spring = "38 N/mm"
spring_ratio = 0.90
shock_ratio = 0.88
pack = "tarmac"
mass = "244 kg"

[fl]
shock = "FL-11"
clicks = "c=4,r=6"

[fr]
shock = "FR-12"
clicks = "c=8,r=6"

[rl]
shock = "RL-13"
clicks = "cr=10"

[rr]
shock = "RR-14"
clicks = "cr=10"
"""
LAYOUT = """\
# How the team's oldest rig names its columns.
header = ["Clk", "Pos", "Ld"]
positive = "rebound"
delimiter = ";"
decimal = ","

[columns]
time = "Clk"
displacement = "Pos"
force = "Ld"

[units]
time = "ms"
displacement = "mm"
force = "lbf"
"""
_SWAPPED = ('spring = "38 N/mm"', 'spring = "46 N/mm"'), ('cg_height = "510 mm"', 'cg_height = "480 mm"')


def build(folder: Path) -> Path:
    """Write the library's text files and the rig's files beside them; return the files to add."""
    stiff = BARE
    for old, new in _SWAPPED:
        stiff = stiff.replace(old, new)
    texts = {
        "dynoan.toml": 'format = 1\nunits = "us"\nteam = "Kestrel, second van (invented)"\n',
        "cars/kestrel-front.toml": FRONT_DRIVEN, "cars/kestrel-bare.toml": BARE, "cars/kestrel-stiff.toml": stiff,
        **{f"shocks/{name}.toml": f"# Invented: no real shock.\n{text}" for name, text in SHOCKS.items()},
        **{f"rig/{i:02d}_{t.shock}_{t.pack}.csv": peak_table(t, i) for i, t in enumerate(TESTS)},
        "rig/11_FR-12_gravel.txt": trace("FR-12", "gravel", {"c": 3, "r": 8}, "C3 R8"),
        "spare.csv": peak_table(Test("", "gravel", {"c": 4, "r": 7}, "", ""), 30),
        "stranger.csv": peak_table(Test("", "gravel", {"c": 60, "r": 1}, "", "", 3.0), 31),
        "travel.csv": travel_log(), "drive.csv": drive_trace(), "layouts/odd-rig.toml": LAYOUT,
        "odd-rig.txt": odd_rig(),
    }  # fmt: skip
    for name in ("sweeps", "setups", "layouts"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return folder / "rig"


def damping(pack: str, closed: dict[str, int], speed: np.ndarray, direction: str) -> np.ndarray:
    """Return made-up damping force [N] at speeds [m/s]: a square law that a power law takes over from."""
    name = {"compression": "c", "rebound": "r"}[direction]
    click = closed.get(name, closed.get("cr", 6))
    level = {"gravel": 330.0, "tarmac": 520.0}[pack] * (1.0 if name == "c" else 1.45)
    knee = 0.055 + 0.004 * click
    level *= 1.0 - 0.018 * click
    slope = level / knee * (0.55 if pack == "gravel" else 0.4)
    return np.where(speed < knee, level * (speed / knee) ** 1.6, level + slope * (np.maximum(speed, knee) - knee))


def _wobble(n: int, seed: int) -> np.ndarray:
    return np.sin(2.399963 * (np.arange(n) + 1) * (seed + 1) + 0.7 * seed)


def peak_table(test: Test, seed: int) -> str:
    """Return a shop's table in inches per second and pounds, gas force taken out."""
    speed = np.array(SPEEDS_IN_S) * INCH
    c, r = (
        test.scale * damping(test.pack, test.closed, speed, d) * (1 + 0.006 * _wobble(len(speed), seed + i))
        for i, d in enumerate(("compression", "rebound"))
    )
    facts = {"Shock": test.shock, "Pack": test.pack, "Date": test.date} if test.shock else {}
    head = ["Invented data: no real shock was tested", *(f"{k},{v}" for k, v in facts.items())]
    head += [f"Clicks,{test.counted}"] if test.counted else []
    rows = [
        f"{v},{a / NEWTON_PER_LBF:.2f},{-b / NEWTON_PER_LBF:.2f}" for v, a, b in zip(SPEEDS_IN_S, c, r, strict=True)
    ]
    return "\n".join([*head, "Gas force removed,yes", "", "Velocity (in/s),Compression (lbf),Rebound (lbf)", *rows, ""])


def trace(shock: str, pack: str, closed: dict[str, int], counted: str) -> str:
    """Return a trace of a sine rig: millimetres and newtons, tabs, gas force and friction still in."""
    t = np.arange(0.0, 6.0, 0.004)
    rate = np.select([t < 2.0, t < 4.0], [2.0, 6.0], 14.0)
    x = 20.0 * np.sin(np.concatenate([[0.0], np.cumsum(rate[:-1] * 0.004)]))
    v = np.gradient(x, 0.004) * 1e-3
    force = np.where(
        v >= 0,
        damping(pack, closed, np.abs(v), "compression"),
        -damping(pack, closed, np.abs(v), "rebound"),
    )
    force += 140.0 + 0.3 * x + 15.0 * np.tanh(v / 0.002) + 2.0 * _wobble(len(t), 3)
    head = (
        f"# Invented data: no real shock was tested\nShock: {shock}\nPack: {pack}\nClicks: {counted}\nDate: 2026-04-19"
    )
    rows = [f"{a:.3f}\t{b:.3f}\t{c:.1f}" for a, b, c in zip(t, x, force, strict=True)]
    return "\n".join([head, "Time [s]\tDisplacement [mm]\tForce [N]", *rows, ""])


def odd_rig() -> str:
    """Return a trace in a writing that only the team's own layout tells: milliseconds, pounds, rebound positive."""
    cells = (line.split("\t") for line in trace("FR-12", "gravel", {"c": 8, "r": 4}, "C8 R4").splitlines()[6:])
    rows = ((float(t), float(x), float(f)) for t, x, f in cells)
    lines = (f"{t * 1e3:.0f};{-x:.3f};{-f / NEWTON_PER_LBF:.2f}".replace(".", ",") for t, x, f in rows)
    return "\n".join(["Invented data: no real shock was tested", "Clk;Pos;Ld", *lines, ""])


def travel_log() -> str:
    """Return a log of two front pots in volts: standing, a launch, then a rough stretch."""
    t = np.arange(0.0, 8.0, 0.005)
    moving = np.clip((t - 1.5) / 0.3, 0.0, 1.0)
    rough = moving * (0.05 * np.sin(2 * np.pi * 1.9 * t) + 0.012 * np.sin(2 * np.pi * 11.3 * t + 1.0))
    squat = 0.12 * moving * np.exp(-np.clip(t - 1.5, 0.0, None) / 1.2)
    left = 2.4 + rough + squat + 0.002 * _wobble(len(t), 1)
    right = 2.6 - 0.9 * rough - squat + 0.002 * _wobble(len(t), 2)
    rows = [f"{a:.3f};{b:.4f};{c:.4f};{70 * m:.1f}" for a, b, c, m in zip(t, left, right, moving, strict=True)]
    return "\n".join(["# Invented data: no real car was driven", "t [s];POT_1 [V];POT_2 [V];v [km/h]", *rows, ""])


def drive_trace() -> str:
    """Return a logged acceleration of a start."""
    points = ((0.0, 0.0), (0.1, 3.1), (0.4, 4.8), (1.2, 4.2), (2.0, 3.0), (3.5, 0.5))
    return "\n".join(["time [s],acceleration [m/s2]", *(f"{a},{b}" for a, b in points), ""])
