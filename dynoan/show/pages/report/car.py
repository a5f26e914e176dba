"""A report's sections on a car: what it is, its damping ratios, and the settings nearest to its targets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from dynoan.analysis.corner.ratio_measures import SECANTS
from dynoan.jobs.choose import Chosen
from dynoan.jobs.measures import Measure
from dynoan.jobs.ratio import RatioAnswer
from dynoan.jobs.ratio.figures import CORNER, DIRECTION, SideFound
from dynoan.jobs.report.parts import CarPart
from dynoan.model.banded import Banded
from dynoan.model.car import CORNER_NAMES, Target, axle_of
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.example_numbers import TOLD
from dynoan.show.pages.launch_table import TAKEN, launch_figures
from dynoan.show.pages.report import plots as report_plots
from dynoan.show.pages.report.blocks import Block, Grid, OwnPlace, Section, Words, grid, picture
from dynoan.show.pages.report.packs import anchor, clicks_words, number, signed
from dynoan.show.text.ratio import which_is_which
from dynoan.units import Shown, shown

T = TypeVar("T")
#: beneath a ranking
RANKED = (
    "Ratios are the mean of the axle's corners. Of settings that miss by about as much, the one that turns least of "
    "what is on the car stands first."
)
LEVELS = ("low", "high")  #: the figures of a direction that a car's file may have targets for


def car_section(part: CarPart, units: Shown) -> Section:
    """Return one car."""
    found = part.ratio
    blocks: list[Block] = [OwnPlace("Not a real car", (TOLD,))] if part.example else []
    blocks += [_corners(found, units), _rates(found, units)]
    if found.ratios:
        blocks += [_against_targets(found, units), _others(found, units), Words(_which(found, units))]
    blocks += _pictures(found, units)
    blocks.append(_choices(part.choices) if part.choices else _no_choices(found))
    blocks += _launch(part, units)
    return Section(anchor("car", found.car.name), f"Car {part.words}", tuple(blocks))


def _no_choices(found: RatioAnswer) -> Words:
    if not found.car.targets:
        return Words("No ranked settings: the car's file has no targets.")
    return Words("No ranked settings: they could not be reckoned; the warnings say why.")


def _launch(part: CarPart, units: Shown) -> list[Block]:
    if part.launch is None:
        return [Words(f"No launch: {part.no_launch}.")] if part.no_launch else []
    table = launch_figures(part.launch, units)
    rows = [(r.name, *(f"{c.value} ({c.band})" if c.band else c.value for c in r.cells)) for r in table.rows]
    caption, columns = "Off the line, as the car's file has it", ("Figure", *table.surfaces)
    decides = [OwnPlace("What decides off the line", table.decides)] if table.decides else []
    granted = [OwnPlace(TAKEN, table.granted, listed=True)] if table.granted else []
    return [*decides, grid(caption, columns, rows, table.covers), *granted]


def _corners(found: RatioAnswer, units: Shown) -> Grid:
    mass, rate = shown("mass", units), shown("stiffness", units)
    columns = ("Corner", f"Mass [{mass.unit}]", f"Unsprung [{mass.unit}]", f"Spring [{rate.unit}]", "Spring ratio",
               "Shock ratio", "Shock", "Pack", "Clicks")  # fmt: skip
    rows = [
        (CORNER_NAMES[c.name], mass.text(c.mass, unit=False), mass.text(c.unsprung, unit=False),
         rate.text(c.spring, unit=False), f"{c.spring_ratio:.3g}", f"{c.shock_ratio:.3g}", c.shock or "–",
         c.pack or "–", clicks_words(c.clicks))
        for c in found.car.corners.values()
    ]  # fmt: skip
    return grid("What is on the car; ratios are spring or shock travel per wheel travel", columns, rows)


def _rates(found: RatioAnswer, units: Shown) -> Grid:
    measures = [m for m in CORNER if m.report]
    rows = [(CORNER_NAMES[name], *(m.text(c, units) for m in measures)) for name, c in found.corners.items()]
    return grid("Rates and critical damping", ("Corner", *_heads(measures, units)), rows,
                "Ride: frequency of the body on its spring alone; sinks: under its own weight, at the wheel, linear "
                "spring.")  # fmt: skip


def _heads(measures: Sequence[Measure[T]], units: Shown) -> list[str]:
    """Return the measures' words as heads of a report's columns, the unit in brackets."""
    heads = []
    for m in measures:
        unit = m.unit_text(units).replace(" ", "\N{NO-BREAK SPACE}")
        heads.append(m.words[:1].upper() + m.words[1:] + (f" [{unit}]" if unit else ""))
    return heads


def _sides(found: RatioAnswer) -> list[tuple[str, Direction, SideFound]]:
    return [(n, d, SideFound(c, c.side(d))) for n, c in found.ratios.items() for d in DIRECTIONS]


def _against_targets(found: RatioAnswer, units: Shown) -> Grid:
    """Return the ratios that a car's file may have targets for, beside them."""
    velocity, measures = shown("velocity", units), [m for m in DIRECTION if m.report and m.key in LEVELS]
    rows = []
    for name, direction, side in _sides(found):
        target = _target(found, name, direction)
        cells = [cell for m in measures for cell in _held_against(m, side, getattr(target, m.key), units)]
        rows.append((CORNER_NAMES[name], direction, *cells, found.curves[name].standing))
    heads = [head for m in _heads(measures, units) for head in (m, "Target", "Off [%]")]
    speeds = {(r.low_velocity, r.high_velocity) for r in found.ratios.values()}
    at = "; ".join(f"low {velocity.text(a)}, high {velocity.text(b)}" for a, b in sorted(speeds))
    return grid(f"Damping ratios ({at}, at the shock)", ("Corner", "Direction", *heads, "Tested?"), rows,
                "In brackets the 95 % band; * lies beyond the tested speeds.")  # fmt: skip


