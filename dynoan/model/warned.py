"""Warnings that whoever keeps a sweep may settle: text like all others, and their type says what they are of."""

from __future__ import annotations

#: what a warning of the order of day and month in a date names; it is settled by a date that is given, and a kept sweep
#: has its warnings as plain text
OF_DATES = "--dates"


class CountedFromSoft(str):
    """A warning that a file counts clicks from soft, which the shock's file settles."""

    __slots__ = ()


class TakenForBoth(str):
    """A warning that clicks without a direction were taken as those of one knob for both, which the shock settles."""

    __slots__ = ()

    @classmethod
    def of(cls, named: str, more: str = "") -> TakenForBoth:
        """Return the warning by what the file calls the clicks, and what to do about it, if anything."""
        return cls(f"'{named}' names no direction: taken as one adjuster for both, cr{more}")
