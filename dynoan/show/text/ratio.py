"""What `ratio` found, as people read it in a terminal."""

from __future__ import annotations

from dynoan.analysis.corner.car_modes import CarModes
from dynoan.jobs.car_spread import OF_CORNER
from dynoan.jobs.measures import cells
from dynoan.jobs.ratio import RatioAnswer
from dynoan.jobs.ratio.figures import CORNER, DIRECTION, SideFound
from dynoan.model.car import CORNER_NAMES
from dynoan.model.curve import DIRECTIONS
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank, or_dash
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown


def blocks(answer: RatioAnswer, look: Look) -> list[Block]:
    """Return the tables people read."""
    out: list[Block] = [_corners(answer, look.units)]
    if answer.ratios:
        out += [blank(), *_ratios(answer, look.units), blank(), _balance(answer)]
    if answer.modes is not None:
        out += [blank(), *_modes(answer.modes, look.units)]
    return [*out, blank(), *_more(answer, look.units)] if look.more else out


def _corners(answer: RatioAnswer, units: Shown) -> Table:
    named = {CORNER_NAMES[name]: corner for name, corner in answer.corners.items()}
    columns, rows = cells(CORNER, named, units, ("always",))
    on_it = [c.curve.what if c.curve is not None else "–" for c in named.values()]
    return Table(
        ["corner", *columns, "on it"], [[*row, what] for row, what in zip(rows, on_it, strict=True)],
        f"{answer.car.name}: the corners (ride: swings of the body on its spring; hop: of the wheel on its tyre; "
        "sinks: under its own weight, at the wheel, linear spring)",
    )  # fmt: skip


def _ratios(answer: RatioAnswer, units: Shown) -> list[Block]:
    rows = []
    for name, corner in answer.ratios.items():
        for direction in DIRECTIONS:
            side = SideFound(corner, corner.side(direction))
            rows.append([CORNER_NAMES[name], direction, *(m.text(side, units) for m in DIRECTION)])
    columns = ["corner", "direction", *(m.column(units) for m in DIRECTION)]
    means = ", ".join(f"{CORNER_NAMES[name]} {corner.mean:.2f}" for name, corner in answer.ratios.items())
    told = f"mean of low and high, both directions: {means}.\n{which_is_which(answer, units)}"
    words = Paragraph(told + _unsure(answer))
    return [Table(columns, rows, "Damping ratios (95 % limits)"), words]


def _unsure(answer: RatioAnswer) -> str:
    keys = [key for key in answer.car.plus_minus if key.rpartition(".")[2] in OF_CORNER]
    return f"\nThe limits hold the ± of the car's file too: {', '.join(keys)}." if keys else ""


def which_is_which(answer: RatioAnswer, units: Shown) -> str:
    """Return what each damping ratio is of; the answer must have ratios."""
    velocity, length = shown("velocity", units), shown("length", units)
    found = list(answer.ratios.values())
    motion = found[0].motion
    pairs = " or ".join(
        f"{velocity.text(a)} and {velocity.text(b)}"
        for a, b in sorted({(c.low_velocity, c.high_velocity) for c in found})
    )
    sigma = ", ".join(sorted({velocity.text(c.motion.sigma) for c in found}))
    return (
        f"low, high: force over velocity (secant) at {pairs} at the shock; slope: of the curve there (tangent).\n"
        f"body swing: as much energy as in a swing of ±{length.text(motion.body_amplitude)} at the wheel at ride "
        f"frequency; "
        f"wheel hop: ±{length.text(motion.hop_amplitude)} at hop frequency, "
        f"over the hop's own critical damping; rough road: as much power as in random motion of "
        f"{sigma} rms at the shock."
    )


def _balance(answer: RatioAnswer) -> Table:
    b = answer.balance
    rows = [
        ["front : rear", d, *(or_dash(b.front_rear.get((d, at)), ".2f") for at in ("low", "high"))]
        for d in DIRECTIONS if b.front_rear
    ]  # fmt: skip
    for axle in dict.fromkeys(key[0] for key in b.left_right):
        rows += [
            [f"left : right, {axle}", d, *(f"{b.left_right[axle, d, at]:.2f}" for at in ("low", "high"))]
            for d in DIRECTIONS
        ]
    rows += [
        ["rebound : compression", CORNER_NAMES[n], *(f"{b.rebound_compression[n, at]:.2f}" for at in ("low", "high"))]
        for n in answer.ratios
    ]
    return Table(["balance", "of", "low", "high"], rows)


def _modes(modes: CarModes, units: Shown) -> list[Block]:
    groups = (("half", modes.half), ("full", modes.full))
    rows = [[f"{kind} car", plain_mode(name), f"{modes.simple[name]:.2f}", f"{mode.frequency:.2f}",
             f"{signed(100 * (mode.frequency / modes.simple[name] - 1), 1)} %", f"{mode.ratio:.2f}"]
            for kind, group in groups for name, mode in group.items()]  # fmt: skip
    table = Table(["model", "how it swings (mode)", "each alone Hz", "together Hz", "difference", "ratio"], rows,
                  "How the car swings (natural frequencies; dampers as in body swing and wheel hop)")  # fmt: skip
    notes = [Paragraph(f"Note: {text}; give it in the car file for a better figure.") for text in modes.estimated]
    return [table, Paragraph(why_different(modes, units)), *notes]


def plain_mode(name: str) -> str:
    """Return what a mode of the car does, with the textbook's name for it in brackets.

    >>> plain_mode("front tramp"), plain_mode("roll")
    ('front wheels opposed (tramp)', 'roll')
    """
    axle, _, last = name.rpartition(" ")
    how = {"heave": "body up and down", "pitch": "body nods", "hop": "wheels together", "tramp": "wheels opposed"}
    return f"{axle} {how[last]} ({last})".strip() if last in how else name


def why_different(modes: CarModes, units: Shown) -> str:
    """Return why the coupled frequencies differ from the simple ones, in words."""
    length = shown("length", units)
    way = "ahead of" if modes.spring_centre > 0 else "behind"
    return (
        "Why they differ: each alone is one thing that moves on spring and tyre, the rest held still. In the car the "
        f"wheels move along, the springs' centre lies {length.text(abs(modes.spring_centre))} {way} the centre of "
        "gravity, so that the body nods as it goes up and down, and the dampers tie wheel and body together. So the "
        "ratio of a mode is not a corner's ratio either.\nAnti-roll bars are left out: real roll is faster."
    )


def _more(answer: RatioAnswer, units: Shown) -> list[Block]:
    named = {CORNER_NAMES[n]: c for n, c in answer.corners.items() if c.ratios is not None}
    columns, rows = cells(CORNER, named, units, ("more",))
    coupled = [c.ratios.coupled if c.ratios is not None else None for c in named.values()]
    both = [[f"{x:.2f}" for x in pair] if pair else ["–", "–"] for pair in coupled]
    table = Table(["corner", "quarter car body ratio", "hop ratio", *columns],
                  [[row[0], *two, *row[1:]] for row, two in zip(rows, both, strict=True)])  # fmt: skip
    note = "Smoothest ride, steadiest tyre load: the ratios that a linear quarter car on a random road would want."
    return [table, Paragraph(note)]
