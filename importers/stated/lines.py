"""What the lines around a table state: shock, pack, clicks, temperature, gas, date, rate."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from dynoan.model.warned import CountedFromSoft
from importers.assumptions.channels import STROKES_SAME
from importers.header import uncomment, with_settings_as_lines
from importers.patterns import regex
from importers.stated.before_after import facts_before_and_after
from importers.stated.counted_out import counted_by_none
from importers.stated.day_in_sentence import day_in_sentences
from importers.stated.days import lone_days, puts_day_first
from importers.stated.facts import NOTHING, StatedFacts, merged
from importers.stated.from_soft import counted_from_soft, counting
from importers.stated.gas_in_sentence import gas_in_sentences
from importers.stated.not_taken import amounts_not_taken
from importers.stated.one_knob import clicks_alone
from importers.stated.other_runs import as_tested, own_clicks
from importers.stated.pack_codes import said_of_code, without_codes
from importers.stated.pair import StatedPair
from importers.stated.pair_facts import LESS_THAN_NONE, facts_of_date, facts_of_pair, pack_of, without_known
from importers.stated.pairs import pairs, unframed
from importers.stated.quantities import rate_in_words, stroke_in_words, thinned, units_in
from importers.stated.scales import stated_scales
from importers.stated.second_values import second_values, second_within
from importers.stated.sections import corner_in, with_sections_named
from importers.stated.setting_rows import clicks_in_rows
from importers.stated.twice import clicks_twice, quantities_apart, said_once, said_twice
from importers.stated.under_keys import with_values_beside
from importers.stated.within import facts_within
from importers.words import keys
from importers.words.adjusters import adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import (
    clicks_of,
    doubted_clicks,
    is_relative,
    lists_adjusters,
)
from importers.words.dates import without_dates
from importers.words.gas_removed import gas_removed
from importers.words.odd_clicks import odd_ones_out, parted_clicks, soft_ends, unread_clicks
from importers.words.shock_names import shock_in
from importers.words.spelling import plain
from importers.words.turns import turns_of, turns_said

#: what says that a channel's numbers are not yet what they mean
_FACTOR = regex(
    r"\b(?:force|load|position|displacement|travel|velocity|speed|kraft|weg|values?|readings?|channel|data)\b.{0,40}"
    r"\b(?:multipl\w+|multipliz\w+|divided?|times|scaled?)\b.{0,12}?\d"
)
_TESTED = regex(
    r"(?:(?:prova|essai|ensayo|teste?|versuch|messung|prufung|ausdruck|bericht|zkouska|badanie|misura|mesure|printed"
    r"|probe)"
    r"\s+(?:del|du|vom|von|of|z|ze|on|de|am|den)\b"
    r"|tested|measured|recorded|run|log started|started|gepruft|gemessen|teste|mesure|probado|medido|testato"
    r"|misurato)\b"
)
#: keys that call a pack so
_PACKS = frozenset(("pack", "valve pack", "paket", "ventilpaket", "paquete", "pacco", "valvepack"))
#: what a test is filed under, which may look like clicks: "Test no. C12-R5"
_TEST_NUMBER = regex(
    r"(?i)\b(?:test|run|job|order|report|file|versuch|lauf|essai|ensayo|prova)\s*(?:no\b|nr\b|number|id\b|#|n°)\.?\s*[:=]?\s*\S+"
)
_USUAL_LINE = 300  #: longer lines are not kept in mind [characters]


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
    every = with_settings_as_lines(with_values_beside([said for line in lines for said in (_of_json(line) or [line])]))
    all_lines = with_sections_named(every)
    rows = StatedFacts(clicks=clicks_in_rows(all_lines))
    days = lone_days(all_lines, decimal)
    parts = own_clicks([(line, _of_any_line(line.strip(), decimal)) for line in map(as_tested, all_lines)])
    around = facts_before_and_after(all_lines, decimal)
    found = merged([_packed(all_lines), *parts, around, rows, days, corner_in(all_lines)])
    if not (found.date or found.swappable):
        found = found.over(day_in_sentences(all_lines, decimal))
    if found.swappable and any(map(puts_day_first, all_lines)):
        found = replace(found, day_first=True)
    found = _without_contradicted(found, [*parts, around])
    if found.pack and not found.clicks and (said := said_of_code(found.pack)):
        found = replace(found, warnings=(*found.warnings, *said))
    found = _of_samples_kept(found, all_lines)
    if found.gas_pressure is None and not any("pressure" in said for said in found.warnings):
        found = replace(found, gas_pressure=gas_in_sentences(line for line in all_lines if len(line) <= _USUAL_LINE))
    lost = amounts_not_taken(all_lines, found)
    return replace(found, warnings=(*found.warnings, *lost)) if lost else found


def _of_samples_kept(facts: StatedFacts, lines: Sequence[str]) -> StatedFacts:
    """Return facts with the rate of the samples that were kept, where a line says that not all were."""
    of = next(filter(None, (thinned(plain(line)) for line in lines if len(line) <= _USUAL_LINE)), None)
    if of is None or facts.rate is None:
        return facts
    rate = facts.rate / of
    said = f"one sample of {of} was kept, as the file says: the rate was taken as {rate:g} Hz, not {facts.rate:g} Hz"
    return replace(facts, rate=rate, warnings=(*facts.warnings, said))


def _of_json(line: str) -> list[str]:
    """Return a line that is one JSON object as a line a key; nothing where it is none."""
    bare = uncomment(line).strip()
    if not (bare.startswith("{") and bare.endswith("}") and len(line) <= _USUAL_LINE * 4):
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
        if len(line) <= _USUAL_LINE
        for p in said_once(pairs(line.strip()))
        if plain(p.key) in _PACKS
    ]
    return StatedFacts(pack=next(filter(None, found), None))


def _of_any_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    return _of_known_line(line, decimal) if len(line) <= _USUAL_LINE else _of_line(line, decimal)


@lru_cache(maxsize=2048)
def _of_known_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states; the files of a rig state much the same."""
    return _of_line(line, decimal)


