"""Car and shock files to fill in: every key with what it is and what could stand there, in the library's units.

What a file must have stands as an empty text, which reading names as a fault; what may be left out stands in a comment.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from dynoan.errors import typed
from dynoan.library.templates_more import car_more
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
    asked: bool = True  #: whether a person is asked for it; what few cars need can be filled in later

    def example(self, units: Shown) -> str:
        """Return what could stand there."""
        return self.us if units == "us" and self.us else self.metric

    def line(self, value: str | None, units: Shown) -> str:
        """Return its line of the file, filled in or not."""
        name, shown = self.key.rpartition(".")[2], self.example(units)
        known = value is not None and value != ""
        text = value if known else ("" if self.needed else shown)
        bare = self.number and text and not re.search(r"[±+]", text)  # what a ± stands in is text
        written = f"{text}" if bare else _quoted(text or "")
        line = f"{'' if known or self.needed else '# '}{name} = {written}"
        return f"{line:<31} # {self.words}{'' if known or not self.needed else f', such as {shown}'}"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


_STOP = '[["0 mm", "0 N"], ["10 mm", "600 N"], ["25 mm", "4000 N"]]'
_STOP_US = '[["0 in", "0 lb"], ["0.4 in", "135 lb"], ["1 in", "900 lb"]]'
_AXLE = (
    Blank("unsprung", "of one corner: wheel, tyre, hub, brake, half of the links", "34 kg", "75 lb", needed=True),
    Blank("spring", "spring rate, at the spring", "45 N/mm", "260 lb/in", needed=True),
    Blank("spring_ratio", "spring travel per wheel travel", "0.95", needed=True, number=True),
    Blank("shock_ratio", "shock travel per wheel travel", "0.92", needed=True, number=True),
    Blank("tyre", "tyre rate", "210 N/mm", "1200 lb/in"),
    Blank("bump_travel", "wheel travel from ride height to the bump stop", "75 mm", "3 in"),
    Blank("droop_travel", "wheel travel from ride height to full droop", "85 mm", "3.3 in"),
    Blank("track", "between the wheels", "1410 mm", "55.5 in", asked=False),
    Blank(
        "anti_roll",
        "anti-roll bar, at one wheel, per its travel while the other goes the opposite way",
        "9 N/mm",
        "50 lb/in",
        asked=False,
    ),
    Blank("tyre_damping", "of one tyre", "120 N s/m", "0.7 lbf s/in", asked=False),
    Blank("friction", "of one shock's seals", "25 N", "6 lb", asked=False),
    Blank("anti_lift", "in front where all wheels drive: share of the lift that its links take", "30 %", asked=False),
    Blank("gas_rate", "of one shock's gas, force per its travel", "1.2 N/mm", "7 lb/in", asked=False),
    Blank("stop_rate", "of one wheel's bump and droop stops", "150 N/mm", "860 lb/in", asked=False),
    Blank(
        "bump_stop",
        "or the stop's curve: how far one wheel squeezes it, and its force there",
        _STOP,
        _STOP_US,
        number=True,
        asked=False,
    ),
    Blank("droop_stop", "the same of the droop stop", _STOP, _STOP_US, number=True, asked=False),
    Blank(
        "axle_mass",
        "what the scale under both wheels shows, in the place of each one's mass",
        "530 ± 4 kg",
        "1170 ± 9 lb",
        asked=False,
    ),
    Blank("pack", "the valve pack in both shocks", "gravel"),
    Blank("clicks", "as the shocks count them", "lsc=8,hsc=12,lsr=10,hsr=12"),
)
#: of the car: what stands above its tables
_WHOLE = (
    Blank("wheelbase", "between the axles; needed for a launch", "2430 mm", "95.7 in"),
    Blank("cg_height", "centre of gravity above the ground; needed for a launch", "510 mm", "20 in"),
    Blank("driven", "front, rear or all; needed for a launch", "rear"),
    Blank("antisquat", "of the driven axle; a launch needs it, or links at the end of this file", "45 %"),
    Blank("wheel_radius", "loaded, of the driven wheels", "300 mm", "11.8 in", asked=False),
    Blank("wheel_inertia", "of one driven wheel with tyre and brake", "0.9 kg m2", "21 lb ft2", asked=False),
    Blank("axle_ratio", "of a live axle: its torque loads one rear tyre", "4.1", number=True, asked=False),
    Blank("front_drive", "share of the drive at the front, where all wheels drive", "50 %", asked=False),
    Blank(
        "pitch_inertia",
        "of what the springs carry; without: masses times both arms",
        "1250 kg m2",
        "29700 lb ft2",
        asked=False,
    ),
    Blank("roll_inertia", "the same about the axis along the car", "320 kg m2", "7600 lb ft2", asked=False),
)
CAR: tuple[Blank, ...] = (
    *_WHOLE,
    *(replace(b, key=f"{axle}.{b.key}") for axle in AXLES for b in _AXLE if (axle, b.key) != ("rear", "anti_lift")),
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
    Blank(
        "bump_stop",
        "how far it is squeezed at the shock, and its force there",
        _STOP,
        _STOP_US,
        number=True,
        asked=False,
    ),
    Blank("droop_stop", "the same of the droop stop", _STOP, _STOP_US, number=True, asked=False),
)
_HEADS = {
    "front": "What both front corners share; a corner's own value, under [fl] or [fr], wins.",
    "rear": "The same of the rear.",
    **{corner: f"{name.capitalize()}." for corner, name in CORNER_NAMES.items()},
}


def car_template(name: str, values: Mapping[str, str], units: Shown, examples: Mapping[str, str]) -> str:
    """Return the text of a car file, with the values that are known filled in, by key ("front.spring").

    `examples` stand, by key, in the place of the usual ones: what the library's own shocks are called, and have.
    """
    lines = [f"# {name}: the car as you measured it. Fill in what is empty between the quotes; what has a # in front",
             f"# may be left out. Any unit that says so will do: {_forms(units)}.",
             f"# A value may carry what it is uncertain by, and bands then hold it: {_unsure(units)}.",
             f"# Check it with:  dynoan new car {typed(name)}", ""]  # fmt: skip
    return (
        "\n".join([*lines, *_tables([replace(b, metric=examples.get(b.key, b.metric)) for b in CAR], values, units)])
        + "\n"
        + car_more(units)
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
             f"# Check it with:  dynoan new shock {typed(name)}", ""]  # fmt: skip
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


def _unsure(units: Shown) -> str:
    return 'cg_height = "20 ± 0.8 in"' if units == "us" else 'cg_height = "510 ± 20 mm"'


def _forms(units: Shown) -> str:
    return '"590 lb", "260 lb/in", "95.7 in"' if units == "us" else '"268 kg", "45 N/mm", "2430 mm"'
