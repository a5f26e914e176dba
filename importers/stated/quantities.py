"""Quantities, rates and units as lines state them."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence

from dynoan.errors import QuantityError
from dynoan.units import parse
from importers.header import describe_column, spaced, uncomment
from importers.patterns import regex
from importers.stated.facts import StatedStroke
from importers.stated.pair import StatedPair
from importers.stated.several_rates import second_rate
from importers.words.channels import OTHER
from importers.words.keys import UNITS
from importers.words.spelling import plain
from importers.words.unit_text import KIND, clean_unit, is_unit, kinds_of

_QUANTITY = regex(r"^\s*([-+]?[\d.,']*\d)\s*(\S.*)?$")
_UNIT_END = regex(r"\s*(?:[,;(]|\bat\b|\bbei\b|@|\b(?:cold|hot|kalt|warm|froid|gauge|nominal)\b)")
#: what follows a unit: a word, "8 bar nitrogen", or the same in another unit, "40 C/104 F"
_FIRST_UNIT = defaultdict(
    lambda: regex(r"\s+"), dict.fromkeys(("pressure", "temperature"), regex(r"\s*[/=|]\s*|\s+(?!C\b|F\b)"))
)
_FRACTION = regex(r"^(?:(\d+)[\s-]+)?(\d{1,2})/(\d{1,2})(?=\s?(?:in\b|inch|\"|”|''))")
#: marks before a diameter, and the ones of an inch and of a pound behind a number
_DIAMETER = regex(r"^[Øø⌀∅]\s*")
_INCH = regex(r"(?<=\d)\s?(?:\"|”|''|″)")
_GROUPED_BY_COMMA = regex(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?")
_SAMPLING = regex(
    r"(?i)\b(?:sampl|abtast|abgetastet|aufgezeichnet|recorded|logged|logging|acqui|echantill|échantill|muestre|campion|amostra)"
    r"\w*\b[^-\d;|]{0,30}?(\d[\d.,]*\s*(?:k?hz|s/s|sps)\b)"
)
_GROUPED = regex(r"\d{1,3}\.\d{3}")
_PER_SECOND = (
    r"(?i)\b(?P<kilo>k)?(?:samples?|s|sa|scans?|messwerte|punkte|points?|pts|muestras|campioni|echantillons|ech)"
    r"\s*(?:/|per|pro|par|por|al)\s*(?:s|sec|second|sekunde|seconde|segundo|secondo)\b"
    r"|\bsps\b|\bhertz\b"
)
#: "every 2nd sample saved"
_THINNED = regex(
    r"\b(?:every|each|jede[rsn]?|chaque|cada|ogni|elke)\s(?P<of>[2-9]|[1-9]\d{1,3})(?:st|nd|rd|th|e|eme|a|o|\.)?\s"
    r"(?:samples?|points?|scans?|readings?|values?|rows?|messwert|punkt|wert|echantillons?|puntos?|punti|muestras?|campion[ei])\b"
)
#: words in brackets that are no unit: "force kg (tension is plus)"
_SAID_IN_BRACKETS = regex(r"\([^()]*\s[^()]*\)")
#: what may stand beside units in a line of them
_BESIDE_UNITS = frozenset(
    (
        "and",
        "all",
        "in",
        "und",
        "et",
        "y",
        "e",
        "units",
        "unit",
        "forces",
        "speeds",
        "values",
        "&",
        "are",
        "vs",
        "vs.",
        "versus",
        "against",
        "over",
        "gegen",
        "über",
        "contre",
        "contra",
    )
)
_STROKE = regex(
    r"(?i)\b(?:stroke|hub|course|carrera|corsa)\s+(?:of\s+|=\s*)?(±\s*|\+\s?/?\s?-\s*)?(\d+(?:[.,]\d+)?\s*(?:mm|cm|m|in|inch(?:es)?|\"))(?![\w/])"
)
#: "crank of 50 mm stroke"
_STROKE_BEHIND = regex(
    r"(?i)(?<![\d.,/])(±\s*|\+\s?/?\s?-\s*)?(\d+(?:[.,]\d+)?\s?(?:mm|cm|in|inch(?:es)?|\"))\s(?:crank\s|dyno\s|rig\s)?"
    r"(?:stroke|hub|course|carrera|corsa)(?!\s(?:damper|shock|sensor|left|remaining|available))\b"
)
#: words before a stroke that is not the one of the test
NOT_THE_RIGS = frozenset(
    ("shock", "damper", "max", "maximum", "full", "available", "usable", "free", "sensor", "wheel")
)
_LONGEST_CLAUSE = 6  #: longer ones are prose [words]
_WORD_AND_BRACKET = regex(r"(?<![^\W\d_])[^\W\d_]{2,40}\s{0,3}(?:\([^)]{1,12}\)|\[[^\]]{1,12}\])")
_CHANNEL_IN_UNIT = regex(r"\b(\w+)\s+(?:(?:is|are|sind|ist|son|values)\s+)?(?:in|en|em|i|på|w|v)\s+([^\s,;()]+)")


def quantity(value: str, kind: str, decimal: str) -> float | None:
    """Return a quantity in SI, temperatures in °C; None where there is no number or no unit of that kind."""
    value = _FRACTION.sub(_as_decimal, _DIAMETER.sub("", value.strip()))
    value = _INCH.sub(" in", value) if kind == "length" else value
    value = re.sub(r"(?<=\d)\s?(?:#|lbs)$", " psi", value) if kind == "pressure" else value
    match = _QUANTITY.match(value)
    if match is None or not match[2]:
        return None
    number = match[1]
    if decimal == "," and _GROUPED.fullmatch(number):
        number = number.replace(".", "")
    if decimal == "." and _GROUPED_BY_COMMA.fullmatch(number):
        number = number.replace(",", "")
    unit = _UNIT_END.split(match[2])[0]
    if not is_unit(unit, kind) and is_unit(first := _FIRST_UNIT[kind].split(unit)[0], kind):
        unit = first
    try:
        return parse(f"{number} {clean_unit(unit)}", kind)
    except (QuantityError, ValueError):
        return None


def _as_decimal(found: re.Match[str]) -> str:
    """Return a fraction of an inch as a number: "1 5/8"."""
    below = int(found[3])
    return f"{int(found[1] or 0) + int(found[2]) / below:.6g}" if below else found[0]


def rate_of(value: str, decimal: str) -> float | None:
    """Return a sample rate; a bare number is in Hz. [Hz]"""
    value = re.sub(_PER_SECOND, lambda found: f"{found['kilo'] or ''}Hz", value)
    if re.fullmatch(r"[\d.,']+", value.strip()):
        value = f"{value.strip()} Hz"
    rate = quantity(value, "frequency", decimal)
    return rate if rate and rate > 0 else None


def is_rate(key: str) -> bool:
    """Whether a key, as `plain` spells it, is itself the unit of a rate: "scans/sec", "samples per second"."""
    return re.fullmatch(_PER_SECOND, key) is not None


def thinned(bare: str) -> int | None:
    """Return of how many samples one was kept, as a line in plain words says; None where it does not."""
    match = _THINNED.search(bare)
    return int(match["of"]) if match else None


_RATE_ALONE = regex(r"(?i)(?:@\s*)?(\d{2,6}(?:[.,]\d+)?)\s*(k)?hz")
_SLOWEST_RATE = 20.0  #: a crank turns no faster: less may be the motion's [Hz]


def _rate_alone(line: str, decimal: str) -> float | None:
    """Return the rate that a line is and nothing else, "# 100 Hz"; None of one that a crank may turn with. [Hz]"""
    found = _RATE_ALONE.fullmatch(uncomment(line).strip())
    rate = rate_of(found[0].removeprefix("@").strip(), decimal) if found else None
    return rate if rate is not None and rate > _SLOWEST_RATE else None


def rates_in_words(line: str, decimal: str) -> tuple[float, ...]:
    """Return the sample rates that a sentence states, such as "sampled at 500 Hz"; mostly none or one. [Hz]"""
    match = _SAMPLING.search(line) or re.search(
        rf"(?<![\d.,])(\d[\d.,]*\s*k?\s*(?:{_PER_SECOND.removeprefix('(?i)')}))", line, re.I
    )
    if match is None:
        alone = _rate_alone(line, decimal)
        return () if alone is None else (alone,)
    found = (rate_of(said, decimal) for said in (match[1], second_rate(line, match.end())) if said)
    return tuple(dict.fromkeys(rate for rate in found if rate))


def stroke_in_words(line: str, decimal: str) -> StatedStroke | None:
    """Return the rig's stroke that a sentence states, such as "Crank rig, stroke 2 in"."""
    match, near = _STROKE.search(line), 1
    if match is None:
        match, near = _STROKE_BEHIND.search(line), 3  # "shock of 50 mm stroke"
    if match is None or set(plain(line[: match.start()]).split()[-near:]) & NOT_THE_RIGS:
        return None
    stroke = quantity(match[2], "length", decimal)
    return None if stroke is None else StatedStroke(stroke * (2 if match[1] else 1), said=match[0])


