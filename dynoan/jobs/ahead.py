"""Days that nobody has seen yet: a slip in the year, most likely."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator

#: how far ahead a day is doubted [days]; judged: a clock may be off by months, and nobody tests in another year
FAR = 366


def doubted(days: Iterable[str | None], today: datetime.date | None = None) -> Iterator[str]:
    """Yield a doubt of each day, ISO 8601, that lies more than a year ahead; of those alike one.

    Parameters
    ----------
    days
        None where nobody said.
    today
        By the clock where it is None.
    """
    last = (today or datetime.date.today()) + datetime.timedelta(days=FAR)
    for day in dict.fromkeys(day for day in days if day):
        if day[:10] > last.isoformat():
            yield f"{day[:10]} lies more than a year ahead: is the year right?"
