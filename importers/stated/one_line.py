"""What one line states, as a whole and pair by pair."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from dynoan.model.warned import CountedFromSoft
from importers.header import uncomment
from importers.patterns import regex
from importers.stated.counted_out import counted_by_none
from importers.stated.facts import NOTHING, StatedFacts
from importers.stated.from_soft import counted_from_soft, counting
from importers.stated.names_beside_clicks import before_at
from importers.stated.one_knob import clicks_alone
from importers.stated.pack_codes import without_codes
from importers.stated.pair import StatedPair
from importers.stated.pair_facts import LESS_THAN_NONE, facts_of_date, facts_of_pair, without_known
from importers.stated.pairs import pairs, unframed
from importers.stated.quantities import rates_in_words, stroke_in_words, units_in
from importers.stated.scales import stated_scales
from importers.stated.second_values import second_values, second_within
from importers.stated.several_rates import facts_of_rates, rates_apart
from importers.stated.twice import clicks_twice, said_twice
from importers.stated.within import facts_within
from importers.words import keys
from importers.words.adjusters import adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of, doubted_clicks, is_relative, lists_adjusters
from importers.words.dates import without_dates
from importers.words.gas_removed import gas_removed
from importers.words.odd_clicks import odd_ones_out, soft_ends, unread_clicks
from importers.words.parted_clicks import parted_clicks
from importers.words.shock_names import shock_in
from importers.words.spelling import plain
from importers.words.turns import turns_of, turns_said

#: what says that a channel's numbers are not yet what they mean
_FACTOR = regex(
    r"\b(?:force|load|position|displacement|travel|velocity|speed|kraft|weg|values?|readings?|channel|data)\b.{0,40}"
    r"\b(?:multipl\w+|multipliz\w+|divided?|times|scaled?)\b.{0,12}?\d"
)
_TIMES = regex(r"\b(?:force|load|kraft|effort|fuerza|forza|position|displacement|travel|velocity|speed)s?\s?[x×*]\s?\d")
#: what says that a part of the forces is no longer in them
_SUBTRACTED = r"subtracted|deducted|abgezogen|herausgerechnet|deduite?|sottratt[oa]|restad[oa]|descontad[oa]"
_TAKEN_OUT = regex(
    rf"\b(?:(?:spring|feder|ressort|molla|muelle)\b.{{0,30}}\b(?:{_SUBTRACTED})"
    r"|(?:friction|seal drag|reibung|frottement|attrito|friccion|inertia|massentragheit)\b.{0,30}"
    rf"\b(?:removed|taken out|compensated|corrected|retiree?|{_SUBTRACTED}))\b(?!\s*[:=]?\s*(?:no|nein|non|false|0)\b)"
)
_TESTED = regex(
    r"(?:(?:prova|essai|ensayo|teste?|versuch|messung|prufung|ausdruck|bericht|zkouska|badanie|misura|mesure|printed"
    r"|probe)"
    r"\s+(?:del|du|vom|von|of|z|ze|on|de|am|den)\b"
    r"|tested|measured|recorded|run|log started|started|gepruft|gemessen|teste|mesure|probado|medido|testato"
    r"|misurato)\b"
)
#: what a test is filed under, which may look like clicks: "Test no. C12-R5"
_TEST_NUMBER = regex(
    r"(?i)\b(?:test|run|job|order|report|file|versuch|lauf|essai|ensayo|prova)\s*(?:no\b|nr\b|number|id\b|#|n°)\.?\s*[:=]?\s*\S+"
)
USUAL_LINE = 300  #: longer lines are not kept in mind [characters]


def facts_of_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states, as a whole and pair by pair; the first to state a thing wins.

    Parameters
    ----------
    line
        Without blanks at its ends.
    decimal
        The decimal mark of the table: with a comma, "1.250" is one thousand and more.
    """
    return _of_usual_line(line, decimal) if len(line) <= USUAL_LINE else _of_line(line, decimal)


@lru_cache(maxsize=2048)
def _of_usual_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    """Return what one line states; the files of a rig state much the same."""
    return _of_line(line, decimal)


def _of_line(line: str, decimal: str) -> Sequence[StatedFacts]:
    found = pairs(line)
    bare = plain(line.replace("=", " is ")) if "=" in line else plain(line)
    whole = _as_a_whole(line, bare, found, decimal)
    parts = [(pair, facts_of_pair(pair, decimal)) for pair in found]
    apart_within = any(rates_apart(facts) for _, facts in parts)
    rated = facts_of_rates(line, () if apart_within else rates_in_words(line, decimal))
    apart, clicks_apart = said_twice(parts), clicks_twice(line)
    sure = [without_known(facts, pair, whole.clicks) for pair, facts in parts if plain(pair.key) not in apart]
    if clicks_apart:
        whole, sure = replace(whole, clicks={}), [replace(facts, clicks={}) for facts in sure]
    dated = facts_of_date(line, decimal=decimal) if _TESTED.match(bare) else StatedFacts()
    lone = StatedFacts() if clicks_apart or any(facts.clicks for facts in sure) else clicks_alone(line)
    of_shock = any(facts.shock or facts.pack for _, facts in parts)
    within = StatedFacts() if apart else facts_within(line, decimal, of_shock=of_shock)
    seconds = () if apart else tuple(s for pair, facts in parts for s in second_values(line, pair, facts, decimal))
    said = (
        *(seconds or second_within(line, within, decimal)),
        *_neither_taken(apart, clicks_apart),
        *_knob_not_named(line, known=bool(clicks_apart)),
        *_not_understood(line, (whole, *sure, lone)),
    )
    whole = replace(whole, rate=rated.rate, warnings=(*whole.warnings, *rated.warnings, *said))
    return [facts for facts in (whole, *sure, dated, lone, within) if facts != NOTHING]


