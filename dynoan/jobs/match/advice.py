"""What to turn on either of two shocks so that they are a pair, as the shock counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.analysis.matching.advice import Advice, advise
from dynoan.analysis.matching.assumptions import SPEEDS
from dynoan.errors import DynoanError, LookupFault
from dynoan.model.shock import Shock
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.model.clickmap import ClickMap
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class TurnAdvice:
    """What to turn on one of the two so that they are a pair, and by whose counting."""

    here: Resolved
    counting: Shock
    advice: Advice  #: in clicks from closed

    @property
    def shock(self) -> str:
        """The shock to turn; where it has no name, what it was named by."""
        return self.here.shock or self.here.label

    @property
    def clicks(self) -> dict[str, int]:
        """Where to go, as the shock counts."""
        return self.counting.to_counted(self.advice.clicks)

    @property
    def change(self) -> dict[str, int]:
        """From where it is, as the shock counts."""
        return self.counting.change_to_counted(self.advice.change)


def advised(bench: Workbench, pair: tuple[Resolved, Resolved], said: list[str]) -> list[TurnAdvice]:
    """Return what to turn on either, where its pack has a click map; why there is none goes to `said`."""
    out = []
    for here, other in (pair, pair[::-1]):
        if here.pack is None or not here.from_closed:
            continue
        try:
            map = bench.click_map(here.pack)
            found = advise(here.curve, other.curve, map, here.from_closed, SPEEDS[bench.units])
        except DynoanError as error:
            said.append(f"no advice for {here.label}: {error}")
            continue
        if found is not None:
            out.append(TurnAdvice(here, _counting(bench, map, here.shock), found))
    return out


def _counting(bench: Workbench, map: ClickMap, shock: str | None) -> Shock:
    """Return the shock whose counting is shown: one that only a file names counts as those with its pack do."""
    try:
        return bench.counting_of(map, shock)
    except LookupFault:
        return bench.counting_of(map)
