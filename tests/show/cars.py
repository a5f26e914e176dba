"""A made-up car, view and setups for the tests of what people look at."""

from dataclasses import replace
from functools import cache

from dynoan.model.car import Car, Corner, Surface, Target, Targets
from dynoan.model.setup import Setup
from dynoan.model.shock import Adjuster, Shock
from dynoan.show.pages.trackside.view import RankedChoice, TracksideView
from tests.made import made_map

LAST = 12
FRONT = {"lsc": 6, "hsc": 6, "lsr": 5, "hsr": 4}
REAR = {"lsc": 8, "hsc": 3, "lsr": 7, "hsr": 9}
EVIL = "<script>alert(1)</script>"


@cache
def map_of(pack):
    """Reckoned once: the truth at every click takes a second."""
    return made_map(pack if pack in ("gravel", "mixed", "tarmac") else "gravel", LAST)


def made_car(pack="gravel"):
    wanted = Targets(Target(0.45, 0.25), Target(0.70, 0.35))
    front = {"unsprung": 34.0, "spring": 45e3, "spring_ratio": 0.95, "shock_ratio": 0.92, "pack": pack, "clicks": FRONT}
    rear = {"unsprung": 38.0, "spring": 52e3, "spring_ratio": 0.9, "shock_ratio": 0.88, "pack": pack, "clicks": REAR}
    corners = {
        "fl": Corner("fl", mass=268.0, shock="FL-01", **front),
        "fr": Corner("fr", mass=261.0, shock="FR-01", **front),
        "rl": Corner("rl", mass=225.0, shock="RL-02", gas_rate=900.0, **rear),
        "rr": Corner("rr", mass=219.0, shock="RR-02", **rear),
    }
    surfaces = {n: Surface(n, g) for n, g in (("gravel", 0.65), ("wet tarmac", 0.8), ("dry tarmac", 1.05))}
    return Car("kestrel", corners, wheelbase=2.43, targets={"front": wanted, "rear": wanted}, surfaces=surfaces)


def shock_of(corner):
    """The rear shocks count their rebound from soft."""
    rear = corner.startswith("r")
    adjusters = [Adjuster(n, LAST, "from soft" if rear and n.endswith("r") else "from closed") for n in FRONT]
    return Shock(corner, tuple(adjusters))


def made_view(packs=("gravel", "mixed", "tarmac"), **changes):
    car = changes.pop("car", made_car(packs[0]))
    maps = {p: replace(map_of(p), pack=p) for p in packs}
    counting = {c: {p: shock_of(c) for p in packs} for c in car.corners}
    ratios = {"compression": {"low": 0.44, "high": 0.26}, "rebound": {"low": 0.69, "high": 0.36}}
    choices = tuple(
        RankedChoice(
            where, packs[i % len(packs)], {where[0] + side: FRONT | {"lsc": 5 + i} for side in "lr"}, ratios,
            0.021 + 0.01 * i, standing,
        )
        for where in ("front", "rear")
        for i, standing in enumerate(("tested", "between", "outside"))
    )  # fmt: skip
    moved = {n: replace(c, clicks={**c.clicks, "lsc": 4}, spring=48e3) for n, c in car.corners.items()}
    setups = (
        Setup("2026-05-09-kestrel", replace(car, corners=moved), "2026-05-09", "wet tarmac", None, "2:04.8", True,
              "Turned in well, nervous over the crest"),
        Setup("2026-05-02-kestrel", car, "2026-05-02", "gravel", 14.0, None, False, "Pushed wide on the loose hairpin"),
    )  # fmt: skip
    facts = {"choices": choices, "setups": setups, "made": "25 November 2026, 10:20"}
    return TracksideView(car=car, maps=maps, counting=counting, **(facts | changes))
