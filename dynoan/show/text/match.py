"""What `match` found, as people read it in a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.analysis.matching.match import Band, Match
from dynoan.cautions import SHORT
from dynoan.jobs.match import MatchAnswer
from dynoan.jobs.match.advice import TurnAdvice
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import clicks_text, turn_words
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.signs import signed
from dynoan.units import Shown, enumerated, percent_places, shown

#: half an interval of so many tolerances is wide for what a record does not tell, whatever number of them there is
WIDE = 2.0
OPEN = "cannot tell"


def blocks(answer: MatchAnswer, look: Look) -> list[Block]:
    """Return what people read: each setting with its bands, the verdict, what to turn, and the cautions."""
    out: list[Block] = []
    for one in answer.settings:
        head = f"{one.first.label}  against  {one.second.label}: {one.match.verdict}"
        out += [Paragraph(head), bands(one.match, look.units), blank()]
    lines = [f"{answer.verdict} at ±{answer.question.tolerance:g} %", *sentences(answer, look.units)]
    return [*out, *map(Paragraph, lines), *([Paragraph(f"\n{SHORT}")] if answer.advice else [])]


def sentences(answer: MatchAnswer, units: Shown = "metric") -> list[str]:
    """Return what is advised: how many more runs where it cannot be told, and what to turn."""
    found = [one.match for one in answer.settings]
    more = [*known_part(found, units), more_runs(found)] if answer.verdict == "cannot tell" else []
    return [*more, *map(advice_words, answer.advice)]


def known_part(found: Sequence[Match], units: Shown) -> list[str]:
    """Return at which speeds two are a pair in all their settings, where at others it cannot be told; none: nothing."""
    velocity = shown("velocity", units)
    parts = []
    for direction in DIRECTIONS:
        every = [band for one in found for band in one.bands if band.direction == direction]
        open_ = {band.speed for one in found for band in one.bands
                 if band.direction == direction and _place(band, one.tolerance) == OPEN}  # fmt: skip
        alike = sorted({band.speed for band in every} - open_)
        if alike:
            span = " to ".join(velocity.text(speed, unit=False) for speed in dict.fromkeys((alike[0], alike[-1])))
            gaps = [speed for speed in sorted(open_) if alike[0] < speed < alike[-1]]
            but = f" but for {', '.join(velocity.text(speed, unit=False) for speed in gaps)}" if gaps else ""
            parts.append(f"in {direction} at {span} {velocity.unit}{but}")
    return [f"they are a pair {enumerated(parts)}; at the other speeds it cannot be told"] if parts else []


def bands(found: Match, units: Shown) -> Table:
    """Return the differences of a pair by direction and speed, with their intervals."""
    force, velocity = shown("force", units), shown("velocity", units)
    columns = [
        "direction",
        f"velocity {velocity.unit}",
        "first stiffer by",
        "95 % limits",
        f"in {force.unit}",
        "tolerance",
    ]
    rows = [
        [b.direction, velocity.text(b.speed, unit=False), f"{signed(b.difference, places(b))} %",
         f"{signed(b.low, places(b))} to {signed(b.high, places(b))} %", force.text(b.newtons, unit=False),
         _place(b, found.tolerance)]
        for b in found.bands
    ]  # fmt: skip
    return Table(columns, rows)


def places(band: Band) -> int:
    """Return to how many decimals a difference is told."""
    return percent_places(band.low, band.high)


def _place(band: Band, tolerance: float) -> str:
    if band.low > tolerance or band.high < -tolerance:
        return "outside"
    return "inside" if band.low >= -tolerance and band.high <= tolerance else OPEN


def more_runs(found: list[Match]) -> str:
    """Return how many more runs of each would settle what cannot be told, in words."""
    needs = [m.repeats for m in found if m.verdict == "cannot tell"]
    known = [n for n in needs if n is not None]
    if known and len(known) == len(needs):
        more = max(known)
        return f"about {more} more run{'s' if more > 1 else ''} of each would settle it"
    open_ = [(one, band) for one in found for band in one.bands if _place(band, one.tolerance) == OPEN]
    worst, wide = max(open_, key=lambda pair: pair[1].high - pair[1].low)
    half = (wide.high - wide.low) / 2
    if half > WIDE * worst.tolerance:
        return (f"what cannot be told is so for what the records tell, not for scatter (± {half:.0f} % at worst, in "
                f"{wide.direction}): a peak table or a run at one speed leaves friction in; traces of both over "
                "several speeds would tell")  # fmt: skip
    return "the difference lies so near the tolerance that no reasonable number of runs would settle it"


def advice_words(one: TurnAdvice) -> str:
    """Return what to turn, where it then stands, and how alike the two then are, in words."""
    turn = f"turn {one.shock}: {turn_words(one.advice.change)}"
    there = f"to {clicks_text(one.clicks)} ({one.counting.counted_words()})"
    return f"{turn}, {there}; they then differ by at most {one.advice.worst:.1f} %"
