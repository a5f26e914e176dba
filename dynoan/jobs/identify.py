"""Which known pack and clicks an unknown curve is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.identify import Candidate, Identification
from dynoan.analysis.clickmap.asked.identify import identify as identify_curve
from dynoan.analysis.clickmap.asked.telling import TellingRun, telling_run
from dynoan.analysis.clickmap.assumptions.identify import RIVAL, SURE
from dynoan.jobs.answering import Answer
from dynoan.model.clickmap import ClickMap
from dynoan.model.shock import Shock, clicks_text
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: oddities that say that clicks are not counted as taken
COUNTED = ("counted the other way", "counted two ways")


@dataclass(frozen=True)
class IdentifyQuestion:
    """What is unknown, and which packs it may be."""

    what: str  #: a rig's file, or a sweep's id
    packs: tuple[str, ...] | None = None  #: None: all in the library
    shock: str | None = None  #: the one it is in, where known: as it counts, and worn as it is

    @classmethod
    def asked(
        cls, what: str, *, packs: str | Iterable[str] | None = None, shock: str | None = None
    ) -> IdentifyQuestion:
        """Return the question from values as people give them; packs may stand in one text: "gravel,mixed"."""
        names = packs.split(",") if isinstance(packs, str) else packs
        return cls(what, tuple(n.strip() for n in names if n.strip()) if names and packs else None, shock)


@dataclass(frozen=True)
class Likely:
    """One pack an unknown curve may be, at its most probable clicks, as the shock counts."""

    candidate: Candidate  #: clicks from closed
    counting: Shock

    @property
    def clicks(self) -> dict[str, int]:
        """The most probable clicks."""
        return self.counting.to_counted(self.candidate.from_closed)

    @property
    def ranges(self) -> dict[str, tuple[int, int]]:
        """The least and the greatest clicks that hold 95 % of this pack's probability."""
        low, high = (self.counting.to_counted(ends) for ends in (self.candidate.low, self.candidate.high))
        return {n: (min(low[n], high[n]), max(low[n], high[n])) for n in low}


@dataclass(frozen=True)
class Named:
    """What one unknown curve is."""

    unknown: Resolved
    found: Identification
    matches: tuple[Likely, ...]  #: best first
    telling: TellingRun | None = None  #: the run that would tell, where it cannot be told

    def telling_clicks(self) -> dict[str, int] | None:
        """Return the clicks of the run that would tell, as the likeliest pack's shock counts."""
        return None if self.telling is None else self.matches[0].counting.to_counted(self.telling.from_closed)


@dataclass(frozen=True)
class IdentifyAnswer(Answer):
    """What each curve of what was named is."""

    job: ClassVar[str] = "identify"
    question: IdentifyQuestion
    named: tuple[Named, ...]

    @property
    def no(self) -> bool:
        """Whether one of them is none of the known packs, or it cannot be told."""
        return any(one.found.verdict != "pack" for one in self.named)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan identify --json`` prints it: the first, and all where there are several."""
        bodies = [{"what": one.unknown.label, "verdict": one.found.verdict, "probability_of_none": one.found.none,
                   "untested_adjusters": {pack: list(names) for pack, names in one.found.untested.items()},
                   "telling_run": _telling(one), "matches": [_dict(m) for m in one.matches]}
                  for one in self.named]  # fmt: skip
        return bodies[0] if len(bodies) == 1 else {**bodies[0], "all": bodies}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a curve and pack it may be, best first."""
        return [{"what": one.unknown.label, "verdict": one.found.verdict, **_dict(m)}
                for one in self.named for m in one.matches]  # fmt: skip


def _telling(one: Named) -> dict[str, Any] | None:
    return None if one.telling is None else {"clicks": one.telling_clicks(), "tells": one.telling.tells}


def _dict(one: Likely) -> dict[str, Any]:
    found, ranges = one.candidate, one.ranges
    return {
        "pack": found.pack, "clicks": one.clicks, "difference_pct": found.difference,
        "probability": found.probability, "fit_p": found.surprise,
        "clicks_low": {n: low for n, (low, _) in ranges.items()},
        "clicks_high": {n: high for n, (_, high) in ranges.items()},
    }  # fmt: skip


def answer(bench: Workbench, question: IdentifyQuestion) -> IdentifyAnswer:
    """Return which pack each curve of what is named is, every click of every pack tried.

    Raises
    ------
    LookupFault
        If the library holds nothing of it, or no sweep of a pack.
    CallError
        If no pack is known, or the curve shares no speeds with them.
    """
    unknown = bench.resolve(question.what)
    maps = bench.click_maps(list(bench.library.packs() if question.packs is None else question.packs))
    counting = {name: bench.counting_of(map, question.shock) for name, map in maps.items()}
    named = tuple(_named(one, maps, counting, question.shock) for one in unknown)
    said = dict.fromkeys(text for one in named for text in (*_warnings(one, maps), *_kept(bench, question.what, one)))
    return IdentifyAnswer(question, named, warnings=tuple(said))


def _named(one: Resolved, maps: Mapping[str, ClickMap], counting: Mapping[str, Shock], shock: str | None) -> Named:
    dates = [sweep.date for sweep in one.sweeps if sweep.date]
    found = identify_curve(one.curve, list(maps.values()), shock or one.shock, max(dates, default=None))
    matches = tuple(Likely(c, counting[c.pack]) for c in found.candidates)
    if found.verdict != "cannot tell" or found.untested:
        return Named(one, found, matches)
    rivals = [c for c in found.candidates if c.probability > RIVAL] or [found.candidates[0]]
    run = telling_run([maps[c.pack] for c in rivals], [c.from_closed for c in rivals])
    return Named(one, found, matches, run)


def _kept(bench: Workbench, what: str, one: Named) -> list[str]:
    """Return as what the run of a file is kept, where it is in the library: then it is no unknown one."""
    if not Path(what).is_file():
        return []
    sources = {(sweep.source.sha256, sweep.source.part) for sweep in one.unknown.sweeps}
    here = [r for r in bench.records if (r.sha256, r.part) in sources]
    facts = [", ".join(filter(None, (r.shock, r.pack, clicks_text(r.clicks)))) for r in here]
    return [f"{one.unknown.label} is kept here as {r.id}: {of}" for r, of in zip(here, facts, strict=True)]


def _warnings(one: Named, maps: Mapping[str, ClickMap]) -> list[str]:
    best = one.found.candidates[0]
    said = list(one.unknown.curve.warnings)
    for rival in (c for c in one.found.candidates if c is best or c.probability > RIVAL):
        map = maps[rival.pack]
        # That clicks are counted otherwise than taken comes before what is said of clicks.
        told = [*(odd.words for odd in map.oddities if odd.kind in COUNTED), *map.at_rest]
        said += [f"pack {rival.pack}: {words}" for words in dict.fromkeys(told)]
    if maps[best.pack].view == "single":
        said.append(f"pack {best.pack} has one tested setting: its clicks cannot be told")
    stated = one.unknown.pack
    probability = {c.pack: c.probability for c in one.found.candidates}
    if stated and stated != best.pack and (one.found.verdict == "pack" or probability.get(stated, 1.0) < 1 - SURE):
        # Whether it is the next one or a pack that nobody tested, it is not the one written.
        other = best.pack if best.probability > RIVAL else "another"
        said.append(f"the file says pack {stated}; the curve says {other}")
    return said
