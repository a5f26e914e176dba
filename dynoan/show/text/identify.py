"""What `identify` found, as people read it in a terminal."""

from __future__ import annotations

from dynoan.analysis.clickmap.assumptions import REFUSED, RIVAL
from dynoan.analysis.clickmap.identify import Identification
from dynoan.analysis.clickmap.telling import TellingRun
from dynoan.jobs.identify import IdentifyAnswer, Likely, Named
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Paragraph, Table

#: a pack less probable than this is shown only where it is among the first three
SHOWN, FIRST = 0.01, 3
#: a true one would fit worse more often than this: it fits well
WELL = 0.2
COLUMNS = (
    "pack",
    "probability",
    "clicks",
    "they lie within (95 %)",
    "mean difference",
    "how well it fits",
    "why here",
)


def blocks(answer: IdentifyAnswer, look: Look) -> list[Block]:
    """Return what people read of each curve: the verdict, the packs it may be, and how clicks are counted."""
    return [block for one in answer.named for block in _named(one)]


def _named(one: Named) -> list[Block]:
    likely = [m for i, m in enumerate(one.matches) if i < FIRST or m.candidate.probability > SHOWN]
    head = f"{one.unknown.label}: {verdict_words(one.found, one.telling)}"
    counted = one.matches[0].counting.counted_words()
    return [Paragraph(head), Table(COLUMNS, [_row(m) for m in likely]), Paragraph(counted)]


def verdict_words(found: Identification, telling: TellingRun | None = None) -> str:
    """Return the verdict as a sentence."""
    best = found.candidates[0]
    if found.verdict == "pack":
        return f"pack {best.pack}"
    if found.verdict == "none of these":
        return "none of these packs; the nearest differ by more than their shocks do from one another"
    rivals = [f"pack {c.pack}" for c in found.candidates if c.probability > RIVAL]
    rivals += ["a pack that is not here"] if found.none > RIVAL else []
    return f"cannot tell between {' and '.join(rivals)}" + _telling_words(telling)


def _telling_words(run: TellingRun | None) -> str:
    if run is None:
        return "; with nothing to turn only further runs of the known packs would tell"
    inward = [name for name, click in run.from_closed.items() if click == 0]
    outward = [name for name in run.from_closed if name not in inward]
    ends = [f"{', '.join(names)} all {way}" for names, way in ((inward, "in"), (outward, "out")) if names]
    where = f"a run of it with {' and '.join(ends)}"
    return f"; {where} would tell" if run.tells else f"; {where} tells most, yet not enough: test the packs there too"


def _row(one: Likely) -> list[str]:
    found = one.candidate
    within = ", ".join(f"{n} {low}–{high}" for n, (low, high) in one.ranges.items())
    fits = "well" if found.surprise > WELL else "fairly" if found.surprise >= REFUSED else "not"
    return [found.pack, f"{100 * found.probability:.0f} %", clicks_text(one.clicks) or "–", within or "–",
            f"{found.difference:.1f} %", fits, _why(one)]  # fmt: skip


def _why(one: Likely) -> str:
    """Return what decides a candidate's place: how well its best clicks fit, against how much the map allows there."""
    found = one.candidate
    if found.probability > RIVAL:
        return "likeliest over all its clicks" if found.surprise >= REFUSED else "the nearest, yet it fits poorly"
    return "fits, but others fit better" if found.surprise > WELL else "differs by more than its band allows"
