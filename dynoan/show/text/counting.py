"""How the clicks of shocks are counted, in words."""

from __future__ import annotations

from collections.abc import Iterable

from dynoan.model.shock import Shock


def counted(shocks: Iterable[Shock]) -> str:
    """Return in words how the clicks of shocks are counted; by adjuster where they differ."""
    adjusters = [a for shock in shocks for a in shock.adjusters]
    ways = {a.counted for a in adjusters}
    if len(ways) == 1:
        return f"clicks counted {ways.pop()}"
    return f"clicks counted: {', '.join(dict.fromkeys(f'{a.name} {a.counted}' for a in adjusters))}"
