"""What lines say only together or as a last resort: a name within a section of the shock, a corner of the car."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import NOTHING, StatedFacts
from importers.stated.sentences import OF_ANY_DEVICE, names_device
from importers.words.channels import CORNERS, TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.odd_clicks import clicks_of_no_knob
from importers.words.shock_names import CORNER, corner_alone, corner_or_shock_in, place_of_title
from importers.words.spelling import plain, word_set

_SECTION = regex(r"\s*\[\s*([^\]\d]{3,30}?)\s*\]\s*")
_NAMED = regex(r"\s*([^:=]{1,20}?)\s*[:=]\s*(\S.*)")
#: what stands before the first number of a line, which is one of clicks: "Rear left 6 clicks rebound"
_BEFORE_CLICKS = regex(r"([^\d:=]{4,50}?)[\s,;(-]+\d{1,2}(?![\d.])")
_LONGEST_TITLE = 120  #: with what may follow the place in it [characters]
#: keys of a place on the car, where its value is one
_PLACES = word_set(
    "position, pos, location, place, part, wheel, side, mounted, einbauort, einbaulage, einbauposition, platz, seite,"
    " emplacement, position sur voiture, posizione, lato, posicion, lado, ubicacion, posicao, plats, plass, paikka,"
    " strana"
)
#: what calls the kind of shock so
_KIND = regex(r'"?(?P<key>[^:=,;\t|]{4,40}?)"?\s*[:=,;\t|]\s*"?(?P<kind>[^:=,;\t|"]{2,60})"?')
_KINDS = word_set(
    "type, kind, shock type, damper type, type of shock, type of damper, shock kind, kind of shock, kind of damper,"
    " typ, dampferart, dampfertyp, art des dampfers, stossdampfertyp, stossdampferart, bauart, type d amortisseur,"
    " type amortisseur, tipo de amortiguador, tipo amortiguador, tipo di ammortizzatore, tipo ammortizzatore, tipo,"
    " tipo de amortecedor, type demper, dempertype, dampartyp, stotdampartyp, typ amortyzatora, typ tlumice,"
    " iskunvaimentimen tyyppi"
)
_NAMES = word_set("name, id, no, nr, number, serial, code, label, nummer, bezeichnung, nom, nombre, nome, numero, type")


def with_sections_named(lines: Sequence[str]) -> list[str]:
    """Return lines with the section's word for a key that only says "name" in a section of the shock or the pack.

    The number of what measures or drives, in a section of it, bears that word too.

    >>> with_sections_named(["[Shock]", "Name=FL-03", "[Rig]", "Name=bench"])
    ['[Shock]', 'Shock=FL-03', '[Rig]', 'Name=bench']
    >>> with_sections_named(["[Recorder]", "Unit=7"])
    ['[Recorder]', 'Recorder Unit=7']
    """
    if not any(line.lstrip().startswith("[") for line in lines):
        return list(lines)
    out, section, device = [], "", ""
    for line in lines:
        if (head := _SECTION.fullmatch(line)) is not None:
            section = head[1] if plain(head[1]) in TABLE_WORDS["shock"] | TABLE_WORDS["pack"] else ""
            device = head[1] if names_device(head[1]) else ""
        elif section and (said := _NAMED.fullmatch(line)) is not None and plain(said[1]) in _NAMES:
            line = f"{section}={said[2]}"
        elif device and (said := _NAMED.fullmatch(line)) is not None and plain(said[1]) in OF_ANY_DEVICE:
            line = f"{device} {line.strip()}"
        out.append(line)
    return out


def corner_in(lines: Sequence[str]) -> StatedFacts:
    """Return the corner that a line "Corner: LF" gives, as the shock's name where no line names the shock."""
    for line in lines:
        key, mark, value = line.replace("=", ":").partition(":")
        if mark and plain(key) in CORNERS and (corner := corner_or_shock_in(value)):
            return StatedFacts(shock=corner)
        if mark and plain(key) in CORNERS | _PLACES and (place := corner_alone(value.strip())):
            return StatedFacts(shock=place)
    # "FL, LSC 4, LSR 6" is of the shock there, where no other line names another.
    clicked = (line for line in lines if clicks_of(line) or clicks_of_no_knob(line))
    beside = {name for line in clicked for name in [_named_alone(line)] if name}
    beside = beside or {place for line in lines if len(line) <= _LONGEST_TITLE and (place := _title_of_place(line))}
    return StatedFacts(shock=beside.pop()) if len(beside) == 1 else NOTHING


@lru_cache(maxsize=2048)
def kind_of_shock(line: str) -> StatedFacts:
    """Return the shock that a line calls by its kind, where that says what it damps or its place on the car.

    >>> kind_of_shock("Shock type: steering damper").shock, kind_of_shock("Damper type,monotube").shock
    ('steering damper', None)
    """
    found = _KIND.fullmatch(uncomment(line).strip())
    place = place_of_title(found["kind"]) if found and plain(found["key"]) in _KINDS else None
    return StatedFacts(shock=place) if place else NOTHING


@lru_cache(maxsize=2048)
def _title_of_place(line: str) -> str | None:
    """Return the place on the car that a line is a title of: "Rear left", "FL", "Fork leg left"."""
    title = uncomment(line).strip(' \t,;:|"')
    place = corner_alone(title)
    return place if place and place.isupper() else place_of_title(title)


def _named_alone(line: str) -> str | None:
    """Return the one corner or shock with a corner's name in a line; None where there is none, or two."""
    found = {match[0] for match in CORNER.finditer(line)}
    if found:
        return found.pop() if len(found) == 1 else None
    before = _BEFORE_CLICKS.match(line)
    place = place_of_title(uncomment(before[1]).strip()) if before else None
    return place if place and " " in place else None
