"""A form that has each value in the line under its key: "Shock", below it "RL-02", below that "Pack", "gravel"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from importers.header import uncomment
from importers.words.adjusters import adjuster_of
from importers.words.keys import KNOWN, ONE_KNOB, is_date
from importers.words.spelling import plain

_LONGEST_KEY = 30  #: [characters]
_LEAST = 2  #: keys that follow one another, each with its value: one alone may be a title


def with_values_beside(lines: Sequence[str]) -> list[str]:
    """Return lines with each value behind its key, where two or more keys stand over one value each.

    >>> with_values_beside(["Shock", "RL-02", "Pack", "gravel", "warm"])
    ['Shock: RL-02', 'Pack: gravel', 'warm']
    >>> with_values_beside(["Damper", "sheet of the club", "LSC 4"])
    ['Damper', 'sheet of the club', 'LSC 4']
    """
    keys = [_is_key(line) for line in lines]
    if sum(keys) < _LEAST:
        return list(lines)
    out, at = list[str](), 0
    while at < len(lines):
        stop = at
        while stop + 1 < len(lines) and keys[stop] and not keys[stop + 1]:
            stop += 2
        if stop - at >= 2 * _LEAST:
            out += [f"{_bare(lines[k])}: {_bare(lines[k + 1])}" for k in range(at, stop, 2)]
            at = stop
        else:
            out.append(lines[at])
            at += 1
    return out


def _bare(line: str) -> str:
    return uncomment(line).strip(' \t,;|"')


@lru_cache(maxsize=2048)
def _is_key(line: str) -> bool:
    if len(line) > 2 * _LONGEST_KEY or not (bare := _bare(line)) or len(bare) > _LONGEST_KEY:
        return False
    key = plain(bare)
    return key in KNOWN or key in ONE_KNOB or is_date(key) or adjuster_of(key) is not None
