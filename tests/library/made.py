"""Made-up sweeps for tests of the library."""

from __future__ import annotations

import hashlib

import numpy as np

from dynoan.model.sweep import ChannelDecision, Source, Sweep

CAR = """\
# the car as the team wrote it
wheelbase = "2430 mm"
cg_height = "510 mm"
driven = "rear"

[front]
unsprung = "34 kg"
spring = "275 lb/in"   # US springs
spring_ratio = 0.95
shock_ratio = 0.92
[rear]
unsprung = "32 kg"
spring = "38 N/mm"
spring_ratio = 0.90
shock_ratio = 0.88
[fl]
mass = "268 kg"
shock = "FL-01"
pack = "gravel"
clicks = "lsc=8,lsr=10"
[fr]
mass = "262 kg"
[rl]
mass = "241 kg"
[rr]
mass = "247 kg"
"""

LAYOUT = """\
header = ["Clk", "Pos", "Ld"]
delimiter = ";"
[columns]
time = "Clk"
displacement = "Pos"
force = "Ld"
[units]
time = "s"
displacement = "mm"
force = "N"
"""


def made_sweep(number: int = 0, samples: int = 200, part: str = "", **facts: object) -> tuple[Sweep, bytes]:
    """A sweep and the bytes it came from; each number gives another file."""
    original = f"time,force\r\n0,{number}\r\n".encode() * 3
    at = np.arange(samples) / 1000.0
    random = np.random.default_rng(number)
    channels = {"time": at, "velocity": 0.3 * np.sin(9 * at), "force": random.normal(0, 500, samples)}
    settings = {"shock": "FL-01", "pack": "gravel", "clicks": {"lsc": 6, "lsr": 8}} | facts
    return Sweep(
        "trace", channels, Source(f"run {number}.csv", hashlib.sha256(original).hexdigest(), "text", part),
        date="2026-03-01", temperature=31.5, gas_pressure=8e5, stroke=0.05, rate=1000.0, gas_removed=False,
        decisions={"force": ChannelDecision("Load", "N", -1, "force falls as the shock shortens")},
        facts={"Operator": "none", "Öl": "5 °C"}, warnings=("velocity was derived",), **settings,
    ), original  # type: ignore[arg-type]  # fmt: skip
