"""Keys and values in a line of text, however it sets them apart."""

from __future__ import annotations

import re
from itertools import pairwise

from importers.header import uncomment
from importers.patterns import regex
from importers.stated.pair import InQuotes, StatedPair
from importers.stated.sentences import named_thing, named_within, names_device, titled_shock
from importers.words.adjusters import adjuster_of
from importers.words.dates import date_of
from importers.words.keys import DATE, INTERVAL, KNOWN, RATE
from importers.words.shock_names import place_of_title, shock_in
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_PARTS = regex(r"[;\t|]|\s{2,}(?=[^\W\d_][^\s:=]{0,20}\s?[:=]\s)|,(?=\s*[A-Za-zÀ-ÿ][^:=,]{0,40}[:=])|\s{3,}")
#: what sets a key and its value in line: blanks before a colon, dots between the two
_ALIGNED = regex(r"(?<=[^\s:=])\s{2,}(?=[:=]\s)|(?<=[^\W\d_])\s?(?:\.\s?){4,}:?\s*")
#: "Temperature, C: 31"
_UNIT_OF_KEY = regex(r"(?<=[^\W\d_]),\s?(°?[CF]|bar|psi|mm)\s?(?=[:=])")
_UNIT_BEHIND = regex(r"\s*[\[(][^()\[\]]{1,8}[\])]$")
#: "RL-121 (pack: B)"
_KEYED_BRACKET = regex(r"\s\((?P<key>[^\W\d_][^():=]{1,30})[:=]\s?(?P<value>[^():=]{1,40})\)")
_CELLS = regex(r"[;\t|,]|\s{2,}")
_CELLS_WITH_COMMAS = regex(r"[;\t|]|\s{2,}")
_PAIR = regex(r"\s*([^:=]{1,60}?)\s*[:=]+\s*(.*)$")
_COMMA = "\1"  #: stands for a comma within quotes
_QUOTED = regex(r'"([^"]*)"')
#: a time of day, whose colons set nothing apart
_CLOCK = regex(r"(?<=\d):(?=\d\d(?!\d))")
_MARK = regex(r"[:=]")
_HERTZ = regex(r"(?i)\s+k?hz\s*$")  #: "Sampling Hz,250,250"
#: the same value for each channel: "Rate (Hz):,512,512,512"
_SAME_FOR_ALL = regex(
    r"(?P<key>[^\d,;\t:=]{2,40}?)\s*:?\s*(?P<mark>[,;\t])\s*(?P<value>[^,;\t]+?)\s*(?:(?P=mark)\s*(?P=value)\s*)+$"
)
#: a key between blanks, of two words or one
_KEYED = regex(
    r"(?<!\S)(?:(?P<before>[^\W\d_]\w*)[ ])?(?P<word>(?!C\s?=\s?[\d.,]+\s?°?F\b)[^\W\d_][\w/]*)\s?[:=](?=\s?\S)"
)
#: "<shock>FL-03</shock>"
_TAGGED = regex(r"<(\w{2,30})>([^<>]+)</\1>")
_NUMBER = regex(r"[-+\d.,]+")
_REST_OF_NUMBER = regex(r"0\d")  #: what a comma that groups thousands leaves in a cell of its own
#: a title between marks: "*** RL-02 ***", "| RL-02 |"
_LEAST_PAIRS = 2  #: parts of a line that are a key and its value, for the others to be taken alone
_LONGEST_TITLE = 200  #: [characters]
_FRAMED = regex(r"(?:([*=|~])\1*|([#_+-])\2+)\s*(?P<title>[^*=|~#]*[^\s*=|~#_+-])\s*(?:\1+|\2{2,})")
_NUMBER_WORD = regex(r"(?i)\s(?:no|nr|n°|num|number)\.?$")  #: "fork cartridge no 2"
_KEY_THEN_NUMBER = regex(r"^([A-Za-zÀ-ÿ][A-Za-zÀ-ÿ /.]*?)\s+(\S*\d\S*(?:\s(?:deg\s)?\S+)?|\S+)$")


