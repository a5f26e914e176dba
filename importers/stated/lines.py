"""What the lines around a table state: shock, pack, clicks, temperature, gas, date, rate."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import replace

from importers.assumptions.channels import STROKES_SAME
from importers.header import uncomment, with_settings_as_lines
from importers.patterns import regex
from importers.stated.before_after import facts_before_and_after
from importers.stated.day_in_sentence import day_in_sentences
from importers.stated.days import lone_days, puts_day_first
from importers.stated.facts import NOTHING, StatedFacts, merged
from importers.stated.gas_in_sentence import gas_in_sentences
from importers.stated.names_beside_clicks import code_before_clicks, lone_clicks, titled_name
from importers.stated.not_taken import amounts_not_taken
from importers.stated.one_line import USUAL_LINE, facts_of_line
from importers.stated.other_runs import as_tested, own_clicks
from importers.stated.pack_codes import said_of_code
from importers.stated.pair_facts import pack_of
from importers.stated.pairs import pairs
from importers.stated.quantities import thinned
from importers.stated.sections import corner_in, kind_of_shock, with_sections_named
from importers.stated.setting_rows import clicks_in_rows
from importers.stated.twice import quantities_apart, said_once
from importers.stated.under_keys import with_values_beside
from importers.stated.units_beside import with_units_beside
from importers.words.spelling import plain

#: a shock's eye to eye and stroke: "210x55", "8.5 x 2.5 in"
_SIZE = regex(r"\d{1,3}(?:[.,]\d+)?\s?[x×]\s?\d{1,3}(?:[.,]\d+)?\s?(?:mm|in|\")?")
#: keys that call a pack so
_PACKS = frozenset(("pack", "valve pack", "paket", "ventilpaket", "paquete", "pacco", "valvepack"))


def facts_of_lines(lines: Iterable[str], decimal: str = ".") -> StatedFacts:
    """Return what lines of text state; the first to state a thing wins.

    Parameters
    ----------
    lines
        As they stood.
    decimal
        The decimal mark of the table: with a comma, "1.250" is one thousand and more.
    """
    lines = tuple(lines)
    if not lines:
        return NOTHING
    whole = with_units_beside([said for line in lines for said in (_of_json(line) or [line])])
    every = with_settings_as_lines(with_values_beside(whole))
    all_lines = with_sections_named(every)
    rows = StatedFacts(clicks=clicks_in_rows(all_lines))
    days = lone_days(all_lines, decimal)
    parts = own_clicks([(line, facts_of_line(line.strip(), decimal)) for line in map(as_tested, all_lines)])
    around = facts_before_and_after(all_lines, decimal)
    found = merged([_packed(all_lines), *parts, around, rows, days, corner_in(all_lines)])
    if found.shock and _SIZE.fullmatch(found.shock):  # of its kind, beside which a serial names the one
        other = next((p.shock for p in parts if p.shock and not _SIZE.fullmatch(p.shock)), None)
        found = replace(found, shock=other or found.shock)
    if not (found.date or found.swappable):
        found = found.over(day_in_sentences(all_lines, decimal))
    if found.swappable and any(map(puts_day_first, all_lines)):
        found = replace(found, day_first=True)
    if not (found.shock and found.clicks):
        found = found.over(merged([*map(code_before_clicks if found.clicks else lone_clicks, all_lines)]))
        found = found.over(merged([*map(kind_of_shock, all_lines), *map(titled_name, all_lines)]))
    found = _without_contradicted(found, [*parts, around])
    if found.pack and not found.clicks and (said := said_of_code(found.pack)):
        found = replace(found, warnings=(*found.warnings, *said))
    found = _of_samples_kept(found, all_lines)
    if found.gas_pressure is None and not any("pressure" in said for said in found.warnings):
        found = replace(found, gas_pressure=gas_in_sentences(line for line in all_lines if len(line) <= USUAL_LINE))
    lost = amounts_not_taken(all_lines, found)
    return replace(found, warnings=(*found.warnings, *lost)) if lost else found


def _of_samples_kept(facts: StatedFacts, lines: Sequence[str]) -> StatedFacts:
    """Return facts with the rate of the samples that were kept, where a line says that not all were."""
    of = next(filter(None, (thinned(plain(line)) for line in lines if len(line) <= USUAL_LINE)), None)
    if of is None or facts.rate is None:
        return facts
    rate = facts.rate / of
    said = f"one sample of {of} was kept, as the file says: the rate was taken as {rate:g} Hz, not {facts.rate:g} Hz"
    return replace(facts, rate=rate, warnings=(*facts.warnings, said))


def _of_json(line: str) -> list[str]:
    """Return a line that is one JSON object as a line a key; nothing where it is none."""
    bare = uncomment(line).strip()
    if not (bare.startswith("{") and bare.endswith("}") and len(line) <= USUAL_LINE * 4):
        return []
    try:
        found = json.loads(bare)
    except (ValueError, RecursionError):
        return []
    flat = {k: v for k, v in found.items() if not isinstance(v, dict)}
    for inner in (v for v in found.values() if isinstance(v, dict)):
        flat |= inner
    return [f"{key}: {value}" for key, value in flat.items() if isinstance(value, (str, int, float))]


def _without_contradicted(facts: StatedFacts, parts: Sequence[StatedFacts]) -> StatedFacts:
    """Return facts without the clicks that lines contradict one another about, and a warning of each."""
    numbers = {k: sorted({p.clicks[k] for p in parts if k in p.clicks}) for k in facts.clicks}
    apart = {k: found for k, found in numbers.items() if len(found) > 1}
    said = tuple(
        f"the file says both {' and '.join(f'{k}={n}' for n in found)}: none was taken; state it"
        for k, found in apart.items()
    )
    clicks = {k: n for k, n in facts.clicks.items() if k not in apart}
    others = (*_strokes_apart(facts, parts), *quantities_apart(parts))
    return replace(facts, clicks=clicks, warnings=(*facts.warnings, *said, *others)) if apart or others else facts


def _strokes_apart(facts: StatedFacts, parts: Sequence[StatedFacts]) -> tuple[str, ...]:
    """Return a warning where lines state the stroke that counts and another that is as sure."""
    sure = facts.of_stroke
    as_sure = [p.of_stroke for p in parts if sure and p.of_stroke and p.of_stroke.doubt == sure.doubt]
    other = next((s for s in as_sure if sure and abs(s.length - sure.length) > STROKES_SAME * sure.length), None)
    if sure is None or other is None:
        return ()
    both = f"'{sure.said}' and '{other.said}' are two strokes of one test"
    return (f"{both}: {1e3 * sure.length:.4g} mm was taken; name the rig's own 'Crank stroke'",)


def _packed(lines: Sequence[str]) -> StatedFacts:
    """Return the pack that a line calls so; what another says of its valving is less."""
    if not any("pa" in line.lower() for line in lines):
        return StatedFacts()
    found = [
        pack_of(p.value)
        for line in lines
        if len(line) <= USUAL_LINE
        for p in said_once(pairs(line.strip()))
        if plain(p.key) in _PACKS
    ]
    return StatedFacts(pack=next(filter(None, found), None))