def rate_of_interval(value: str, decimal: str) -> float | None:
    """Return the sample rate that a time between samples gives. [Hz]"""
    seconds = quantity(value, "time", decimal)
    return 1 / seconds if seconds and seconds > 0 else None


#: "peak force lbs vs in/sec", "lbs at in/s"
_VERSUS = regex(
    r"(?i)(?:\b(?:force|forces|load|kraft)\s+|^[\s#*]*)[\[(]?(?P<force>[a-z]{1,4})[\])]?\s+"
    r"(?:vs\.?|versus|over|against|at|@|bei|über|gegen)\s+"
    r"(?:(?:speed|velocity|geschwindigkeit)\s+)?[\[(]?(?P<speed>[a-z]{1,4}\s?/\s?[a-z]{1,4})\b"
)


#: "単位 N", "Einheit: N" without its mark
_UNIT_ALONE = regex(
    r"(?i)(?:^|[;,\t|]\s*)(?:単位|单位|單位|단위|einheit|unit|unité|unidad|unità)\s+([^\s;,\t|]{1,5})(?=$|[;,\t|])"
)


def units_in(line: str, found_pairs: Sequence[StatedPair]) -> dict[str, str]:
    """Return units that a line states for channels: "Units: N, mm, s", "Force unit: lbf", "forces in N"."""
    found: dict[str, str] = {}
    for pair in found_pairs:
        name = plain(spaced(pair.key))
        if name in UNITS:
            if _each_in(line.partition(":")[2]):
                continue  # "t in s; s in mm" holds no inches
            found |= _by_kind(re.split(r"[,;|\s]+(?![^(]*\))", pair.value))
            found |= _by_kind(re.split(r"[,;|\s()\[\]]+", pair.value)) if not found else {}
        elif set(name.split()) & UNITS or is_unit(pair.value):
            channel = describe_column(0, " ".join(w for w in name.split() if w not in UNITS)).channel
            if channel and KIND[channel] in kinds_of(pair.value):
                found[channel] = pair.value
    found = (
        _of_units_alone(uncomment(line))
        | _in_cells(line)
        | _beside_channels(line)
        | _in_brackets(line)
        | _in_clauses(line)
        | found
    )
    if behind := _UNIT_ALONE.search(line):
        found |= {k: v for k, v in _by_kind([behind[1]]).items() if k == "force" and k not in found}
    if both := _VERSUS.search(line):
        found |= {k: v for k, v in _by_kind([both["force"], both["speed"]]).items() if k not in found}
    for name, unit in _CHANNEL_IN_UNIT.findall(line):
        channel = describe_column(0, name).channel or describe_column(0, name.removesuffix("s")).channel
        if channel and KIND[channel] in kinds_of(unit):
            found.setdefault(channel, unit)
    return found


