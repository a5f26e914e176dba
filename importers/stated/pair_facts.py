"""What one key with its value states: a shock, clicks, a pack, a quantity, a date."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from importers.patterns import regex
from importers.stated.facts import StatedFacts, StatedStroke
from importers.stated.names_beside_clicks import before_at, facts_behind_at
from importers.stated.odd_values import not_understood, temperature_of
from importers.stated.one_knob import clicks_of_one_knob
from importers.stated.pack_codes import begins_as_code, code_of, names_pack
from importers.stated.pair import InQuotes, StatedPair
from importers.stated.quantities import NOT_THE_RIGS, is_rate, quantity, rate_of, rate_of_interval
from importers.stated.several_rates import facts_of_rates, several_rates
from importers.words import keys
from importers.words.adjusters import CLICKS_ALONE, SOFT_END, WAY, adjuster_of
from importers.words.channels import CHANNEL_WORDS, TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.clicks_in_all import all_clicks
from importers.words.dates import date_of, swappable_date
from importers.words.directions import direction_of
from importers.words.number_words import COUNTED
from importers.words.shock_names import SIDES, corner_alone, shock_in, side_in
from importers.words.spelling import plain, word_set
from importers.words.turns import speaks_of_turns, turns_of
from importers.words.unit_text import is_unit

_IN_BRACKETS = regex(r"[\[({].{0,99}?[\])}]")
_NUMBER = regex(r"[-+\d.,']+")
#: clicks that an adjuster is out from where it is closed
_OUT = regex(r"(?i)(\d{1,2})\s*(?:clicks?\s*)?out(?:\s+from\s+(?:full\w*\s+)?(?:closed|hard|in|stiff))?")
#: an adjuster at an end of its range
_AT_AN_END = regex(
    r"(?:(?:full|fully|voll|all the way|ganz|max|maximum|tout|completamente|tutto)\s+)?"
    r"(?:(?P<closed>closed|close|in|hard|stiff|stiffest|seated|zu|geschlossen|hart|ferme|cerrado|chiuso)"
    rf"|{SOFT_END}|out|softest)(?:\s+(?P<number>\d{{1,2}}))?"
)
#: an adjuster somewhere between its ends
_HALFWAY = regex(
    r"(?:half|halfway|half way|mid|middle|centre|center|halb"
    r"|mitte|mittel|moitie|milieu|demi|mitad|medio|meta|mezzo|halva)\b"
    rf"(?:\s(?:way|open|out|in|closed|range|position|offen|zu|ouvert|{CLICKS_ALONE}))*"
)
_UNKNOWN_KNOB = "are clicks of an adjuster that is not known here: not taken; state them"
_SOME_END = word_set("max, maximum, min, minimum, full, minimo, massimo, maximo")
_TITLE_WORDS = 4  #: of a title, at the least
LESS_THAN_NONE = regex(r"[-−]\s*\d{1,2}(?:\s+\w+)?")  #: "-6", beside an adjuster
#: words that go on with a code's name and say nothing of clicks
_NAMED_ON = regex(
    r"(?i)(?:\s+(?!(?:from|out|in|open|close[dr]?|soft|hard|clicks?|turns?|and|then|ab|von|zu|auf|depuis|desde|da|comp\w*"
    r"|reb\w*|with|was|were|before|after)\b)[^\W\d_]{3,}){1,3}"
)
_CLICKS_OF = regex(rf"\b{CLICKS_ALONE}\b")
#: what follows "Shock" in a title and is no shock's name
_OF_TITLE = word_set(
    "dyno, test, tests, data, report, run, sheet, log, record, results, result, file, curve, curves, forces, bench,"
    " rig, absorber, dynamometer, testing, table, measurement, measurements, summary"
)
#: first words of what a sentence says of a shock: "shock has 12 bar nitrogen"
_OF_SENTENCE = word_set(
    "has, had, is, was, were, with, after, before, hat, ist, war, mit, nach, avec, est, con, tiene, ha"
)
_UNDER_TEST = word_set(
    "under, test, on, in, tested, measured, this, used, examined, im, unter, en, sous, essaye, provato"
)
_SHORTENED = 5  #: letters, at the least, of a long word for a shock that is cut off: "Amort.: 12"
_LONG_NAMES = tuple(sorted(word for word in TABLE_WORDS["shock"] if len(word) > _SHORTENED + 3 and " " not in word))
#: what says that a key's value is a number: "Dämpfer-Nr."
_NUMBERED = regex(r"[\s.]+(?:no|nr|num|n|n°|id|ident|identifier|identification|number|nummer|numero|ref)\.?$")
#: the same before the word: "Réf. amortisseur", "N° de l'amortisseur"
_NUMBER_OF = regex(
    r"^(?:ref|reference|referencia|riferimento|rif|no|nr|num|n°|no\.|id|number|nummer|numero|numer)\.?\s+"
    r"(?:(?:de|du|del|dell|d|l|of|the|des|do|da)\s+)*"
)
#: a shock that one capital letter names; the other letters are units in a line of them
_LETTER = regex(r"[A-MO-Z]")
_CAPITALS = regex(r"(?!KN|MPA|KPA|PSI|BAR|RPM|LBF|KGF|DAN)[A-Z]{2,3}")  #: such as "LB" and "IN"
_MAY_HEAD_UNITS = word_set("unit, sample, serial, sn")  #: of which one may stand over a unit, or name one
#: clicks behind a name: "wet LSC 6 LSR 8"
_THEN_CLICKS = regex(
    r"(?i)[\s,;/]+(?=(?:[lh]s[cr]|c|r)\s?[:=]?\s?\d{1,2}(?!\w))|\s+[-–—]\s+(?=\D*\d)"
    rf"|[\s,;/]+(?=\d{{1,2}}\s?{CLICKS_ALONE}\b)|[\s,;/]+(?=(?:{WAY})\s?[:=]?\s?\d{{1,2}}(?!\w))"
)
_BEGINS_WITH_CLICKS = regex(r"(?i)(?:[lh]s[cr]|c|r)\s?[:=]?\s?\d{1,2}(?!\w)")  #: "C 8 R 10", which names nothing
#: what is behind a name and no part of it: a remark in brackets, a sentence after a comma
_THEN_REMARK = regex(r"\s+\([^()]*[^\W\d_]{3}[^()]*\)$|,\s+(?=(?:[^\W\d_]+[\s.]+){2,}[^\W\d_]+\.?$).*")
_A_SIZE = regex(r"[Øø]?\s?[\d.,/]+\s?(?:mm|cm|in|inch|\")(?:\s.*)?")
#: a shock's code before a comma: letters and digits in one word
_CODE = regex(r"(?=[^\W_]*[A-Za-z-])(?=\S*\d)[\w-]{2,12}")
_OF_ONE_KNOB = regex(r"(\d{1,2})\s?([^\W\d_]{3,12})")
_A_NUMBER = regex(r"\d{1,2}")  #: a shock's among its like
_SO_MANY_CLICKS = regex(rf"\d{{1,2}}\s*{CLICKS_ALONE}.*")
_NO_SERIAL = regex(
    r"(?:[^\W\d]+\s+)*\d+([.,]\d+)?\s*(?:N|mm|cm|in|lbf?|kg|bar|psi|[Ww][Tt]?|cSt|cst|(?<=\s)[CF]|°\s?[CF])"
)


#: what makes an amplitude the whole stroke
_PEAK_TO_PEAK = regex(
    r"\b(?:peak.to.peak|pk.pk|p.p|double|spitze.spitze|crete a crete|pico a pico|picco (?:a )?picco|topp.topp)\b"
)
_QUANTITIES = keys.TEMPERATURE | keys.OIL | keys.GAS | keys.STROKE | keys.AMPLITUDE | keys.ROD


def facts_of_pair(pair: StatedPair, decimal: str) -> StatedFacts:
    """Return what a key with its value states."""
    if "/" in pair.key and (one := _of_two_languages(pair.key)):
        pair = StatedPair(one, pair.value)
    key, value = plain(_IN_BRACKETS.sub("", pair.key)).strip(" ."), pair.value
    in_key = _IN_BRACKETS.search(pair.key)
    if in_key and (_NUMBER.fullmatch(value) or (_is_of_rate(key) and value[-1:].isdigit())):
        value = f"{value} {in_key[0][1:-1]}"
    if not value:
        return StatedFacts()
    if (clicks := _clicks_in(pair, key, value)) is not None:
        return clicks
    unit = is_unit(value) and not _LETTER.fullmatch(value) and not _CAPITALS.fullmatch(value)
    if _names_shock(key) and unit and key not in _MAY_HEAD_UNITS:
        said = f"'{pair.key}: {value}' is a unit: no shock's name was taken of it; state it if it is one"
        return StatedFacts(warnings=(said,))
    if _names_shock(key) and (date_of(value) or swappable_date(value)):
        code = value.partition(",")[0].strip()
        named_so = _CODE.fullmatch(code) is not None and not (date_of(code) or swappable_date(code))
        # "Rear left damper, dyno'd 14.6.2025" and "Dämpfer 4W-1, 19.03.26"
        return replace(facts_of_date(value, decimal=decimal), shock=code if named_so else side_in(key))
    named = (
        not unit
        and plain(value) not in _OF_TITLE
        and not (len(clicks_of(value)) > 1 and _BEGINS_WITH_CLICKS.match(value))
        and not (" " in value and plain(value).split(" ")[0] in _OF_SENTENCE)
        and not (_NO_SERIAL.fullmatch(value) or _SO_MANY_CLICKS.fullmatch(plain(value)))
    )
    before = value.partition(",")[0].strip()
    if _names_shock(key) and before != value and shock_in(before) == before:
        return StatedFacts(shock=before)
    if _names_shock(key) and named and not _speaks_of_force(value):
        if isinstance(value, InQuotes):
            return StatedFacts(shock=value)
        name = name_alone(value).removeprefix("#").strip()
        if _A_NUMBER.fullmatch(name) and (side := side_in(pair.key)):
            name = f"{side} {name}"  # "rear shock #2"
        return replace(facts_behind_at(value), shock=name)
    if _unread_clicks(key, value):
        said = f"'{pair.key}: {pair.value}' {_UNKNOWN_KNOB}"
        return StatedFacts(warnings=(said,))
    size = _A_SIZE.fullmatch(value) or (key == "piston" and _NUMBER.fullmatch(value))
    if names_pack(_key_of_number(key)) and not size:
        return replace(facts_behind_at(value), pack=pack_of(value))
    whole = _PEAK_TO_PEAK.search(f"{plain(pair.key)} {plain(value)}") is not None
    return _of_quantity(key, value, decimal, whole=whole)


def _clicks_in(pair: StatedPair, key: str, value: str) -> StatedFacts | None:
    """Return the clicks that a key in plain words states with its value, or why none; None of any other key."""
    in_key = _IN_BRACKETS.search(pair.key)
    if (one_knob := clicks_of_one_knob(pair, key)) is not None:
        return one_knob
    if plain(value) in _SOME_END and adjuster_of(key) is not None:
        said = f"'{pair.key}: {value}' does not say which end of the clicks it is: not taken; state it"
        return StatedFacts(warnings=(said,))
    if _HALFWAY.fullmatch(plain(value)) and adjuster_of(key) is not None:
        said = f"'{pair.key}: {value}' is no number of clicks: not taken; state it"
        return StatedFacts(warnings=(said,))
    if (end := _end_of_clicks(pair, key)) is not None:
        return end
    if value.lower() in COUNTED and adjuster_of(key):
        return StatedFacts(clicks={str(adjuster_of(key)): COUNTED[value.lower()]})
    in_brackets = in_key is not None and _CLICKS_OF.search(plain(in_key[0])) is not None
    clicked = in_brackets or (_CLICKS_OF.search(key) is not None and not clicks_of(f"{key}: {value}"))
    if clicked and re.fullmatch(r"\d{1,2}", pair.value) and adjuster_of(key):
        return StatedFacts(clicks={str(adjuster_of(key)): int(pair.value)})
    if adjuster_of(key) and (out := _OUT.fullmatch(value)) and not clicks_of(f"{key}: {value}"):
        return StatedFacts(clicks={str(adjuster_of(key)): int(out[1])})
    if (place := corner_alone(pair.key)) and (one := _OF_ONE_KNOB.fullmatch(value)) and adjuster_of(plain(one[2])):
        return StatedFacts(shock=place, clicks={str(adjuster_of(plain(one[2]))): int(one[1])})  # "LR: 22 reb"
    whole = f"{key}: {value}"
    if _SO_MANY_CLICKS.fullmatch(plain(value)) and not (clicks_of(whole) or all_clicks(whole)):
        knob = adjuster_of(f"{key} clicks")
        return StatedFacts(clicks={knob: int(re.match(r"\d+", value)[0])}) if knob else None  # type: ignore[index]
    if LESS_THAN_NONE.fullmatch(value) and adjuster_of(key) is not None:
        said = f"'{pair.key}: {pair.value}' is less than no clicks: not taken; state them"
        return StatedFacts(warnings=(said,))
    return None


def _of_two_languages(key: str) -> str:
    """Return the half of a key in two languages, "дата / Date", that is known; empty where the whole or neither is."""
    halves = [half.strip() for half in key.split("/")]
    if len(halves) != 2 or _is_known(key) or any(adjuster_of(plain(half)) for half in halves):
        return ""
    known = [half for half in halves if _is_known(half)]
    foreign = any(not half.isascii() for half in halves)
    return known[-1] if len(known) == 1 or (known and foreign) else ""


def _is_known(key: str) -> bool:
    bare = plain(_IN_BRACKETS.sub("", key)).strip(" .")
    return bare in keys.KNOWN or keys.is_date(bare)


def without_known(facts: StatedFacts, pair: StatedPair, clicks: Mapping[str, int]) -> StatedFacts:
    """Return a pair's facts without the warning that its adjuster is not known, where its line's clicks have it."""
    number = re.search(r"\d+", pair.value)
    known = number is not None and int(number[0]) in clicks.values()
    said = tuple(w for w in facts.warnings if not (known and w.endswith(_UNKNOWN_KNOB)))
    return facts if said == facts.warnings else replace(facts, warnings=said)


def _end_of_clicks(pair: StatedPair, key: str) -> StatedFacts | None:
    """Return what "LSC: full closed" states, no click out; of the soft end, whose number only the shock's file knows,
    a warning. None of another value.
    """
    match = _AT_AN_END.fullmatch(plain(pair.value))
    if match is None or (adjuster := adjuster_of(key)) is None:
        return None
    if match["closed"] or match["number"]:
        return StatedFacts(clicks={adjuster: int(match["number"] or 0)})
    said = f"'{pair.key}: {pair.value}' is the last click, whose number the file does not say: not taken; state it"
    return StatedFacts(warnings=(said,))


def name_alone(value: str) -> str:
    """Return a name without clicks and remarks behind it, as another line may state them.

    >>> name_alone("gravel, LSC 6 LSR 8"), name_alone("FR-1 (rebuilt)"), name_alone("gravel 2"), name_alone("LR@8")
    ('gravel', 'FR-1', 'gravel 2', 'LR')
    """
    value = before_at(value)
    clicks = _THEN_CLICKS.search(value)
    value = value[: clicks.start()] if clicks and clicks_of(value[clicks.start() :]) else value
    return _THEN_REMARK.sub("", value).strip(" ,;/") or value


def pack_of(value: str) -> str | None:
    """Return the pack that a value names, a code whole; None where the value is clicks alone."""
    code = code_of(value)
    if code and _NAMED_ON.fullmatch(value[len(code) :]):
        return value  # "4C/7R linear piston"
    return code or (None if begins_as_code(value) else name_alone(value))


def _speaks_of_force(value: str) -> bool:
    """Whether a text of several words is a title over forces and no name: "rebound force [N] at clicks"."""
    words = plain(value).split()
    forces = CHANNEL_WORDS["force"]
    if speaks_of_turns(value) or (len(words) > 1 and all(word in forces or direction_of(word) for word in words)):
        return True  # "rebound force", "turns out"
    return len(words) >= _TITLE_WORDS and bool({*words} & forces)


def _key_of_number(key: str) -> str:
    """Return a key without its word for a number: "pack no" is the pack."""
    return key if key in TABLE_WORDS["pack"] else _NUMBERED.sub("", key)


def _names_shock(key: str) -> bool:
    """Whether a key calls a shock so, alone or with its place in the car: "Amortisseur arrière"."""
    if key in TABLE_WORDS["shock"]:
        return True
    words = _NUMBER_OF.sub("", _NUMBERED.sub("", key.replace("-", " "))).split()
    if len(words) == 1 and len(words[0]) >= _SHORTENED and words[0] not in _OF_TITLE:
        words = [next((whole for whole in _LONG_NAMES if whole.startswith(words[0])), words[0])]
    words = [w for w in words if w not in SIDES and w not in _UNDER_TEST]
    return 1 <= len(words) <= 3 and " ".join(words) in TABLE_WORDS["shock"]


def _unread_clicks(key: str, value: str) -> bool:
    """Whether a number is said to be clicks, and of which adjuster is not known; how many there are is none's."""
    if all_clicks(f"{key}: {value}") or clicks_of(f"{key}: {value}") or turns_of(f"{key}: {value}"):
        return False
    worded = re.fullmatch(r"[-+]?\d{1,2}(?P<word>\s+\w+)?(?:\s+\w+){0,3}", value)
    in_value = (
        worded is not None and worded["word"] is not None and _CLICKS_OF.search(plain(worded["word"])) is not None
    )
    return in_value or (_CLICKS_OF.search(key) is not None and re.fullmatch(r"\d{1,2}", value) is not None)


