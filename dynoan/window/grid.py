"""What was tested, as a grid of shocks by packs; of many, a part at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from dynoan.model.adjusters import in_order

if TYPE_CHECKING:
    from dynoan.library import SweepRecord

SHOWN_SETTINGS = 12  #: of one cell; the rest is a click away
SHOWN_SHOCKS, SHOWN_PACKS = 30, 12  #: shocks at once, and packs of one of them
MOST_COLUMNS = 6  #: packs that stand side by side; of more, each shock shows its own alone

Clicks = tuple[tuple[str, int], ...]  #: of a setting, by adjuster
Key = tuple[str, str]  #: a shock and a pack


class TestedSetting(NamedTuple):
    """One setting of one shock and pack, and its runs."""

    clicks: Mapping[str, int]
    runs: int
    last: str  #: date of the newest

    @property
    def what(self) -> str:
        """The clicks as an address has them."""
        return ",".join(f"{k}={v}" for k, v in self.clicks.items())


class TestedCell(NamedTuple):
    """What was tested of one shock and pack."""

    shown: Sequence[TestedSetting]  #: the first of its settings, in order
    settings: int  #: how many there are
    runs: int


@dataclass(frozen=True)
class TestedGrid:
    """Shocks by packs."""

    packs: tuple[str, ...]
    shocks: tuple[str, ...]
    cells: Mapping[Key, Mapping[Clicks, Sequence[str]]]  #: the days of each setting's runs
    runs: Mapping[Key, int]
    unknown: Sequence[SweepRecord]  #: without a pack
    last: Mapping[str, Mapping[str, int]]  #: the highest click each shock was tested at, by adjuster

    @property
    def adjusters(self) -> list[str]:
        """The adjusters of one of its settings, in their order."""
        return [name for name, _ in min(next(iter(self.cells.values()), ((),)))]


def grid_of(records: Sequence[SweepRecord]) -> TestedGrid:
    """Return sweeps by shock and pack; "" stands for a shock nobody named."""
    groups: dict[Key, dict[Clicks, list[str]]] = {}
    last: dict[str, dict[str, int]] = {}
    in_one_order: dict[Clicks, Clicks] = {}
    for record in records:
        if not record.pack:
            continue
        shock, stated = record.shock or "", tuple(record.clicks.items())
        clicks = in_one_order.get(stated)
        if clicks is None:
            clicks = in_one_order[stated] = tuple(in_order(record.clicks).items())
        cell = groups.setdefault((shock, record.pack), {})
        days = cell.get(clicks)
        if days is None:  # as nearly all runs of a large library have a setting of their own
            days = cell[clicks] = []
            seen = last.setdefault(shock, {})
            for name, click in clicks:
                if click > seen.setdefault(name, 0):
                    seen[name] = click
        days.append((record.date or "")[:10])
    return TestedGrid(
        tuple(sorted({pack for _, pack in groups})), tuple(sorted({shock for shock, _ in groups})), groups,
        {key: sum(map(len, cell.values())) for key, cell in groups.items()}, [r for r in records if not r.pack], last,
    )  # fmt: skip


@dataclass(frozen=True)
class GridPart:
    """What of a grid is on the page."""

    grid: TestedGrid
    find: str  #: what is looked for in the names of shocks and packs
    first: int  #: number of the first shock shown, from 0
    found: int  #: how many shocks there are of what is looked for
    hidden: int  #: packs of the shocks shown that are not on the page
    sparse: bool  #: whether each shock shows its own packs alone, as there are too many for columns

    def cell(self, shock: str, pack: str) -> TestedCell:
        """Return what was tested of a shock and a pack."""
        found = self.grid.cells.get((shock, pack), {})
        shown = sorted(found)[:SHOWN_SETTINGS]
        settings = [TestedSetting(dict(clicks), len(found[clicks]), max(found[clicks])) for clicks in shown]
        return TestedCell(settings, len(found), self.grid.runs.get((shock, pack), 0))

    def packs_of(self, shock: str) -> list[str]:
        """Return the packs that a shock is shown with."""
        if not self.sparse:
            return list(self.grid.packs)
        return [pack for pack in self.grid.packs if (shock, pack) in self.grid.cells][:SHOWN_PACKS]

    @property
    def before(self) -> int | None:
        """Where the page before begins; None where there is none."""
        return max(0, self.first - SHOWN_SHOCKS) if self.first else None

    @property
    def after(self) -> int | None:
        """Where the next page begins; None where there is none."""
        return self.first + SHOWN_SHOCKS if self.first + SHOWN_SHOCKS < self.found else None


def part_of(grid: TestedGrid, find: str, first: int) -> GridPart:
    """Return the cells whose shock and pack, one after the other, hold what is looked for, from one shock on."""
    wanted = " ".join(find.casefold().split())
    near = [key for key in grid.cells if wanted in f"{key[0]} {key[1]}".casefold()]
    shocks = sorted({shock for shock, _ in near})
    first = first if first < len(shocks) else 0
    seen = tuple(shocks[first : first + SHOWN_SHOCKS])
    packs = sorted({pack for shock, pack in near if shock in set(seen)})
    cells = {k: grid.cells[k] for k in near if k[0] in seen}
    shown = TestedGrid(tuple(packs), seen, cells, grid.runs, grid.unknown, grid.last)
    left_out = sum(max(0, sum(key[0] == shock for key in cells) - SHOWN_PACKS) for shock in seen)
    return GridPart(shown, find, first, len(shocks), left_out, len(packs) > MOST_COLUMNS)