def pairs(line: str) -> list[StatedPair]:
    """Return the keys and values in a line, as they stood.

    >>> [tuple(p) for p in pairs("# Shock: FL-03; LSC = 6")], [tuple(p) for p in pairs("Gas pressure;10;bar")]
    ([('Shock', 'FL-03'), ('LSC', '6')], [('Gas pressure', '10 bar')])
    >>> [tuple(p) for p in pairs("Rate (Hz):,512,512")]
    [('Rate (Hz)', '512')]
    """
    if (same := _SAME_FOR_ALL.match(line)) is not None and _known(_HERTZ.sub("", same["key"])):
        line = f"{same['key']}: {same['value']}"
    bare = uncomment(unframed(_QUOTED.sub(_without_comma, _CLOCK.sub("\0", line.replace("：", ":"))))).strip()
    bare = _without_quotes(bare.replace("**", "") if bare.count("**") % 2 == 0 else bare)
    bare = _UNIT_OF_KEY.sub(r" (\1)", _ALIGNED.sub(_mark_of, bare))
    bare = _KEYED_BRACKET.sub(lambda m: f"; {m['key']}: {m['value']}" if _known(m["key"]) else m[0], bare)
    found = [StatedPair(_whole(p.key), _whole(p.value)) for p in _pairs(bare)]
    return [each for pair in found for each in _two_in_one(pair)]


def _whole(text: str) -> str:
    whole = text.replace("\0", ":").replace(_COMMA, ",")
    return InQuotes(whole) if _COMMA in text else whole


def _two_in_one(pair: StatedPair) -> list[StatedPair]:
    """Return both pairs of "Shock/Pack: RR-3 / Gravel"; else the pair."""
    keys, values = re.split(r"\s*/\s*", pair.key), re.split(r"\s*/\s*", pair.value)
    both = len(keys) == len(values) > 1 and all(map(_known, keys)) and not _known(pair.key)
    unit = re.sub(r"^[-+\d.,]+\s*", "", values[-1])
    values = [f"{v} {unit}" if _NUMBER.fullmatch(v) and is_unit(unit) else v for v in values]
    return [StatedPair(*each) for each in zip(keys, values, strict=True)] if both else [pair]


def _mark_of(found: re.Match[str]) -> str:
    """Return the mark in the place of blanks before one, or of dots."""
    return ": " if "." in found[0] else ""


def unframed(line: str) -> str:
    """Return a title without the marks that frame it.

    >>> unframed("*** RL-02 ***"), unframed("| Shock RL-02 |"), unframed("a = b ==")
    ('RL-02', 'Shock RL-02', 'a = b ==')
    """
    found = _FRAMED.fullmatch(line.strip()) if len(line) <= _LONGEST_TITLE else None
    return found["title"].strip() if found else line


def _without_comma(quoted: re.Match[str]) -> str:
    """Return a quoted day, "March 4, 2026", or a quoted value as one cell."""
    if date_of(quoted[1]):
        return quoted[0].replace(",", "")
    return quoted[0].replace(",", _COMMA) if ":" not in quoted[0] and "=" not in quoted[0] else quoted[0]


def _pairs(bare: str) -> list[StatedPair]:
    bare = _TAGGED.sub(r"\1: \2; ", bare).strip(" ;") if "</" in bare else bare
    parts = [_without_quotes(p.strip()) for whole in _PARTS.split(bare) for p in _keys_apart(whole)]
    if not any(_has_mark(p) for p in parts):
        # Where semicolons, tabs or bars stand between cells, a comma is a decimal mark.
        apart = _CELLS_WITH_COMMAS if re.search(r"[;\t|]", bare) or _ends_in_decimal(bare) else _CELLS
        return _cell_pairs([_without_quotes(p.strip()) for p in apart.split(bare)])
    found = []
    for i, part in enumerate(parts):
        match = _PAIR.match(part)
        if match is None:
            alone = _KEY_THEN_NUMBER.match(part)
            found += [StatedPair(alone[1], alone[2])] if alone and _known(alone[1]) else named_within(part)
        else:
            value = _unquoted(_value(match[2], parts[i + 1 : i + 3])).rstrip(" /|,")
            found += [StatedPair(match[1].strip(), value), *(named_within(match[1]) if not value else ())]
    return found


