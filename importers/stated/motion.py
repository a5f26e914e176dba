"""How fast lines say that the rig ran: a peak speed, or cycles a second or turns a minute."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from importers.patterns import regex
from importers.stated.quantities import quantity
from importers.words.spelling import plain

_SPEED = regex(
    r"\b(?:velocity|vel|speed|v ?max|peak v|geschwindigkeit|pruefgeschwindigkeit|"
    r"vitesse|velocidade?|velocita|hastighet)\b"
)
_FREQUENCY = regex(
    r"\b(?:frequency|freq|(?:pruf|test|hub|kurbel|dreh|anregungs|antriebs)?frequenz|frequence|frecuencia|frequenza|frequencia"
    r"|frekvens|frekvence|frekvencia|frekans|taajuus|czestotliwosc\w*|частота|(?:加振)?周波数|rpm|crank|drehzahl|otacky|varvtal"
    r"|regime|toerental|obroty|回転数)\b"
)
_TURNS = regex(r"(?:^|\s)(?:rpm|u/min|1/min|tr/min|giri/min|r/min)(?:\s|$)")
_UNMARKED = regex(r"(?P<key>[^\d]*[^\W\d_.])\s+(?P<value>\d[\d.,]*\s?[^\W\d]\S*)")
#: words beside a frequency or a speed that is none of the motion
_OTHER = regex(
    r"\b(?:per|pro|par|sampl\w*|abtast\w*|scan|filter\w*|cut ?off|low ?pass|grenz\w*|natural|zero|min|minimum)\b"
)


class StatedMotion(NamedTuple):
    """A line that states how fast the rig ran."""

    line: str  #: as it stands
    amount: float  #: [m/s] or [Hz]


class StatedMotions(NamedTuple):
    """What lines state of the motion, each None where they do not, or do so twice."""

    speed: StatedMotion | None
    frequency: StatedMotion | None


def stated_motions(lines: Mapping[str, str], decimal: str) -> StatedMotions:
    """Return the peak speed and the frequency that lines state, with a unit.

    Parameters
    ----------
    lines
        By their keys.
    decimal
        Mark of the decimals in them.
    """
    return StatedMotions(_one(lines, _SPEED, "velocity", decimal), _one(lines, _FREQUENCY, "frequency", decimal))


def _one(lines: Mapping[str, str], words: re.Pattern[str], kind: str, decimal: str) -> StatedMotion | None:
    found = []
    for line, behind in lines.items():
        key, value = (line, behind) if behind else _apart(line)
        name = plain(key)
        turned = kind == "frequency" and _SPEED.search(name) is not None  # "Speed: 96 rpm"
        if (
            (words.search(name) or turned)
            and not _OTHER.search(name)
            and (amount := _amount(name, value, kind, decimal))
        ):
            found += [StatedMotion(f"{key}: {value}", amount)] if amount > 0 else []
    return found[0] if len(found) == 1 else None


def _apart(line: str) -> tuple[str, str]:
    """Return what stands before the number of a line without a mark, and the rest: "Frequency 0.5 Hz"."""
    match = _UNMARKED.fullmatch(line.strip())
    return (match["key"], match["value"]) if match else (line, "")


def _amount(name: str, value: str, kind: str, decimal: str) -> float | None:
    """Return a quantity; a bare number beside "RPM" is turns a minute."""
    turns = (
        kind == "frequency" and _TURNS.search(name) is not None and value.replace(",", ".").replace(".", "").isdigit()
    )
    return quantity(f"{value} rpm" if turns else value, kind, decimal)
