"""What `identify` found, as people read it in a terminal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dynoan.analysis.clickmap.asked.identify import Candidate, Identification
from dynoan.analysis.clickmap.asked.telling import TellingRun
from dynoan.analysis.clickmap.assumptions.identify import NEVER_SO_POOR, REFUSED, RIVAL
from dynoan.jobs.identify import IdentifyAnswer, Likely, Named
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import enumerated

#: a pack less probable than this is shown only where it is among the first three
SHOWN, FIRST = 0.01, 3
#: a true one would fit worse more often than this: it fits well
WELL = 0.2
#: a pack more probable than this is probably the one
PROBABLY = 0.5
COLUMNS = (
    "pack",
    "probability",
    "clicks",
    "clicks lie within (95 %)",
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
    return [
        Paragraph(head),
        Table(COLUMNS, [_row(m, number == 0, one.found.untested) for number, m in enumerate(likely)]),
        Paragraph(counted),
    ]


def verdict_words(found: Identification, telling: TellingRun | None = None) -> str:
    """Return the verdict as a sentence."""
    best = found.candidates[0]
    if found.verdict == "pack":
        return f"pack {best.pack}"
    if found.verdict == "none of these":
        return "none of these packs; the nearest differ by more than their shocks do from one another"
    if found.untested:
        return _untested_words(found.untested)
    rivals = [
        f"pack {c.pack} ({100 * c.probability:.0f} %{_but(c)})" for c in found.candidates if c.probability > RIVAL
    ]
    rivals += [f"a pack that is not here ({100 * found.none:.0f} %)"] if found.none > RIVAL else []
    if len(rivals) == 1:
        return f"cannot tell, {rivals[0]} is not sure enough" + _telling_words(telling, alone=True)
    alone = sum(c.probability > RIVAL for c in found.candidates) < 2
    if best.probability > PROBABLY:
        return f"cannot tell for sure: probably {rivals[0]}, else {_either(rivals[1:])}" + _telling_words(
            telling, alone
        )
    return f"cannot tell between {', '.join(rivals[:-1])} and {rivals[-1]}" + _telling_words(telling, alone)


def _untested_words(untested: Mapping[str, Sequence[str]]) -> str:
    """Return which pack it may be all the same, at clicks that no test of that pack tells of, and what would tell."""
    may = "; ".join(f"no test of pack {pack} moved {' or '.join(names)}" for pack, names in untested.items())
    ends = "; ".join(f"{pack} with {enumerated(names)} all in, and all out" for pack, names in untested.items())
    return (f"cannot tell: it fits no pack at the clicks that were tested, but {may}, so it may be "
            f"{_either(list(untested))} at other clicks; runs would tell of {ends}")  # fmt: skip


def _either(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} or {names[-1]}" if len(names) > 1 else names[0]


def _but(one: Candidate) -> str:
    """Return how poorly a rival fits, where it does, as the table below says it."""
    words = {"poorly": ", fits poorly", "not": ", does not fit"}
    return words.get(_fit(one), "")


def _fit(one: Candidate) -> str:
    """Return how well a pack fits at its best clicks."""
    words = ((WELL, "well"), (REFUSED, "fairly"), (NEVER_SO_POOR, "poorly"))
    return next((word for least, word in words if one.surprise >= least), "not")


def _telling_words(run: TellingRun | None, alone: bool) -> str:
    """Return which run would tell; `alone`: from a pack that nobody tested, of which nobody knows where it differs."""
    if run is None:
        return "; with nothing to turn only further runs of the known packs would tell"
    inward = [name for name, click in run.from_closed.items() if click == 0]
    outward = [name for name in run.from_closed if name not in inward]
    ends = [f"{', '.join(names)} all {way}" for names, way in ((inward, "in"), (outward, "out")) if names]
    where = f"a run of it with {enumerated(ends)}"
    if alone:
        return f"; {where} tells most: two packs that are alike here by chance are seldom so there too"
    return f"; {where} would tell" if run.tells else f"; {where} tells most, yet not enough: test the packs there too"


def _row(one: Likely, first: bool, untested: Mapping[str, Sequence[str]]) -> list[str]:
    found = one.candidate
    within = ", ".join(f"{n} {low}–{high}" for n, (low, high) in one.ranges.items())
    return [found.pack, f"{100 * found.probability:.0f} %", clicks_text(one.clicks) or "–", within or "–",
            f"{found.difference:.1f} %", _fit(found),
            f"at other clicks of {' or '.join(untested[found.pack])} it may fit" if found.pack in untested
            else _why(found, first)]  # fmt: skip


def _why(one: Candidate, first: bool) -> str:
    """Return what decides a candidate's place: how well its best clicks fit, against how much the map allows there."""
    if one.surprise < REFUSED:
        near = first and one.probability > RIVAL
        return f"{'the nearest, yet it' if near else 'it'} differs by more than its band allows"
    if first:
        return "likeliest: over all its clicks it fits best"
    return "fits too, less likely over all its clicks" if one.probability > RIVAL else "fits, but others fit better"