def _of_quantity(key: str, value: str, decimal: str, *, whole: bool = False) -> StatedFacts:
    """Return the quantity that a key states; an amplitude that is `whole`, from peak to peak, is the stroke."""
    name, _, unit = key.rpartition(" ")
    if name in keys.RATE and unit in ("hz", "khz") and not value[-1:].isalpha():
        key, value = name, f"{value} {unit}"  # "sample_rate_hz: 500"
    if _NUMBER.fullmatch(value) and name in _QUANTITIES and is_unit(unit):
        key, value = name, f"{value} {unit.upper() if unit in 'cf' else unit}"  # "oil_temperature_c: 31"
    if keys.is_date(key):
        return facts_of_date(value, key, decimal)
    if key in keys.TEMPERATURE:
        warmth, said = temperature_of(key, value, decimal)
        return StatedFacts(temperature=warmth, warnings=(*said, *_without_unit(key, value, "°C or °F")))
    if key in keys.OIL and (warmth := quantity(value, "temperature", decimal)) is not None:
        return StatedFacts(temperature=warmth)
    if keys.is_of(key, keys.GAS):
        pressure = quantity(value, "pressure", decimal)
        odd = not_understood(key, value, "pressure") if pressure is None else ()
        lacking = () if clicks_of(f"{key}: {value}") else (*odd, *_without_unit(key, value, "bar or psi"))
        return StatedFacts(gas_pressure=pressure, warnings=lacking)
    length = _PEAK_TO_PEAK.sub(" ", value) if whole else value
    if key in keys.STROKE and not {*plain(value).split()} & NOT_THE_RIGS:
        half = value.startswith(("±", "+/-", "+-"))
        stroke = quantity(value.lstrip("±+-/ "), "length", decimal)
        if stroke is None:
            return StatedFacts()
        return _stroke(stroke * (2 if half else 1), key, value)
    if key in keys.AMPLITUDE and (radius := quantity(length.lstrip("±+-/− "), "length", decimal)) is not None:
        return _stroke(radius * (1 if whole else 2), key, value)
    if key in keys.ROD:
        rod = quantity(value, "length", decimal)
        odd = not_understood(key, value, "length") if rod is None else ()
        return StatedFacts(rod=rod, warnings=(*odd, *_without_unit(key, value, "mm or in")))
    return _of_rate(key, value, decimal) if _is_of_rate(key) else StatedFacts()


