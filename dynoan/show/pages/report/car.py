"""A report's sections on a car: what it is, its damping ratios, and the settings nearest to its targets."""

from __future__ import annotations

from dynoan.analysis.corner.ratios import CornerRatios
from dynoan.model.banded import Banded
from dynoan.model.car import CORNER_NAMES, Target, axle_of
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.show.pages.report import plots as report_plots
from dynoan.show.pages.report.blocks import Block, Grid, Section, Words, grid, picture
from dynoan.show.pages.report.packs import anchor, clicks_words, number, signed
from dynoan.show.pages.report.view import CarView
from dynoan.units import Shown, shown


def car_section(view: CarView, units: Shown) -> Section:
    """Return one car."""
    blocks: list[Block] = [_corners(view, units), _rates(view, units)]
    if view.ratios:
        blocks.append(_ratio_grid(view, units))
    blocks += _pictures(view, units)
    blocks.append(_choices(view) if view.choices else Words("No ranked settings: the car's file has no targets."))
    return Section(anchor("car", view.car.name), f"Car {view.car.name}", tuple(blocks))


def _corners(view: CarView, units: Shown) -> Grid:
    mass, rate = shown("mass", units), shown("stiffness", units)
    columns = ("Corner", f"Mass [{mass.unit}]", f"Unsprung [{mass.unit}]", f"Spring [{rate.unit}]", "Spring ratio",
               "Shock ratio", "Shock", "Pack", "Clicks")  # fmt: skip
    rows = [
        (CORNER_NAMES[c.name], mass.text(c.mass, unit=False), mass.text(c.unsprung, unit=False),
         rate.text(c.spring, unit=False), f"{c.spring_ratio:.3g}", f"{c.shock_ratio:.3g}", c.shock or "–",
         c.pack or "–", clicks_words(c.clicks))
        for c in view.car.corners.values()
    ]  # fmt: skip
    return grid("What is on the car; ratios are spring or shock travel per wheel travel", columns, rows)


def _rates(view: CarView, units: Shown) -> Grid:
    rate, damping = shown("stiffness", units), shown("damping", units)
    columns = ("Corner", f"Wheel rate [{rate.unit}]", "Ride frequency [Hz]", f"Critical, wheel [{damping.unit}]",
               f"Critical, shock [{damping.unit}]")  # fmt: skip
    rows = [
        (CORNER_NAMES[name], rate.text(r.rates.wheel_rate, unit=False), f"{r.rates.frequency:.2f}",
         damping.text(r.rates.critical_wheel, unit=False), damping.text(r.rates.critical_shock, unit=False))
        for name, r in view.ratios.items()
    ]  # fmt: skip
    return grid("Rates and critical damping", columns, rows, "Ride frequency without the tyre.")


def _ratio_grid(view: CarView, units: Shown) -> Grid:
    velocity = shown("velocity", units)
    rows = []
    for name, ratios in view.ratios.items():
        for direction in DIRECTIONS:
            rows.append(
                (CORNER_NAMES[name], direction, *_pair(view, name, ratios, direction), ratios_standing(view, name))
            )
    columns = ("Corner", "Direction", "Low", "Target", "Off [%]", "High", "Target", "Off [%]", "Standing")
    speeds = {(r.low_velocity, r.high_velocity) for r in view.ratios.values()}
    at = "; ".join(f"low {velocity.text(a)}, high {velocity.text(b)}" for a, b in sorted(speeds))
    return grid(f"Damping ratios ({at}, at the shock)", columns, rows,
                "In brackets the 95 % band; * lies beyond the tested speeds.")  # fmt: skip


def _pair(view: CarView, name: str, ratios: CornerRatios, direction: Direction) -> list[str]:
    targets = view.car.targets.get(axle_of(name))
    target = Target() if targets is None else (targets.compression if direction == "compression" else targets.rebound)
    cells: list[str] = []
    for level, wanted in (("low", target.low), ("high", target.high)):
        banded: Banded = getattr(ratios.side(direction), level)
        off = "–" if not wanted else signed(100 * (banded.value / wanted - 1), 0)
        cells += [ratio_text(banded), number(wanted, 2), off]
    return cells


def ratio_text(ratio: Banded) -> str:
    """Return a ratio with its band."""
    return f"{ratio.value:.2f} ({ratio.low:.2f} to {ratio.high:.2f}){'*' if ratio.extrapolated else ''}"


def ratios_standing(view: CarView, corner: str) -> str:
    """Return where the setting of a corner stands."""
    return view.curves[corner].standing if corner in view.curves else "–"


def _pictures(view: CarView, units: Shown) -> list[Block]:
    out: list[Block] = []
    for axle in ("front", "rear"):
        pairs = [(c, view.curves[c.name]) for c in view.car.axle(axle) if c.name in view.curves]
        if pairs:
            figure = report_plots.ratios(pairs, view.car.targets.get(axle), units)
            out.append(picture(figure, f"Damping ratios of the {axle} axle against velocity at the shock"))
    return out


def _choices(view: CarView) -> Grid:
    rows = []
    for ranked in view.choices:
        choice = ranked.choice
        ratios = [ratio_text(choice.ratio[d, level]) for d in DIRECTIONS for level in ("low", "high")]
        rows.append((choice.where, choice.pack, clicks_words(ranked.clicks), *ratios, f"{100 * choice.miss:.1f}",
                     choice.standing))  # fmt: skip
    columns = ("Where", "Pack", "Clicks", "Compr. low", "Compr. high", "Reb. low", "Reb. high", "Miss [%]", "Standing")
    return grid(
        "Settings nearest to the targets, best first", columns, rows, "Ratios are the mean of the axle's corners."
    )
