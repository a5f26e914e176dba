"""What was tested: a shock with a pack at clicks, as the key by which runs of one setting are found."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, Protocol

from dynoan.model.adjusters import in_order


class Set(Protocol):
    """What is at a setting: a sweep, a record of one, a resolved curve."""

    @property
    def shock(self) -> str | None:
        """Name of the shock."""

    @property
    def pack(self) -> str | None:
        """Name of the valve pack."""

    @property
    def clicks(self) -> Mapping[str, int]:
        """Clicks by adjuster, as the shock's file counts them."""


class RunSetting(NamedTuple):
    """A shock, a pack and clicks; two that are equal are one setting."""

    shock: str | None
    pack: str | None
    clicks: tuple[tuple[str, int], ...]  #: by adjuster, in alphabetical order

    @property
    def named(self) -> bool:
        """Whether anything of it is known."""
        return bool(self.shock or self.pack or self.clicks)


def order_of(one: Set) -> tuple[str, str, tuple[int, ...]]:
    """Return what settings are listed by: shock, pack, then clicks, low ones first."""
    return one.shock or "", one.pack or "", tuple(in_order(one.clicks).values())


def setting_of(one: Set) -> RunSetting:
    """Return the setting of a sweep or a record."""
    return RunSetting(one.shock, one.pack, tuple(sorted(one.clicks.items())))