def _target(found: RatioAnswer, corner: str, direction: Direction) -> Target:
    targets = found.car.targets.get(axle_of(corner))
    return Target() if targets is None else (targets.compression if direction == "compression" else targets.rebound)


def _held_against(measure: Measure[SideFound], side: SideFound, wanted: float | None, units: Shown) -> tuple[str, ...]:
    value = measure.value(side)
    off = signed(100 * (value.value / wanted - 1), 0) if wanted and isinstance(value, Banded) else "–"
    return _cell(measure, side, units), number(wanted, 2), off


def _others(found: RatioAnswer, units: Shown) -> Grid:
    """Return the damping ratios of every other measure."""
    measures = [m for m in DIRECTION if m.report and m.key not in LEVELS]
    rows = [(CORNER_NAMES[name], direction, *(_cell(m, side, units) for m in measures))
            for name, direction, side in _sides(found)]  # fmt: skip
    return grid("The same by other measures", ("Corner", "Direction", *_heads(measures, units)), rows)


def _which(found: RatioAnswer, units: Shown) -> str:
    return " ".join(words[:1].upper() + words[1:] for words in which_is_which(found, units).split("\n"))


def _cell(measure: Measure[T], thing: T, units: Shown) -> str:
    value = measure.value(thing)
    return ratio_text(value, measure.digits) if isinstance(value, Banded) else measure.text(thing, units)


def ratio_text(ratio: Banded, digits: int = 2) -> str:
    """Return a ratio with its band."""
    low, high = (f"{end:.{digits}f}" for end in (ratio.low, ratio.high))
    return f"{ratio.value:.{digits}f} ({low} to {high}){'*' if ratio.extrapolated else ''}"


def _pictures(found: RatioAnswer, units: Shown) -> list[Block]:
    out: list[Block] = []
    for axle in ("front", "rear"):
        pairs = [(c, found.curves[c.name]) for c in found.car.axle(axle) if c.name in found.curves]
        if pairs:
            figure = report_plots.ratios(pairs, found.car.targets.get(axle), units)
            out.append(picture(figure, f"Damping ratios of the {axle} axle against velocity at the shock"))
    return out


def _choices(choices: Sequence[Chosen]) -> Grid:
    rows = []
    for chosen in choices:
        choice, clicks = chosen.choice, next(iter(chosen.clicks.values()))
        ratios = [ratio_text(choice.ratio[key]) for key in SECANTS]
        rows.append((choice.where, choice.pack, clicks_words(clicks), *ratios, f"{100 * choice.miss:.0f}",
                     choice.standing))  # fmt: skip
    columns = (
        "Where",
        "Pack",
        "Clicks",
        "Compr. low",
        "Compr. high",
        "Reb. low",
        "Reb. high",
        "Misses by [%]",
        "Tested?",
    )
    return grid("Settings nearest to the targets, best first", columns, rows, RANKED)
