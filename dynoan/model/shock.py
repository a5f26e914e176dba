"""Shocks, their adjusters, and settings."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Literal

from dynoan.errors import CallError, QuantityError, Where
from dynoan.model.adjusters import ACTS_ON as ACTS_ON
from dynoan.model.adjusters import ADJUSTERS as ADJUSTERS
from dynoan.model.adjusters import in_order
from dynoan.model.links import StopCurve
from dynoan.units import brief

Counted = Literal["from closed", "from soft"]


@dataclass(frozen=True)
class Adjuster:
    """A knob or screw of a shock."""

    name: str
    clicks: int  #: the last position; positions run 0 to `clicks`
    counted: Counted = "from closed"

    def to_closed(self, counted: int) -> int:
        """Return a click, counted as this adjuster counts, as clicks from fully closed."""
        return counted if self.counted == "from closed" else self.clicks - counted

    def to_counted(self, from_closed: int) -> int:
        """Return clicks from fully closed as this adjuster counts them."""
        return from_closed if self.counted == "from closed" else self.clicks - from_closed


@dataclass(frozen=True)
class Setting:
    """A pack and the clicks of all adjusters, as the shock's file counts them."""

    pack: str
    clicks: Mapping[str, int] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.pack}@{clicks_text(self.clicks)}" if self.clicks else self.pack


@dataclass(frozen=True)
class Shock:
    """One damper, by the name the team gives it."""

    name: str
    adjusters: tuple[Adjuster, ...] = ()
    rod_diameter: float | None = None  #: [m]
    piston_diameter: float | None = None  #: [m]
    stroke: float | None = None  #: [m]
    gas_pressure: float | None = None  #: gauge [Pa]
    #: its stops, force over how far they are squeezed, at the shock
    bump_stop: StopCurve | None = None
    droop_stop: StopCurve | None = None
    #: False where no shock file states the adjusters and they were taken from the tested clicks
    stated: bool = True

    def adjuster(self, name: str) -> Adjuster:
        """Return the adjuster of that name.

        Raises
        ------
        CallError
            If this shock has none.
        """
        for adjuster in self.adjusters:
            if adjuster.name == name:
                return adjuster
        have = ", ".join(a.name for a in self.adjusters) or "none"
        raise CallError(f"shock {self.name} has no adjuster '{name}'", hint=f"it has {have}")

    def to_closed(self, counted: Mapping[str, int]) -> dict[str, int]:
        """Return clicks as this shock counts them as clicks from closed.

        An adjuster the shock does not list counts from closed; `check` refuses it where a person names it.
        """
        known = {a.name: a for a in self.adjusters}
        return {n: known[n].to_closed(c) if n in known else int(c) for n, c in counted.items()}

    def to_counted(self, from_closed: Mapping[str, int]) -> dict[str, int]:
        """Return clicks from closed as this shock counts them; an adjuster it does not list counts from closed."""
        known = {a.name: a for a in self.adjusters}
        return {n: known[n].to_counted(c) if n in known else int(c) for n, c in from_closed.items()}

    def change_to_counted(self, change: Mapping[str, int]) -> dict[str, int]:
        """Return a change of clicks from closed as a change in this shock's own counting."""
        soft = {a.name for a in self.adjusters if a.counted == "from soft"}
        return {n: -c if n in soft else c for n, c in change.items()}

    def counted_words(self, names: Collection[str] | None = None) -> str:
        """Return in words how this shock counts, such as "clicks from closed, hsr from soft"."""
        mine = [a for a in self.adjusters if names is None or a.name in names]
        soft = [a.name for a in mine if a.counted == "from soft"]
        if not soft:
            return "clicks from closed"
        return "clicks from soft" if len(soft) == len(mine) else f"clicks from closed, {' and '.join(soft)} from soft"

    def check(self, clicks: Mapping[str, int]) -> None:
        """Raise where this shock has no such adjuster, or a click lies outside it.

        Raises
        ------
        CallError
            If this shock has no adjuster of a name.
        QuantityError
            If a click lies outside its adjuster.
        """
        for name, click in clicks.items():
            last = self.adjuster(name).clicks
            if not 0 <= click <= last and self.stated:
                raise QuantityError(f"{name}={click} is outside the clicks of shock {self.name}: 0 to {last}")
            if not 0 <= click <= last:
                raise QuantityError(
                    f"{name}={click} is outside the clicks that shock {self.name} and those with its packs were tested "
                    f"at: 0 to {last}", hint=f"a file of shock {self.name} says how many it has",
                )  # fmt: skip