def _as_a_whole(line: str, bare: str, found: Sequence[StatedPair], decimal: str) -> StatedFacts:
    """Return what a line states whatever its pairs do; `bare` is it in plain words, `found` its pairs."""
    clicked = _where_clicks_stand(line, found)
    counts = clicks_of(clicked)
    below_none = {adjuster_of(plain(p.key)) for p in found if LESS_THAN_NONE.fullmatch(p.value)}
    clicks = {k: n for k, n in counts.items() if k not in below_none}
    title = uncomment(unframed(line)).strip().strip('"')
    return StatedFacts(
        shock=title if title.isupper() and shock_in(title) == title else None,
        lines=dict(found) if found else ({line: ""} if line else {}),
        clicks=clicks,
        counted=counting(bare, counts),
        units=units_in(line, found),
        gas_removed=gas_removed(bare),
        of_stroke=None if any(plain(p.key) in keys.STROKE for p in found) else stroke_in_words(line, decimal),
        doubted=tuple(doubted_clicks(clicked)),
        warnings=(*counted_from_soft(line, bare), *_not_taken(line, bare, beside_clicks=bool(clicks))),
    )


def _where_clicks_stand(line: str, found: Sequence[StatedPair]) -> str:
    """Return a line without what looks like clicks and is none: serials, codes of packs, numbers of tests, dates."""
    named = without_codes(_without_serial(line, found), found)
    return _TEST_NUMBER.sub(" ", named if lists_adjusters(line) else without_dates(named))


def _not_taken(line: str, bare: str, *, beside_clicks: bool) -> Iterator[str]:
    """Yield a warning of each thing that a line speaks of in a form that is not taken."""
    if _states_factor(line, bare):
        yield f"'{line[:60]}' speaks of a factor: it was not applied"
    if _TAKEN_OUT.search(bare) and gas_removed(bare) is None:
        yield f"'{line[:60]}' speaks of forces that were changed before: they were taken as they stand"
    if is_relative(line):
        yield f"'{line[:60]}' gives clicks against another setting: not taken; state them"
    for said in parted_clicks(line):
        yield f"'{said}' is no whole number of clicks: not taken; state it"
    yield from map(turns_said, turns_of(line))
    for said in [] if ":" in line or "=" in line else soft_ends(line):
        yield f"'{said}' is the last click, whose number the file does not say: not taken; state it"
    for said in odd_ones_out(line) if beside_clicks else ():
        yield f"'{said}' beside the clicks was not understood: state it"


def _neither_taken(
    apart: Mapping[str, Sequence[StatedPair]], clicks_apart: Sequence[tuple[str, str, str]]
) -> Iterator[str]:
    """Yield a warning of each key that stands twice in a line, with another value."""
    of_pairs = ((one.key, one.value, other.value) for one, other, *_ in apart.values())
    for key, one, other in (*of_pairs, *clicks_apart):
        yield f"'{key}' stands twice in a line, as {one} and {other}: neither was taken; state it"


def _knob_not_named(line: str, *, known: bool) -> Iterator[str]:
    """Yield a warning of clicks under no knob's name, unless the line's knobs are known to stand twice, or turned."""
    if not known and not turns_of(line) and (said := counted_by_none(line)):
        yield said


def _not_understood(line: str, parts: Sequence[StatedFacts]) -> Iterator[str]:
    """Yield that a line speaks of clicks where none of its parts took or asked for any."""
    asked = (w for facts in parts for w in facts.warnings if not isinstance(w, CountedFromSoft))
    if not any(facts.clicks or facts.doubted for facts in parts) and not any(asked) and unread_clicks(line):
        yield f"'{line[:60]}' speaks of clicks that were not understood: state them"


def _states_factor(line: str, bare: str) -> bool:
    """Whether a line speaks of a factor that no column's scale is: what a count or volt is worth is seen to later."""
    speaks = _FACTOR.search(bare) or _TIMES.search(line.lower())
    return speaks is not None and not any(stated_scales((line,)))


def _without_serial(line: str, found: Sequence[StatedPair]) -> str:
    """Return a line without a shock's serial in it: "C12R08-3" states no clicks."""
    names = (before_at(p.value) for p in found if plain(p.key) in TABLE_WORDS["shock"])
    serials = (name for name in names if re.fullmatch(r"\S+-\S+", name))
    return next((line.replace(serial, " ") for serial in serials), line)
