"""Shock, pack and temperature that a sentence names without a mark: "shock FL-03, gravel pack"."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.stated.names_beside_clicks import before_at
from importers.stated.pair import StatedPair
from importers.words.adjusters import CLICKS_ALONE, adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.dates import date_of
from importers.words.keys import OIL, TEMPERATURE
from importers.words.shock_names import SIDES, corner_alone, place_of_title, shock_in
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

#: "(oil 30 °C)" within a sentence
_BRACKETED = regex(r"\(([^\W\d_][^()\d]{0,30}?)\s+(\d[^()]{1,12})\)")
_SHOCK_INLINE = (
    r"(?i)\b(shock|damper|unit|d[äa]mpfer|amort\.|amortisseur|amortiguador|ammortizzatore|amortecedor|demper|schokdemper|schokbreker"
    r"|amortyzator|tlumi[cč]|specimen|serial|s/n|sn|matr\.|matricola|matricule)"
    r"\s+(?:no\.?\s+|nr\.?\s+|n[°ºo]\.?\s*|id\s+|#\s*)?(?!\d{2,3}(?:[.,]\d+)?\s?[x×]\s?\d)(?!\d{1,2}\s*"
    + CLICKS_ALONE
    + r"\b)([A-Za-z]*[-_]?\d[\w-]*|(?-i:[FR][LR]|[LR][FR]|[VH][LR]|[LR][VA]|A[VR][GD]))"
    r"(?![\w-])(?!\s*(?:of|von|de|di|sur|av|/)\s*\d)"
    r"(?!\s*(?:mm|cm|in|N|lbf?|kg|bar|psi|°)(?![\w-]))"
)
_PACK_INLINE = (
    r"(?i)\b((?:valve\s+)?pack|ventilpaket|paket|paquete|pacco)"
    r"\s+(?!(?:at|with|on|in|is|and|for|no|of|from|after|before|was|to|by|clicks?|tested)\b)([A-Za-z]\w*(?:\s\d{1,3}(?![.\d]*\s*(?:bar|psi|°|mm|n\b|lb)))?)(?=\s|[,;]|$)"
)

_PACK_NUMBERED = (
    r"(?i)\b((?:valve\s+)?pack|ventilpaket|paket|paquete|pacco)\s*(?:no\b\.?|nr\b\.?|n°|#)\s*([a-z]?\d{1,4})\b"
)
#: "shock FL-03, gravel pack"
_PACK_BEFORE = (
    r"(?i)(?<![\w-])(?!(?:valve|shim|new|old|the|this|that|a|our|each|per|spring|battery|same|second|first|other|no|and)\b)"
    r"([a-z]{3,})\s+(pack|paket)\b"
)


#: "seal swapped. Mixed pack, LSC 8"
_PACK_OF_CLAUSE = (
    r"(?i)(?:^|[.,;]\s+)(?!(?:valve|shim|new|old|the|this|that|a|our|each|per|spring|battery|same|second|first|other|no|and"
    r"|damper|shock|service|seal|rebuild|test|back|six|twin|data)\b)"
    r"([a-z]{3,})\s+(pack|paket)\s*(?=[.,;]|$)"
)
_TITLE_WORDS, _NAME_WORDS = 10, 4  #: of a title, and of the name in it, at the most
_DASHES = frozenset("-–—")
_SHOCKS = frozenset(word for word in TABLE_WORDS["shock"] if " " not in word)
_THEN_TESTED = regex(
    r"(?i)[\s,:-]+(?:was\s+)?(?:tested|test|run|dyno\w*|measured|gepr[uü]ft|gemessen|test[ée]|essai|compression|rebound|bump"
    r"|druck|zug|druckstufe|zugstufe|d[ée]tente)\b(?!\s*[:=])"
)
#: what a shock is held against that is not the one on the rig
_COMPARED = regex(
    r"\b(?:vergleich\w*|vergl|compared?|comparison|comparaison|compare[er]?|confronto|confrontato|comparacion|comparado"
    r"|against|versus|vs|instead of|anstelle|same as|like)\b"
)
_CAPITALS = regex(r"\W*(?P<word>[^\W\d_]+)\s+(?P<code>[A-Z]{2,4})(?=\s+[-–—]\s|\s*,|\s*$)")
_NO_CODE = word_set("dyno, test, data, run, log, no, nr, sn, id, csv, usa, uk, rpm, oem, new, old, oil, gas")
_PLACED_INLINE = regex(
    r"(?i)\b(?:shock|damper|d[äa]mpfer|amortisseur|amortiguador|ammortizzatore|amortecedor|demper|amortyzator|tlumi[cč])"
    r"\s+(?P<place>(?:[^\W\d_]+\s+){1,2})(?:no\.?|nr\.?|n[°ºo]\.?|#)\s*(?P<number>\d{1,5})(?![\w.,-]*\d)"
)
#: words that any device's number stands behind
OF_ANY_DEVICE = word_set("unit, serial, s/n, sn, specimen, id")
_DEVICES = word_set(
    "recorder, logger, datalogger, daq, amplifier, amp, conditioner, rig, dyno, dynamometer, bench, machine, stand,"
    " cell, loadcell, sensor, transducer, lvdt, potentiometer, pot, encoder, gauge, ecu, control, controller,"
    " power, drive, motor, actuator, scale, thermometer, thermocouple, probe, meter, supply, interface, board,"
    " laptop, computer, pc, rekorder, messgerat, messverstarker, verstarker, prufstand, prufmaschine,"
    " kraftmessdose, aufnehmer, kraftaufnehmer, wegaufnehmer, steuergerat, enregistreur, banc, capteur,"
    " amplificateur, boitier, registrador, banco, amplificador, maquina, registratore, sensore, cella, amplificatore,"
    " meetversterker, testbank"
)
_SERIAL = 3  #: digits of a serial number at the least
_BEHIND_AT = regex(r"\s?@\s?\d[^,;\t|]*$")
_IS_SHOCK = regex(r"(shock) (.+)")
#: words of a title beside which a name is the shock's: "BUILD SHEET   RL-02"
_TITLES = word_set(
    "sheet, report, test, dyno, record, protocol, protokoll, form, card, results, result, data, prufbericht, bericht,"
    " messprotokoll, blatt, datenblatt, rapport, fiche, scheda, hoja, ficha"
)
#: beside them, what makes the name the test's own: "Test ID", "T-5512"
_OF_TEST = word_set("id, no, nr, number, nummer, num, numero, n°, ref, reference, code, name, file, job, order")


def titled_shock(title: str, cell: str) -> list[StatedPair]:
    """Return the shock that a cell names behind a title: "BUILD SHEET", "RL-02"; none of other cells."""
    words = {*plain(title).replace(".", " ").split()}
    titled = not any(c.isdigit() for c in title) and bool(words & _TITLES) and not words & _OF_TEST
    return [StatedPair("shock", cell)] if titled and shock_in(cell) == cell else []


def _lettered(line: str) -> list[StatedPair]:
    """Return the shock that a title calls by capitals before a dash or its end: "Amortisseur LX - 2 December"."""
    found = _CAPITALS.match(line)
    if found is None or line.isupper() or plain(found["word"]) not in _SHOCKS:
        return []
    code = plain(found["code"])
    known = code in _NO_CODE or adjuster_of(code) is not None or is_unit(code)
    return [] if known else [StatedPair("shock", found["code"])]


def _placed(line: str) -> list[StatedPair]:
    """Return the shock that a title names by its place, "RR shock", "Amortecedor dianteiro 18", "Shock - LF tube 3"."""
    words = line.split()
    if not 2 <= len(words) <= _TITLE_WORDS:
        return []
    first, second = plain(words[0]), plain(words[1])
    if corner_alone(words[0]) and second in _SHOCKS and words[0].isupper():
        return [StatedPair("shock", words[0])]
    dash = words[1] in _DASHES
    rest = words[1 + dash :]
    if first not in _SHOCKS or not 1 <= len(rest) <= _NAME_WORDS or clicks_of(" ".join(rest)):
        return []
    placed = [plain(w) in SIDES or corner_alone(w) is not None for w in rest]
    coded = [any(c.isdigit() for c in w) for w in rest]
    whole = all(p or c for p, c in zip(placed, coded, strict=True)) and any(placed) and len(rest) > 1
    named = any(placed) or (coded[-1] and not date_of(" ".join(rest)))
    return [StatedPair("shock", " ".join(rest))] if whole or (dash and named) else []


def _before_at(line: str) -> list[StatedPair]:
    """Return the shock that a line names before an @ and a number: "LR@8", "RL-02 @ 8/10"."""
    name = before_at(line.strip())
    known = name != line.strip() and (shock_in(name) == name or corner_alone(name) is not None)
    return [StatedPair("shock", line.strip())] if known else []


def _shock_inline(line: str) -> re.Match[str] | None:
    """Return where a sentence names a shock by its number, maybe behind its place: "amortisseur arrière no 2".

    A number of three digits or more is a serial and no second of its kind, which its place would tell apart.
    """
    found = next((m for m in re.finditer(_SHOCK_INLINE, line) if not _of_device(m, line)), None)
    placed = None if found else _PLACED_INLINE.search(line)
    if placed is None or any(plain(word) not in SIDES for word in placed["place"].split()):
        return found
    place = f"{placed['place'].strip()} " if len(placed["number"]) < _SERIAL else ""
    return _IS_SHOCK.match(f"shock {place}{placed['number']}")


def _of_device(found: re.Match[str], line: str) -> bool:
    """Whether a number is the rig's or a recorder's, as the word before says: "Recorder unit 7", "cell SN 1234"."""
    return plain(found[1]) in OF_ANY_DEVICE and names_device(line[: found.start()])


def names_device(text: str) -> bool:
    """Whether a text ends with a word for what measures, drives or records a shock.

    >>> names_device("Data logger"), names_device("Load cell, "), names_device("rear"), names_device("")
    (True, True, False, False)
    """
    return bool({*plain(text).replace(",", " ").split()[-1:]} & _DEVICES)


def named_within(line: str) -> list[StatedPair]:
    """Return shock and pack named within a sentence, and a temperature in brackets: "shock FL-03 pack gravel"."""
    if placed := _placed(line) or _lettered(line) or _before_at(line):
        return placed
    if (place := place_of_title(line)) and place[-1].isdigit() and " " in place:
        return [StatedPair("shock", place)]  # "rear shock #2"
    found = (
        None if _COMPARED.search(plain(line)) else _shock_inline(line),
        re.search(_PACK_INLINE, line) or re.search(_PACK_NUMBERED, line),
    )
    first = re.split(r"[\s,;]", line.strip(), maxsplit=1)[0]
    if not found[0] and shock_in(first) == first and (pack := found[1] or re.search(_PACK_BEFORE, line)):
        value = pack[2] if found[1] else pack[1]
        return [StatedPair("shock", first), StatedPair("pack", value)]  # "FL-03 pack gravel", "FL-03, gravel pack"
    if not found[0] and shock_in(first) == first and _THEN_TESTED.match(line.strip()[len(first) :]):
        found = (_IS_SHOCK.match(f"shock {first}"), found[1])  # "RL-02 tested on 3 March 2025"
    warm = [StatedPair(m[1], m[2]) for m in _BRACKETED.finditer(line) if plain(m[1]) in OIL | TEMPERATURE]
    if found[0] and (behind := _BEHIND_AT.match(line, found[0].end())):
        return [StatedPair(found[0][1], f"{found[0][2]}{behind[0]}")]  # "shock LR @ 8"
    if found[0] and not found[1] and (named := re.search(_PACK_BEFORE, line)):
        return [StatedPair(found[0][1], found[0][2]), StatedPair(named[2], named[1]), *warm]
    if not found[1] and (named := re.search(_PACK_OF_CLAUSE, line)):
        return [*(StatedPair(m[1], m[2]) for m in found if m), StatedPair(named[2], named[1]), *warm]
    return [*(StatedPair(m[1], m[2]) for m in found if m), *warm]


def named_thing(part: str) -> list[StatedPair]:
    """Return the shock or pack that a part names in two words: "Stötdämpare RL-02"."""
    words = part.split()
    thing = len(words) == 2 and plain(words[0]) in TABLE_WORDS["shock"] | TABLE_WORDS["pack"]
    return [StatedPair(*words)] if thing and any(c.isdigit() for c in words[1]) else []
