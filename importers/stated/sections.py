"""A preamble in sections, "[Shock]" over "Name=FL-03": a bare name there is of what the section is about."""

from __future__ import annotations

import re
from collections.abc import Sequence

from importers.words.channels import TABLE_WORDS
from importers.words.spelling import plain, word_set

_SECTION = re.compile(r"\s*\[\s*([^\]\d]{3,30}?)\s*\]\s*")
_NAMED = re.compile(r"\s*([^:=]{1,20}?)\s*[:=]\s*(\S.*)")
_NAMES = word_set("name, id, no, nr, number, serial, code, label, nummer, bezeichnung, nom, nombre, nome, numero, type")


def with_sections_named(lines: Sequence[str]) -> list[str]:
    """Return lines with the section's word for a key that only says "name" in a section of the shock or the pack.

    >>> with_sections_named(["[Shock]", "Name=FL-03", "[Rig]", "Name=bench"])
    ['[Shock]', 'Shock=FL-03', '[Rig]', 'Name=bench']
    """
    if not any(line.lstrip().startswith("[") for line in lines):
        return list(lines)
    out, section = [], ""
    for line in lines:
        if (head := _SECTION.fullmatch(line)) is not None:
            section = head[1] if plain(head[1]) in TABLE_WORDS["shock"] | TABLE_WORDS["pack"] else ""
        elif section and (said := _NAMED.fullmatch(line)) is not None and plain(said[1]) in _NAMES:
            line = f"{section}={said[2]}"
        out.append(line)
    return out
