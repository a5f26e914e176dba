"""The one clock of the pages: what is built with it can be given any other moment."""

from __future__ import annotations

from datetime import datetime

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip


def now_text(now: datetime | None = None) -> str:
    """Return date and time in words, such as "25 November 2026, 10:20"."""
    moment = now or datetime.now()
    return f"{moment.day} {MONTHS[moment.month - 1]} {moment.year}, {moment:%H:%M}"
