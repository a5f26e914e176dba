"""Which clicks of another pack or shock stand in for a setting."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.equivalent import Equivalent, equivalents
from dynoan.analysis.clickmap.at_clicks import curve_at
from dynoan.analysis.clickmap.every_click.one_shock import named_shock
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer
from dynoan.jobs.assumptions import CLOSE_PCT, MEAN_COUNTS
from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.shock import Shock
from dynoan.workbench.resolving import Resolved, parse_wanted

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: settings shown of each pack or shock
FROM_EACH = 3


@dataclass(frozen=True)
class EqualToQuestion:
    """For what a stand-in is wanted, and where it is looked for."""

    setting: str  #: a rig's file, a sweep's id, or one setting such as "gravel@lsc=6,lsr=8"
    among: tuple[str, ...] = ()  #: packs, or shocks as "shock=RR-04"; none: all other packs


@dataclass(frozen=True)
class StandIn:
    """One setting that stands in, how well, and by whose counting its clicks are given."""

    found: Equivalent
    map: ClickMap
    counting: Shock

    @property
    def clicks(self) -> dict[str, int]:
        """Its clicks, as the shock counts them."""
        return self.counting.to_counted(self.found.from_closed)

    @property
    def curve(self) -> Curve:
        """Its curve."""
        return curve_at(self.map, self.found.from_closed, clicks=self.clicks)


@dataclass(frozen=True)
class EqualToAnswer(Answer):
    """The settings that come closest, best first."""

    job: ClassVar[str] = "equal_to"
    question: EqualToQuestion
    wanted: Resolved
    stand_ins: tuple[StandIn, ...]

    @property
    def no(self) -> bool:
        """Whether none comes within `CLOSE_PCT` at every speed."""
        return self.stand_ins[0].found.worst > CLOSE_PCT

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan compare --equal-to … --json`` prints it."""
        return {"equal_to": self.wanted.label, "equivalents": self.rows()}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a stand-in, best first."""
        return [_row(one) for one in self.stand_ins]


def _row(one: StandIn) -> dict[str, Any]:
    found = one.found
    return {
        "pack": found.pack, "shock": one.counting.name or None, "clicks": one.clicks,
        "counted": one.counting.counted_words(), "worst_difference_pct": found.worst,
        "mean_difference_pct": found.mean, "worst_direction": found.worst_direction,
        "worst_velocity_m_s": found.worst_speed, "band_pct": found.band, "standing": found.standing,
        "view": one.map.view,
    }  # fmt: skip


def answer(bench: Workbench, question: EqualToQuestion) -> EqualToAnswer:
    """Return the settings that come closest to one at every speed, every click of every pack tried.

    Raises
    ------
    LookupFault
        If the library holds nothing of it, or no sweep of a pack to search.
    CallError
        If not one setting is named, or there is nothing to search.
    """
    wanted = bench.resolve(question.setting)
    if len(wanted) != 1:
        raise CallError(
            f"'{question.setting}' names {len(wanted)} settings", hint="name one with its clicks", part="equal_to"
        )
    maps = _maps(bench, question.among, wanted[0])
    found = [StandIn(e, map, counting) for map, counting in maps
             for e in equivalents(wanted[0].curve, [map], count=FROM_EACH)]  # fmt: skip
    found.sort(key=lambda one: one.found.worst + MEAN_COUNTS * one.found.mean)
    said = dict.fromkeys(f"pack {map.pack}: {note}" for map, _ in maps for note in map.notes)
    return EqualToAnswer(question, wanted[0], tuple(found), warnings=tuple(said))


def _maps(bench: Workbench, among: Sequence[str], wanted: Resolved) -> list[tuple[ClickMap, Shock]]:
    names: list[tuple[str, str | None]] = []
    for one in among or tuple(p for p in bench.library.packs() if p != wanted.pack):
        names += _searched(bench, one) if "=" in one else [(one, None)]
    if not names:
        raise CallError("no other pack to search", hint="add sweeps of one, or name a shock as shock=NAME")
    out = []
    for pack, shock in names:
        map = bench.click_map(pack)
        out.append((named_shock(map, shock) if shock else map, bench.counting_of(map, shock)))
    return out


def _searched(bench: Workbench, one: str) -> list[tuple[str, str | None]]:
    asked = parse_wanted(one)
    if asked.pack:
        return [(asked.pack, asked.shock)]
    packs = sorted({r.pack for r in bench.records if r.shock == asked.shock and r.pack})
    if not packs:
        raise CallError(f"the library holds no sweep of shock '{asked.shock}' with a pack")
    return [(pack, asked.shock) for pack in packs]
