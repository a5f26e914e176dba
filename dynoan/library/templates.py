"""Car and shock files to fill in: every key with what it is and what could stand there, in the library's units.

What a file must have stands as an empty text, which reading names as a fault; what may be left out stands in a comment.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from dynoan.model.car import AXLES, CORNER_NAMES, CORNERS
from dynoan.model.shock import ADJUSTERS
from dynoan.units import Shown

Kind = Literal["quantity", "number", "text", "choice"]


@dataclass(frozen=True)
class Blank:
    """One value to fill in."""

    key: str  #: with its table, such as "front.spring"
    words: str  #: what it is
    metric: str  #: what could stand there
    us: str = ""  #: the same in US units, where it has one
    needed: bool = False
    number: bool = False  #: a bare number, which stands without quotes

    def example(self, units: Shown) -> str:
        """Return what could stand there."""
        return self.us if units == "us" and self.us else self.metric

    def line(self, value: str | None, units: Shown) -> str:
        """Return its line of the file, filled in or not."""
        name, shown = self.key.rpartition(".")[2], self.example(units)
        known = value is not None and value != ""
        text = value if known else ("" if self.needed else shown)
        written = f"{text}" if self.number and text else _quoted(text or "")
        line = f"{'' if known or self.needed else '# '}{name} = {written}"
        return f"{line:<31} # {self.words}{'' if known or not self.needed else f', such as {shown}'}"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


_AXLE = (
    Blank("unsprung", "of one corner: wheel, tyre, hub, brake, half of the links", "34 kg", "75 lb", needed=True),
    Blank("spring", "spring rate, at the spring", "45 N/mm", "260 lb/in", needed=True),
    Blank("spring_ratio", "spring travel per wheel travel", "0.95", needed=True, number=True),
    Blank("shock_ratio", "shock travel per wheel travel", "0.92", needed=True, number=True),
    Blank("tyre", "tyre rate", "210 N/mm", "1200 lb/in"),
    Blank("bump_travel", "wheel travel from ride height to the bump stop", "75 mm", "3 in"),
    Blank("droop_travel", "wheel travel from ride height to full droop", "85 mm", "3.3 in"),
    Blank("pack", "the valve pack in both shocks", "gravel"),
    Blank("clicks", "as the shocks count them", "lsc=8,hsc=12,lsr=10,hsr=12"),
)
#: of the car: what stands above its tables
_WHOLE = (
    Blank("wheelbase", "between the axles; needed for a launch", "2430 mm", "95.7 in"),
    Blank("cg_height", "centre of gravity above the ground; needed for a launch", "510 mm", "20 in"),
    Blank("driven", "front, rear or all; needed for a launch", "rear"),
    Blank("antisquat", "of the driven axle; needed for a launch", "45 %"),
)
CAR: tuple[Blank, ...] = (
    *_WHOLE,
    *(replace(b, key=f"{axle}.{b.key}") for axle in AXLES for b in _AXLE),
    *(b for corner in CORNERS for b in (
        Blank(f"{corner}.mass", "what the scale under this wheel shows, driver in", "268 kg", "590 lb", needed=True),
        Blank(f"{corner}.shock", "the shock's name, as its dyno runs have it", f"{corner.upper()}-01"),
    )),
)  # fmt: skip
SHOCK: tuple[Blank, ...] = (
    Blank("rod", "diameter; with it, gas force tells gas pressure", "14 mm", "0.55 in"),
    Blank("piston", "diameter", "46 mm", "1.81 in"),
    Blank("stroke", "from full droop to full bump of the shock alone", "120 mm", "4.7 in"),
    Blank("gas_pressure", "as charged, at full droop", "10 bar", "145 psi"),
)
_HEADS = {
    "front": "What both front corners share; a corner's own value, under [fl] or [fr], wins.",
    "rear": "The same of the rear.",
    **{corner: f"{name.capitalize()}." for corner, name in CORNER_NAMES.items()},
}
_CAR_MORE = """
# The damping ratios you want, at 50 and 250 mm/s at the shock (2 and 10 in/s); dynoan guide ratios says how to choose.
# [targets.front]
# compression = { low = 0.42, high = 0.30 }
# rebound = { low = 0.62, high = 0.42 }
# [targets.rear]
# compression = { low = 0.38, high = 0.30 }
# rebound = { low = 0.57, high = 0.43 }

# What you drive on, for a launch: peak friction, and roughness as a class of ISO 8608, A (smooth) to H.
# [surfaces.loose]
# grip = 0.65
# roughness = "D"
"""


def car_template(name: str, values: Mapping[str, str], units: Shown, examples: Mapping[str, str]) -> str:
    """Return the text of a car file, with the values that are known filled in, by key ("front.spring").

    `examples` stand, by key, in the place of the usual ones: what the library's own shocks are called, and have.
    """
    lines = [f"# {name}: the car as you measured it. Fill in what is empty between the quotes; what has a # in front",
             f"# may be left out. Any unit that says so will do: {_forms(units)}.",
             f"# Check it with:  dynoan new car {name}", ""]  # fmt: skip
    return (
        "\n".join([*lines, *_tables([replace(b, metric=examples.get(b.key, b.metric)) for b in CAR], values, units)])
        + "\n"
        + _CAR_MORE
    )


def shock_template(
    name: str, values: Mapping[str, str], units: Shown, adjusters: Sequence[str], tested: Mapping[str, int]
) -> str:
    """Return the text of a shock file: its sizes, and each adjuster with its last click.

    Parameters
    ----------
    name, values, units
        As for `car_template`; "lsc.clicks" and "lsc.counted" by adjuster.
    adjusters
        The adjusters it has.
    tested
        The highest click each was tested at, as far as it was.
    """
    lines = [f"# {name}: its adjusters, and how its clicks are counted. Close an adjuster gently, then count the",
             "# clicks to its other end: that is the last position. What has a # in front may be left out.",
             f"# Check it with:  dynoan new shock {name}", ""]  # fmt: skip
    lines += _tables(SHOCK, values, units)
    for adjuster in adjusters:
        lines += ["", f"[adjusters.{adjuster}]", *_adjuster(adjuster, values, tested)]
    return "\n".join(lines) + "\n"


def _adjuster(name: str, values: Mapping[str, str], tested: Mapping[str, int]) -> list[str]:
    known = f"; tested up to {tested[name]}" if name in tested else ""
    clicks = Blank("clicks", f"last position of {ADJUSTERS[name]}{known}", "20", needed=True, number=True)
    counted = Blank("counted", 'or "from soft", where 0 is full soft', "from closed")
    return [clicks.line(values.get(f"{name}.clicks"), "metric"), counted.line(values.get(f"{name}.counted"), "metric")]


def _tables(blanks: Sequence[Blank], values: Mapping[str, str], units: Shown) -> list[str]:
    lines: list[str] = []
    last = ""
    for blank in blanks:
        table = blank.key.rpartition(".")[0]
        if table != last:
            lines += ["", f"# {_HEADS[table]}", f"[{table}]"]
            last = table
        lines.append(blank.line(values.get(blank.key), units))
    return lines


def _forms(units: Shown) -> str:
    return '"590 lb", "260 lb/in", "95.7 in"' if units == "us" else '"268 kg", "45 N/mm", "2430 mm"'