def _each_in(text: str) -> bool:
    """Whether each clause of a text says what is in which unit: "t in s; s in mm"."""
    clauses = re.split("[;,]", text)
    return len(clauses) >= 2 and all(re.fullmatch(r"\s*[^\W\d]+\s+in\s+\S+\s*", clause) for clause in clauses)


def _of_units_alone(line: str) -> dict[str, str]:
    """Return the units of a line that is nothing but units of force and speed: "mm/s and N", "all lbs"."""
    words = [w for w in re.split(r"[,;|()\s]+", line.strip()) if w]
    units = [w for w in words if w.lower() not in _BESIDE_UNITS] if len(words) <= _LONGEST_CLAUSE else []
    known = bool(units) and all(kinds_of(w) and kinds_of(w) <= {"force", "mass", "velocity"} for w in units)
    return _by_kind(units) if known and (len(words) > 1 or len(units[0]) > 1) else {}


def _in_cells(line: str) -> dict[str, str]:
    """Return the units in the cells behind a word for units: "Y_Unit_Label", "mm", "N"."""
    first, *rest = [c.strip() for c in re.split(r"[;\t|,]", line) if c.strip()] or [""]
    named = (
        len(rest) >= 2
        and not re.search(r"[:=]", first)
        and {*plain(first).split()} & UNITS
        and all(is_unit(c) for c in rest)
    )
    return _by_kind(rest) if named else {}


