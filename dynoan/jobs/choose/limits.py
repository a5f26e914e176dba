"""What may be used, and when a ratio counts as kept: packs, clicks, tolerance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dynoan.analysis.choosing.assumptions import COUNT, STAY, TOLERANCE
from dynoan.analysis.choosing.one_pack import Rules
from dynoan.errors import CallError, LookupFault
from dynoan.jobs.answering import quantity

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

MOST_WITHIN = 200  #: clicks; more than any adjuster has
MOST_COUNT = 100  #: settings ranked; more than anybody reads


@dataclass(frozen=True)
class Limits:
    """What a search may use."""

    packs: tuple[str, ...] = ()  #: at hand; none named: all of the library
    once: bool = False  #: each pack is there only for one axle
    inside: bool = False  #: stay between the tested clicks of every adjuster
    within: int | None = None  #: keep the pack, and stay within so many clicks of what is on the car
    tolerance: float = TOLERANCE  #: how far a ratio may be off, as a share of it
    count: int = COUNT  #: how many to rank

    @classmethod
    def asked(
        cls, *, packs: str | Sequence[str] | None = None, once: bool = False, inside: bool = False,
        within: int | None = None, tolerance: float | str = TOLERANCE, count: int = COUNT,
    ) -> Limits:  # fmt: skip
        """Return limits from values as people give them: packs as a list or "a,b", the tolerance as a share or "10 %".

        Raises
        ------
        QuantityError
            If the tolerance is no share.
        CallError
            If a number makes no sense.
        """
        share = quantity(tolerance, "ratio", "tolerance")
        if not 0 < share < 1:
            raise CallError(
                f"{tolerance} is not a share between 0 and 100 %", hint="write it like '10 %'", part="tolerance"
            )
        if within is not None and not 0 <= within <= MOST_WITHIN:
            raise CallError(
                f"{within} is no number of clicks", hint=f"it lies between 0 and {MOST_WITHIN}", part="within"
            )
        if not 1 <= count <= MOST_COUNT:
            raise CallError(f"{count} settings cannot be ranked", hint=f"ask for 1 to {MOST_COUNT}", part="count")
        names = packs.split(",") if isinstance(packs, str) else packs or ()
        return cls(tuple(dict.fromkeys(n.strip() for n in names if n.strip())), once, inside, within, share, count)

    @property
    def rules(self) -> Rules:
        """The rules of the search."""
        return Rules(self.tolerance, self.inside, self.within, self.count, STAY)


def packs_at_hand(bench: Workbench, named: Sequence[str]) -> tuple[str, ...]:
    """Return the packs at hand: those named, else all of the library.

    Raises
    ------
    LookupFault
        If one is unknown, or the library has none.
    """
    known = bench.library.packs()
    for name in named:
        if name not in known:
            raise LookupFault(
                f"the library holds no pack '{name}'", hint=f"it holds {', '.join(known) or 'none'}", part="packs"
            )
    if not (named or known):
        raise LookupFault("the library holds no sweep with a pack", hint="add some with 'dynoan add'")
    return tuple(named) or known