def clicks_text(clicks: Mapping[str, int]) -> str:
    """Return clicks as people type them, such as "lsc=6,lsr=8", adjusters in one order however they were stated."""
    return ",".join(f"{name}={click}" for name, click in in_order(clicks).items())


def clicks_in_words(clicks: Mapping[str, int]) -> str:
    """Return clicks as people read them, adjusters in one order.

    >>> clicks_in_words({"lsr": 8, "lsc": 6})
    'lsc 6, lsr 8'
    """
    return ", ".join(f"{name} {click}" for name, click in in_order(clicks).items())


def clicks_over(held: str, said: str) -> str:
    """Return clicks as text with some of them said anew; those not spoken of stay.

    Raises
    ------
    CallError
        If one of the two holds no clicks as `parse_clicks` reads them.
    """
    return clicks_text({**parse_clicks(held), **parse_clicks(said, where="clicks")})


def turn_words(change: Mapping[str, int]) -> str:
    """Return a change of clicks from closed as people say it, such as "lsc 2 clicks in (stiffer)"."""
    return ", ".join(
        f"{name} {abs(step)} click{'s' if abs(step) != 1 else ''} {'out (softer)' if step > 0 else 'in (stiffer)'}"
        for name, step in change.items()
    )


def setting_words(pack: str | None, clicks: Mapping[str, int]) -> str:
    """Return a setting as people type it: "gravel@lsc=6,lsr=8"."""
    return f"{pack}@{clicks_text(clicks)}" if clicks else str(pack)


def parse_clicks(text: str, *, where: Where = "") -> dict[str, int]:
    """Return the clicks in text such as "lsc=6,lsr=8".

    Parameters
    ----------
    text
        Pairs of an adjuster and a whole number, between commas, semicolons or blanks: "lsc 6 lsr 8" too, as files say.
    where
        File and key, put in front of an error; an error without is about "clicks".

    Raises
    ------
    CallError
        If a part is not an adjuster's name, an equals sign and a whole number.
    """
    clicks: dict[str, int] = {}
    for part in _pairs(text):
        name, equals, number = (p.strip().lower() for p in part.partition("="))
        if equals and name.isalpha() and name not in ADJUSTERS:
            raise _of_clicks(f"'{brief(name)}' is no adjuster{_swapped(name)}; they are {', '.join(ADJUSTERS)}", where)
        if not equals or name not in ADJUSTERS or not number.isascii() or not number.isdigit() or len(number) > 3:
            known = ", ".join(ADJUSTERS)
            raise _of_clicks(f"'{brief(part)}' is not like lsc=6 (adjusters: {known}; whole clicks 0 to 999)", where)
        if name in clicks:
            raise _of_clicks(f"'{name}' stands twice in '{brief(text)}'", where)
        clicks[name] = int(number)
    return clicks


def _swapped(name: str) -> str:
    """Return the adjuster that has the same letters in another order, as a question; else nothing."""
    right = next((known for known in ADJUSTERS if sorted(known) == sorted(name)), None)
    return f" (did you mean '{right}'?)" if right else ""


def _pairs(text: str) -> list[str]:
    """Return what stands between commas, semicolons and blanks, each as "name=number" where it is one."""
    joined = re.sub(r" ?[=:] ?", "=", " ".join(text.split()))
    joined = re.sub(r"\b([A-Za-z]+) (?=\d)", r"\1=", joined)
    return [part for part in re.split(r"[,;\s]+", joined) if part]


def _of_clicks(text: str, where: Where) -> CallError:
    return CallError(text, where=where) if where else CallError(text, part="clicks")