def _of_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states, as a whole and pair by pair."""
    found = pairs(line)
    bare = plain(line.replace("=", " is ")) if "=" in line else plain(line)
    bare_of_serial = without_codes(_without_serial(line, found), found)
    clicked = _TEST_NUMBER.sub(" ", bare_of_serial if lists_adjusters(line) else without_dates(bare_of_serial))
    below_none = {adjuster_of(plain(p.key)) for p in found if LESS_THAN_NONE.fullmatch(p.value)}
    clicks = {k: n for k, n in clicks_of(clicked).items() if k not in below_none}
    ends = [] if ":" in line or "=" in line else soft_ends(line)
    title = uncomment(unframed(line)).strip().strip('"')
    whole = StatedFacts(
        shock=title if title.isupper() and shock_in(title) == title else None,
        lines=dict(found) if found else ({line: ""} if line else {}),
        clicks=clicks,
        counted=counting(bare, clicks_of(clicked)),
        units=units_in(line, found),
        gas_removed=gas_removed(bare),
        rate=rate_in_words(line, decimal),
        of_stroke=None if any(plain(p.key) in keys.STROKE for p in found) else stroke_in_words(line, decimal),
        doubted=tuple(doubted_clicks(clicked)),
        warnings=(
            *counted_from_soft(line, bare),
            *((f"'{line[:60]}' speaks of a factor: it was not applied",) * _states_factor(line, bare)),
            *((f"'{line[:60]}' gives clicks against another setting: not taken; state them",) * is_relative(line)),
            *(f"'{said}' is no whole number of clicks: not taken; state it" for said in parted_clicks(line)),
            *map(turns_said, turns_of(line)),
            *(f"'{said}' is the last click, whose number the file does not say: not taken; state it" for said in ends),
            *(f"'{said}' beside the clicks was not understood: state it" for said in odd_ones_out(line) if clicks),
        ),
    )
    dated = facts_of_date(line, decimal=decimal) if _TESTED.match(bare) else StatedFacts()
    parts = [(pair, facts_of_pair(pair, decimal)) for pair in found]
    apart = said_twice(parts)
    seconds = () if apart else tuple(s for pair, facts in parts for s in second_values(line, pair, facts, decimal))
    clicks_apart = clicks_twice(line)
    said = tuple(
        f"'{key}' stands twice in a line, as {one} and {other}: neither was taken; state it"
        for key, one, other in (*((p.key, p.value, q.value) for p, q, *_ in apart.values()), *clicks_apart)
    )
    sure = [without_known(facts, pair, clicks) for pair, facts in parts if plain(pair.key) not in apart]
    if clicks_apart:
        whole, sure = replace(whole, clicks={}), [replace(facts, clicks={}) for facts in sure]
    unnamed = "" if clicks_apart or turns_of(line) else counted_by_none(line)
    said = (*said, unnamed) if unnamed else said
    lone = StatedFacts() if clicks_apart or any(facts.clicks for facts in sure) else clicks_alone(line)
    within = StatedFacts() if apart else facts_within(line, decimal)
    seconds = seconds or second_within(line, within, decimal)
    asked = (w for f in (whole, *sure, lone) for w in f.warnings if not isinstance(w, CountedFromSoft))
    if not any(f.clicks or f.doubted for f in (whole, *sure, lone)) and not any(asked) and unread_clicks(line):
        said = (*said, f"'{line[:60]}' speaks of clicks that were not understood: state them")
    whole = replace(whole, warnings=(*whole.warnings, *seconds, *said))
    return [facts for facts in (whole, *sure, dated, lone, within) if facts != NOTHING]


def _states_factor(line: str, bare: str) -> bool:
    """Whether a line speaks of a factor that no column's scale is: what a count or volt is worth is seen to later."""
    return _FACTOR.search(bare) is not None and not any(stated_scales((line,)))


def _without_serial(line: str, found: Sequence[StatedPair]) -> str:
    """Return a line without a shock's serial in it: "C12R08-3" states no clicks."""
    serials = (p.value for p in found if plain(p.key) in TABLE_WORDS["shock"] and re.fullmatch(r"\S+-\S+", p.value))
    return next((line.replace(serial, " ") for serial in serials), line)
