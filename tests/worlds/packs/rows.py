"""The rows of the table, by what they try, and `draw`.

`map`: force at any other click. `retest`: a later run at one setting. `unit`: a shock never tested with the pack.
`identify`, `match`, `health`: unknown runs, pairs, histories. `plan`: which runs next. Every row is to be had at curve
and at record level, see `tests_of`. The builders and their ranges are in `builders`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from zlib import crc32

import numpy as np

from tests.worlds.packs import builders as make
from tests.worlds.packs import practice
from tests.worlds.packs.builders import Recipe, Riddle
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.tests_of import Level
from tests.worlds.packs.units import Change
from tests.worlds.valves import Generator


@dataclass(frozen=True)
class Row:
    """A kind of world."""

    name: str
    what: str
    build: make.Build


KINDS = {
    "regular": Recipe(),
    "factors": Recipe(law="factors"),
    "one adjuster": Recipe(number=1),
    "two adjusters": Recipe(number=2),
    "four adjusters": Recipe(number=4),
    **{name: Recipe(odd=(name,)) for name in make.KNOWN},
    "any": Recipe(odd=None),
}
"""Kinds of pack and adjusters that maps and plans are tried on."""
COUNTS = (4, 8, 16)
"""Tested settings."""
MAPS = (
    *(
        Row(f"map {kind} {count}", f"{kind}: {count} settings of one pack on one shock, any design, traces",
            make.mapped(count, recipe))
        for kind, recipe in KINDS.items() for count in COUNTS
    ),
    Row("map shocks 8", "8 runs on either of two shocks",
        make.mingled(8, lambda r, w: {"unit": w.units[(make.TESTED, make.SECOND)[int(r.integers(2))]]})),
    Row("map dates 8", "8 runs over three years, wear up to 1 % a year",
        make.mingled(8, lambda r, w: {"year": float(r.integers(3))})),
    Row("map warm 8", "8 runs at 15-50 degC, recorded",
        make.mingled(8, lambda r, w: {"celsius": r.uniform(15.0, 50.0)})),
    Row("map forms 8", "8 runs: traces, one-speed traces, peak tables",
        make.mingled(8, lambda r, w: {"form": make.FORMS[int(r.integers(3))]})),
)  # fmt: skip
RETESTS = (
    Row("retest regular", "8 settings, one again a year later, wear up to 1 %", make.retested(Recipe())),
    Row("retest any", "the same, any oddities", make.retested(Recipe(odd=None))),
    Row("retest worn", "the shock has lost 5-12 % in one direction or both", make.retested(Recipe(), (0.05, 0.12))),
)
UNITS = (
    Row("unit one tested", "8 settings on one shock; others asked for", make.other_unit(1)),
    Row("unit two tested", "the same on two shocks", make.other_unit(2)),
    Row("unit carried", "those asked for were run with another pack, 4 settings", make.other_unit(1, carried=4)),
)
CLOSE = Recipe(alike=(0.03, 0.15))
IDENTIFIES = (
    Row("identify far", "three packs of unlike laws", make.riddle(Recipe())),
    Row("identify alike", "three packs 3-15 % apart", make.riddle(CLOSE)),
    *(
        Row(f"identify {odd}", f"the same, {odd}", make.riddle(replace(CLOSE, odd=(odd,))))
        for odd in make.KNOWN
    ),
    Row("identify turned", "the same, one pack's clicks written from the other end",
        make.riddle(CLOSE, Riddle(turned=True))),
    Row("identify any", "the same, any oddities", make.riddle(replace(CLOSE, odd=None))),
    Row("identify unlisted", "none of these: 8-15 % off one of three alike", make.riddle(CLOSE, Riddle((0.08, 0.15)))),
    Row("identify unlisted close", "none of these: 3-8 % off one of them", make.riddle(CLOSE, Riddle((0.03, 0.08)))),
    Row("identify unlisted far", "none of these: of another law", make.riddle(CLOSE, Riddle((1.0, 1.0)))),
    Row("identify warm", "unknown 15-30 K warmer, recorded", make.riddle(CLOSE, Riddle(warm=(15.0, 30.0)))),
    Row("identify warm unsaid", "the same, not recorded", make.riddle(CLOSE, Riddle(warm=(15.0, 30.0), silent=True))),
    *(
        Row(f"identify {form}", f"unknown comes as {form}, friction in or not told apart",
            make.riddle(CLOSE, Riddle(forms=(form,))))
        for form in make.FORMS[1:]
    ),
)  # fmt: skip
MATCHES = (
    *(Row(f"match {100 * s:.0f} %", f"pairs at {100 * s:.0f} % scatter", make.paired(s)) for s in (0.01, 0.02, 0.05)),
    Row("match peaks", "a trace against a peak table, 1 %", make.paired(0.01, ("trace", "peaks"))),
    Row("match one speed", "a trace against a one-speed trace, 1 %", make.paired(0.01, ("trace", "one speed"))),
)


def _weaker(name: str) -> make.Build:
    def change(rng: Generator) -> Change:
        return Change(1.5, **{name: -float(rng.uniform(0.08, 0.2))})

    return make.aged(change)


HEALTHS = (
    Row("health same", "nothing has changed", make.aged(lambda _: None)),
    Row("health same warm", "nothing, but the oil is 15-30 K warmer, recorded",
        make.aged(lambda _: None, (15.0, 30.0))),
    Row("health same loose", "nothing, adjusters do not return to the same place",
        make.aged(lambda _: None, odd=("hysteresis",))),
    Row("health compression", "8-20 % less compression", _weaker("compression")),
    Row("health rebound", "8-20 % less rebound", _weaker("rebound")),
    Row("health gas", "half of the gas or more lost",
        make.aged(lambda r: Change(1.5, gas=-float(r.uniform(0.5, 1.0))))),
    Row("health friction", "15-40 N more friction", make.aged(lambda r: Change(1.5, friction_n=r.uniform(15.0, 40.0)))),
    Row("health two", "less rebound and lost gas",
        make.aged(lambda r: Change(1.5, rebound=-float(r.uniform(0.08, 0.2)), gas=-float(r.uniform(0.5, 1.0))))),
)  # fmt: skip
PLANS = tuple(
    Row(f"plan {kind}", f"{kind}: 4 settings, further ones to be ordered", make.mapped(4, recipe, "plan"))
    for kind, recipe in KINDS.items()
)
PRACTICE = (
    Row("identify look-alike", "none of these: 3-20 % off by another hole, slot, spring or one stack",
        practice.strangers((0.03, 0.20))),
    Row("identify look-alike mixed", "the same, against traces and peak tables",
        practice.strangers((0.03, 0.20), ("trace", "peaks"))),
    Row("identify look-alike odd", "the same, dead clicks", practice.strangers((0.03, 0.20), odd=("dead clicks",))),
    Row("identify known mixed", "known packs against traces and peak tables", practice.known(("trace", "peaks"))),
    Row("identify known peaks", "the same, the unknown is a peak table",
        practice.known(("trace", "peaks"), riddle=Riddle(forms=("peaks",)))),
    Row("identify known odd", "known packs, dead clicks", practice.known(odd=("dead clicks",))),
    Row("identify known warm", "known packs, 20 K warmer, recorded", practice.known(riddle=Riddle(warm=(20.0, 20.0)))),
    Row("health months nothing", "eight runs in a year and a half, nothing", practice.months("nothing")),
    Row("health months oil", "the same, new oil half-way", practice.months("oil")),
    Row("health months wear", "the same, 8-14 % a year worn away", practice.months("wear")),
    Row("map rigs 8", "8 settings on two rigs of 2 % error in force", practice.two_rigs(8)),
    Row("map two ways 8", "8 settings, half of them counted from the other end", practice.two_ways(8)),
    Row("retest rebuilt 1", "rebuilt, one setting run again", practice.rebuilt(1)),
    Row("retest rebuilt 3", "rebuilt, three settings run again", practice.rebuilt(3)),
)  # fmt: skip
ROWS: tuple[Row, ...] = (*MAPS, *RETESTS, *UNITS, *IDENTIFIES, *MATCHES, *HEALTHS, *PLANS, *PRACTICE)
BY_NAME = {row.name: row for row in ROWS}


def draw(row: str, seed: int, level: Level = "curve") -> PackWorld:
    """Return a world of the named row; the same for the same seed and level.

    Raises
    ------
    KeyError
        If there is no such row.
    """
    rng = np.random.default_rng([crc32(row.encode()), seed])
    return replace(BY_NAME[row].build(rng, level), row=row, seed=seed)