def _ends_in_decimal(bare: str) -> bool:
    """Whether a line's one comma is the mark of decimals before a unit: "Messintervall 0,004 s"."""
    found = re.search(r"\s\d+,\d+\s(\S+)$", bare)
    return found is not None and bare.count(",") == 1 and is_unit(found[1])


def _keys_apart(part: str) -> list[str]:
    """Return the pairs that only blanks set apart, each a part: "shock=FL-03 pack=mixed"."""
    marks = _KEYED.finditer(part) if len(_MARK.findall(part)) >= 2 else ()
    cuts = [at for m in marks if (at := _start_of_key(m))]
    return [part[a:b] for a, b in pairwise([0, *cuts, len(part)])]


def _start_of_key(match: re.Match[str]) -> int:
    """Return where a key of two words or one starts; 0 where it is none that is known."""
    for group, key in ((1, f"{match[1]} {match[2]}"), (2, match[2])):
        if (match[1] or group == 2) and (_known(key) or adjuster_of(plain(key)) is not None):
            return match.start(group)
    return 0


def _has_mark(part: str) -> bool:
    return re.search(r"[:=]", part) is not None


def _without_quotes(text: str) -> str:
    """Return a text without quotes at its ends; behind a number and nothing before, one is an inch."""
    return text if re.search(r'^[^"]*\d"$', text) else text.strip('"')


def _unquoted(value: str) -> str:
    """Return a value without the quotes around it; one mark at its end may be an inch."""
    return (
        value[1:-1].strip()
        if len(value) > 1 and value[0] in "\"'" and value[0] == value[-1]
        else _without_quotes(value)
    )


def _value(text: str, following: list[str]) -> str:
    """Return the value behind a mark; it, or its unit, may stand in the cells that follow."""
    value = text.strip().strip(",").strip()
    if text.lstrip()[:1] == "," and (apart := _cells_apart(value)):
        return apart
    if not value:
        return " ".join(p for p in following if p and not _has_mark(p))
    if following and _NUMBER.fullmatch(value) and is_unit(following[0]):
        return f"{value} {following[0]}"
    return value


def _cells_apart(value: str) -> str:
    """Return numbers in cells of their own, and their unit, with blanks between them; empty of anything else."""
    cells = [cell.strip() for cell in value.split(",")]
    numbers = cells if _NUMBER.fullmatch(cells[-1]) else cells[:-1]
    several = len(cells) > 1 and all(map(_NUMBER.fullmatch, numbers))
    return " ".join(cells) if several and not any(map(_REST_OF_NUMBER.match, cells[1:])) else ""


