"""Which settings stand in for one, as people read it in a terminal."""

from __future__ import annotations

from dynoan.cautions import SHORT
from dynoan.jobs.assumptions import CLOSE_PCT
from dynoan.jobs.equal_to import EqualToAnswer, StandIn
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown, shown

COLUMNS = ("pack", "clicks", "worst difference", "where", "± (95 %)", "mean", "tested?")


def blocks(answer: EqualToAnswer, look: Look) -> list[Block]:
    """Return what people read: the stand-ins, best first, whether any is close enough, and the cautions."""
    head = f"closest to {answer.wanted.label}; {answer.stand_ins[0].counting.counted_words()}"
    rows = [_row(one, look.units) for one in answer.stand_ins]
    none = f"none comes within {CLOSE_PCT:.0f} % at every speed: no setting stands in for it"
    return [
        Paragraph(head),
        Table(COLUMNS, rows),
        *([Paragraph(none)] if answer.no else []),
        Paragraph(f"\n{SHORT}"),
    ]


def _row(one: StandIn, units: Shown) -> list[str]:
    found, velocity = one.found, shown("velocity", units)
    return [found.pack, clicks_text(one.clicks), f"{found.worst:.1f} %",
            f"{found.worst_direction} {velocity.text(found.worst_speed)}", f"{found.band:.1f} %", f"{found.mean:.1f} %",
            found.standing]  # fmt: skip
