"""Which shocks of a batch go together, as people read it in a terminal."""

from __future__ import annotations

from dynoan.jobs.match.pairs import Pair, PairsAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.match import places
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown


def blocks(answer: PairsAnswer, look: Look) -> list[Block]:
    """Return what people read: the pairs, most alike first, and who is left over."""
    columns = ["pair", "worst difference", "where", f"at ±{answer.question.tolerance:g} %"]
    rows = [_row(pair, look.units) for pair in answer.pairs]
    left = [Paragraph(f"left over: {name}") for name in answer.left_over]
    return [Table(columns, rows, "the pairing with the smallest worst difference"), *left]


def _row(pair: Pair, units: Shown) -> list[str]:
    worst, velocity = pair.worst, shown("velocity", units)
    where = f"{worst.direction} {velocity.text(worst.speed)}"
    return [f"{pair.first} with {pair.second}", f"{signed(worst.difference, places(worst))} %", where, pair.verdict]
