"""A table of both directions whose title says that one adjuster was swept: the clicks across it are of that one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from importers.header import HeaderColumn
from importers.parts.part import SweepPart
from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, CLICK_WORD
from importers.words.spelling import plain

_SWEPT = regex(
    rf"(?<![a-z])(?:{ADJUSTER.pattern})\s+(?:{CLICK_WORD}\s+)?(?:sweep|swept|series|varied|variation|durchlauf|reihe|balayage|barrido)\b"
)


def with_swept_adjuster(part: SweepPart) -> SweepPart:
    """Return a part whose columns of both directions stand under the same clicks, those of the adjuster that was swept.

    Only where a line says which was swept and another number is stated for the other direction; said in a warning.
    """
    wide = part.roles.wide
    swept = {key for line in (*part.table.own, *part.table.shared) for key in _swept_in(line)}
    by_way = {way: [n for c in wide if c.direction == way for n in c.clicks.values()] for way in _ways(wide)}
    if len(swept) != 1 or len(by_way) != 2 or len({tuple(sorted(n)) for n in by_way.values()}) != 1:
        return part
    (adjuster,) = swept
    held = {key for key in part.facts.clicks if key[-1] != adjuster[-1]}
    own = all(len(c.clicks) == 1 and {*c.clicks} <= {"c", "r", adjuster} for c in wide)
    if not held or not own or len(by_way["compression"]) < 2:
        return part
    columns = tuple(replace(c, clicks={adjuster: next(iter(c.clicks.values()))}) for c in wide)
    said = f"the clicks over both directions were taken as those of {adjuster}, which the file says was swept"
    facts = replace(part.facts, warnings=(*part.facts.warnings, said))
    return replace(part, roles=replace(part.roles, wide=columns), facts=facts)


def _ways(columns: Sequence[HeaderColumn]) -> set[str]:
    return {c.direction for c in columns if c.direction}


def _swept_in(line: str) -> set[str]:
    return {key for match in _SWEPT.finditer(plain(line)) for key, hit in match.groupdict().items() if hit}
