"""Adjusters of a shock that no file describes: from its tests and from those of the shocks that carried its packs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from dynoan.model.shock import Adjuster, Shock


def untold_shock(name: str, tested: Mapping[str, int], sisters: Iterable[Mapping[str, int]]) -> Shock:
    """Return a shock that counts from closed, each adjuster with the most clicks known of it or of a sister.

    Shocks that carry the same packs are of one make (common practice, no source), so one that was run at a single
    setting has the clicks that its sisters were run at.

    Parameters
    ----------
    tested
        The highest click it was tested at, by adjuster.
    sisters
        The same of each other shock that carried one of its packs, or how many clicks that one's file states.
    """
    most = dict(tested)
    for sister in sisters:
        for adjuster, click in sister.items():
            most[adjuster] = max(most.get(adjuster, 0), click)
    return Shock(name, tuple(Adjuster(adjuster, click) for adjuster, click in most.items()), stated=False)


def stated_clicks(shock: Shock) -> dict[str, int]:
    """Return how many clicks a shock's adjusters have."""
    return {adjuster.name: adjuster.clicks for adjuster in shock.adjusters}