def _cell_pairs(parts: list[str]) -> list[StatedPair]:
    """Return the pairs in cells without a colon or an equals sign."""
    parts = _with_units([p for p in parts if p])
    if len(parts) > 2 and plain(parts[0]) in DATE and not date_of(parts[1]) and date_of(" ".join(parts[1:3])):
        return [StatedPair(parts[0], " ".join(parts[1:3]))]
    if len(parts) == 2 and shock_in(parts[0]) == parts[0]:
        named = named_within(" ".join(parts))
        sentence = len(parts[1].split()) > 1 and not any(c.isdigit() for c in parts[1])
        if named or sentence:  # "RR-62, forces in lbs"
            return named or [StatedPair("shock", parts[0])]
    if len(parts) == 2 and (each := _each_a_pair(parts)) is not None:
        return each
    if len(parts) == 2 and not parts[0][:1].isdigit():
        within = [] if _known(parts[0]) or names_device(parts[0]) else _named_within(parts)
        return [StatedPair(parts[0], parts[1]), *within, *titled_shock(parts[0], parts[1])]
    if len(parts) > 2 and _rate_key(parts[0]) and all(part[:1].isdigit() for part in parts[1:]):
        return [StatedPair(parts[0], " ".join(parts[1:]))]
    if len(parts) == 3 and _NUMBER.fullmatch(parts[1]) and not is_unit(parts[0]):
        return [StatedPair(parts[0], f"{parts[1]} {parts[2]}")]
    if len(parts) == 1:
        match = None if place_of_title(parts[0]) else _KEY_THEN_NUMBER.match(parts[0])
        known = match and (_known(match[1]) or _known(_NUMBER_WORD.sub("", match[1])))
        return [StatedPair(match[1], match[2])] if match and known else named_within(parts[0])
    if (each := _each_a_pair(parts)) is not None:
        return each
    if (some := _some_a_pair(_without_devices(parts))) is not None:
        return some
    each = [StatedPair(k, v) for k, v in zip(parts[::2], parts[1::2], strict=False)]
    found = [pair for pair in each if _known(pair.key)]
    if found and len(parts) == 2 * len(each) and all(map(_may_be_said, each)):
        return each  # what stands beside a known key is kept as what the file says
    return found or [pair for part in _without_devices(parts) for pair in named_within(part) or named_thing(part)]


def _named_within(parts: list[str]) -> list[StatedPair]:
    return [pair for part in parts for pair in named_within(part)]


def _without_devices(parts: list[str]) -> list[str]:
    """Return cells without those behind one that names what measures or drives: "Recorder", "Unit 7"."""
    return [part for before, part in zip(["", *parts], parts, strict=False) if not names_device(before)]


def _may_be_said(pair: StatedPair) -> bool:
    """Whether two cells are words and what they say: no number and a name, nor a name and a unit."""
    return pair.key[:1].isalpha() and not is_unit(pair.key) and not is_unit(pair.value) and not _known(pair.value)


def _with_units(parts: list[str]) -> list[str]:
    """Return cells with each unit in the cell of its number, where several known keys stand in a line with theirs."""
    if len(parts) < 4 or not _known(parts[0]):
        return parts
    out = list[str]()
    for part in parts:
        behind = len(out) > 1 and _NUMBER.fullmatch(out[-1]) and _known(out[-2]) and is_unit(part)
        out[-1:] = [f"{out[-1]} {part}"] if behind else [*out[-1:], part]
    return out


def _each_a_pair(parts: list[str]) -> list[StatedPair] | None:
    """Return a pair a part where each is a known key before its value: "Shock ID RL-02   Valving gravel"."""
    found = []
    for part in parts:
        words = part.split()
        at = next((k for k in range(len(words) - 1, 0, -1) if _known(" ".join(words[:k]))), None)
        if at is None or _known(part) or names_device(part):
            return None
        found.append(StatedPair(" ".join(words[:at]), " ".join(words[at:])))
    return found


def _some_a_pair(parts: list[str]) -> list[StatedPair] | None:
    """Return what parts name, where two or more are a known key and its value: "Job 12 | Shock A-9 | Gas 5 bar".

    None where a part is a key alone, whose value stands in the next.
    """
    each = [_each_a_pair([part]) for part in parts]
    many = sum(pair is not None for pair in each)
    if many < _LEAST_PAIRS or any(map(_known, parts)):
        return None
    return [one for part, pair in zip(parts, each, strict=True) for one in pair or named_within(part)]


def _rate_key(key: str) -> bool:
    """Whether a key calls a sample rate or a time between samples so."""
    return plain(_UNIT_BEHIND.sub("", _HERTZ.sub("", key))).strip(" .") in RATE | INTERVAL


def _known(key: str) -> bool:
    return plain(_UNIT_BEHIND.sub("", key)).strip(" .") in KNOWN
