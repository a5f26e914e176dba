"""What decides where the driven wheels spin, as people read it."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.jobs.launch.figures import BY_KEY
from dynoan.jobs.launch.levers import MOVED, OF_SHOCKS, Kind, Lever, lesser, most
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown

_OTHERS: tuple[tuple[Kind, str], ...] = (
    ("foot", "a lighter foot"),
    ("slip", "a driver who lifts"),
    ("ground", "the grip when sliding"),
)


def blocks(levers: Sequence[Lever], look: Look) -> list[Block]:
    """Return a table a surface of what each lever changes, and which of them decide; nothing where no wheel spins."""
    out: list[Block] = []
    for surface in dict.fromkeys(one.surface for one in levers):
        here = [one for one in levers if one.surface == surface]
        shown = [one for one in here if not one.axle or one is _most_of(here, one)]
        measures = [BY_KEY[key] for key in MOVED]
        heads = ["", *(f"{m.words} [{m.unit_text(look.units)}]" for m in measures)]
        rows = [[_named(one, look.units), *(_signed(one, key, look.units) for key in MOVED)] for one in shown]
        out += [Table(heads, rows, f"What decides on {surface}: each alone, by how much more or less"),
                Paragraph(sentence(surface, here, look.units))]  # fmt: skip
    return out


def _most_of(levers: Sequence[Lever], like: Lever) -> Lever:
    """Return which of an axle's clicks, open or shut, moves most: one line of a table is enough for both."""
    both = [one for one in levers if (one.kind, one.axle) == (like.kind, like.axle)]
    return max(both, key=lambda one: abs(one.changes[MOVED[0]]))


def _named(one: Lever, units: Shown) -> str:
    said = one.said(units)
    return f"{said}, with that foot" if one.kind == "shocks with that foot" else said


def _signed(one: Lever, key: str, units: Shown) -> str:
    value = one.changes[key]
    if value != value:
        return "–"
    text = BY_KEY[key].display(units).text(value, unit=False)
    return text if text.startswith("-") or not float(text) else f"+{text}"


def sentences(levers: Sequence[Lever], units: Shown) -> tuple[str, ...]:
    """Return what gets the car farther, a sentence a surface on which the wheels spin."""
    surfaces = dict.fromkeys(one.surface for one in levers)
    return tuple(sentence(name, [one for one in levers if one.surface == name], units) for name in surfaces)


def sentence(surface: str, levers: Sequence[Lever], units: Shown) -> str:
    """Return what gets the car farther on a surface: the foot, the ground, or the shocks."""
    measure = BY_KEY[MOVED[0]]

    def way(value: float) -> str:
        return f"{measure.display(units).text(value, unit=False)} {measure.unit_text(units)}"

    found = [(most(levers, (kind,)), words) for kind, words in _OTHERS]
    told = [f"{words} {way(value)}" for value, words in sorted(found, reverse=True) if value > 0]
    shocks = most(levers, OF_SHOCKS)
    worth = f"{', '.join(told)}, all clicks of an axle {way(shocks)} at most"
    if lesser(levers):
        return (
            f"On {surface} the driven wheels spin, and the shocks hardly decide how far the car gets: {worth}. Settle "
            "foot and tyres first, and judge clicks there by the tyres' load and the nose."
        )
    return f"On {surface} the driven wheels spin, and the shocks count for how far the car gets, too: {worth}."
