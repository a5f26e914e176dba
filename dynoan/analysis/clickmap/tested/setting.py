"""One tested setting of a pack: what a click map is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from dynoan.model.curve import Curve


@dataclass(frozen=True)
class Tested:
    """One tested setting of a pack: the shock, the clicks from closed, and the curve."""

    shock: str
    from_closed: Mapping[str, int]
    curve: Curve
    date: str | None = None  #: of its runs, ISO; None where nobody wrote it
    runs: int = 1  #: how many runs the curve rests on

    __test__: ClassVar[bool] = False  # the name is the trade's; test collectors shall pass it by