def _in_clauses(line: str) -> dict[str, str]:
    """Return the units of clauses that are a channel's name and its unit alone: "Shock RL-02, forces N"."""
    found = dict[str, str]()
    for clause in re.split(r"[,;\t|:]|\s{2,}", line):
        words = clause.split()
        if len(words) == 2 and is_unit(words[1]):
            name = plain(words[0])
            channel = describe_column(0, name).channel or describe_column(0, name.removesuffix("s")).channel
            found |= {channel: words[1]} if channel and KIND[channel] in kinds_of(words[1]) else {}
    return found


def _beside_channels(line: str) -> dict[str, str]:
    """Return the units of a comment whose every clause is a channel and its unit: "# velocity mm/s, force daN"."""
    bare = uncomment(line)
    if bare == line:
        return {}
    bare = _SAID_IN_BRACKETS.sub(" ", bare)
    columns = [describe_column(0, clause.strip()) for clause in re.split(r"[,;\t|]", bare) if clause.strip()]
    whole = len(columns) >= 2 and all(c.channel and c.unit for c in columns)
    return {c.channel: c.unit for c in columns if c.channel} if whole else {}


def _in_brackets(line: str) -> dict[str, str]:
    """Return the units that stand in brackets behind a channel's name in a sentence: "Force at speed (N)"."""
    clauses = [c.strip() for c in re.split(r"[,;\t|:]", uncomment(line)) if "(" in c or "[" in c]
    columns = [describe_column(0, c) for c in clauses if len(c.split()) <= _LONGEST_CLAUSE]
    found = {c.channel: c.unit for c in columns if c.channel and c.unit and not c.by_unit}
    before = [describe_column(0, match[0]) for match in _WORD_AND_BRACKET.finditer(line)]
    found |= {c.channel: c.unit for c in before if c.channel and c.unit and not c.by_unit}
    return found or _of_title(line)


def _of_title(line: str) -> dict[str, str]:
    """Return the unit of force that stands in brackets in a title of words alone: "Rear axle check (N)"."""
    units = [u for u in re.findall(r"[\[(]([^\])]{1,99})[\])]", line) if is_unit(u, "force")]
    words = not re.search(r"[\d;\t|:=]", line) and len(line.split()) <= _LONGEST_CLAUSE
    return {"force": units[0]} if words and len(units) == 1 and not set(plain(line).split()) & OTHER else {}


def _by_kind(tokens: Sequence[str]) -> dict[str, str]:
    """Return the one unit of each kind among words, by channel; none where a kind has several."""
    found: dict[str, list[str]] = {}
    for token in tokens:
        kinds = kinds_of(token)
        if len(kinds) == 1:
            found.setdefault(next(iter(kinds)), []).append(token)
    return {c: found[k][0] for c, k in KIND.items() if len({clean_unit(t) for t in found.get(k, [])}) == 1}
