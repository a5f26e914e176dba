"""What a search of an axle's clicks found, as people read it in a terminal."""

from __future__ import annotations

from dynoan.jobs.launch.best import BestClicksAnswer
from dynoan.jobs.launch.figures import BY_KEY
from dynoan.model.shock import clicks_text
from dynoan.show.text import launch
from dynoan.show.text.blocks import Block, Look, Table
from dynoan.units import Shown


def blocks(answer: BestClicksAnswer, look: Look) -> list[Block]:
    """Return the trade-off line, then what is on the car beside the best."""
    return [_trade_off(answer, look.units), *launch.blocks(answer, look)]


def _trade_off(answer: BestClicksAnswer, units: Shown) -> Table:
    found = answer.search
    axes = [BY_KEY[key] for key in found.axes]
    rows = []
    if found.now is not None:
        now = {key: float(values[found.now]) for key, values in found.figures.items()}
        rows.append(["now", "as on the car", *(launch.with_unit(m, now, units) for m in axes), ""])
    for t in answer.trade_off:
        reached = [launch.with_unit(m, t.figures, units) for m in axes]
        rows.append(["best" if t.best else "", clicks_text(t.clicks), *reached, t.standing])
    return Table(
        ["", f"clicks, {answer.axle}", *(m.words for m in axes), "stands"], rows,
        f"{found.possible or len(found.clicks)} settings, {len(found.clicks)} run; the best and the trade-off line "
        "(nothing beats these in both)",
    )  # fmt: skip