def _is_of_rate(key: str) -> bool:
    return key in keys.RATE or key in keys.INTERVAL or is_rate(key)


def _of_rate(key: str, value: str, decimal: str) -> StatedFacts:
    """Return the sample rate of a key's value, or that it gives several."""
    one = partial(rate_of_interval if key in keys.INTERVAL else rate_of, decimal=decimal)
    if several := several_rates(value, one):
        return facts_of_rates(f"{key}: {value}", several)
    return StatedFacts(rate=one(value))


def _stroke(length: float, key: str, value: str) -> StatedFacts:
    """Return the stroke [m] that a key states, as sure as the key makes it that it is the rig's."""
    doubt = 2 if key in keys.STROKE_OF_EITHER else int({*key.split()}.isdisjoint(keys.OF_RIG))
    return StatedFacts(of_stroke=StatedStroke(length, doubt, f"{key}: {value}"))


def _without_unit(key: str, value: str, units: str) -> tuple[str, ...]:
    """Return a warning where a fact is a number alone."""
    bare = _NUMBER.fullmatch(value) is not None and any(c.isdigit() for c in value)
    return (f"'{key}: {value}' has no unit ({units}) and was not taken",) if bare else ()


def facts_of_date(value: str, key: str = "", decimal: str = ".") -> StatedFacts:
    """Return the date that a value states, and a warning where its key names a date and none is known in it.

    Where day and month could be swapped, a key in another language than English or a decimal comma puts the day first.
    """
    day, found = swappable_date(value), date_of(value)
    dated = keys.is_date(key) and key != "session"  # which may be a number of its own
    unread = day is None and found is None and dated and any(c.isdigit() for c in value)
    said = f"'{key}: {value}' is no date that is known here: none was taken"
    first = day is not None and (decimal == "," or keys.puts_day_first(key))
    return StatedFacts(date=found, swappable=day, day_first=first, warnings=(said,) if unread else ())
