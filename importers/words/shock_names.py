"""Names of shocks within other text: FL-03, SN-1204, or a corner such as FL01."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby

from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.keys import STOP
from importers.words.spelling import plain, word_set

_CORNERS = frozenset(("FL", "FR", "RL", "RR", "VL", "VR", "HL", "HR", "F", "R"))
#: sides of a car, which are shocks of their own: across it, and along it
_ACROSS = word_set(
    "left, right, lh, rh, links, rechts, gauche, droite, droit, izquierda, derecha, izquierdo, derecho, sinistra,"
    " destra, sinistro, destro, esquerdo, esquerda, direito, direita, lewy, prawy, lewa, prawa, lewe, prawe, vanster,"
    " hoger, venstre, hoyre, linke, linker, rechte, rechter, levy, pravy, leva, prava, vasen, oikea, nearside, offside,"
    " sol, sağ, bal, jobb, 左, 右, 왼쪽, 오른쪽, 좌, 우,"
    " 左前, 右前, 左后, 右后, 左後, 右後, 前左, 前右, 后左, 后右, 後左, 後右, 전좌, 전우, 후좌, 후우,"
    " 좌전, 우전, 좌후, 우후"
)
_SHORT = word_set("dx, sx, izq, izqda, dcha, der")  #: of them in a title alone: elsewhere they are steps of travel
_ALONG = word_set(
    "front, rear, vorn, vorne, hinten, avant, arriere, anteriore, posteriore, delantero, trasero, delantera, trasera,"
    " dianteiro, dianteira, traseiro, traseira, przedni, tylny, przednie, tylne, bak, fram, foran, predni, zadni,"
    " etu, taka, bag, achter, voor, ön, arka, elso, elol, hatso, hatul, 前, 后, 後, 앞, 뒤, 전륜, 후륜,"
    " 前輪, 後輪, 前轮, 后轮"
)
SIDES = _ACROSS | _ALONG
_NAMED_SIDES = SIDES | _SHORT
#: what stands at such a place; of a fork each leg is a shock, which the front's side alone does not name
_FORKS = word_set(
    "fork, forks, gabel, gabelholm, gabelbein, fourche, forcella, horquilla, vorkpoot, vork, gaffel, vidlice, widelec,"
    " stanchion"
)
_BESIDE_FORKS = word_set(
    "leg, holm, bein, side, cartridge, kartusche, tube, inner, upper, poot, ben, noha, fodero, barra"
)
_SHOCKS = word_set(
    "shock, damper, strut, absorber, unit, coilover, corner, dampfer, daempfer, stossdampfer, federbein,"
    " amortisseur, amortiguador, ammortizzatore, amortecedor, amortyzator, tlumic, demper, schokdemper, schokbreker,"
    " iskunvaimennin, iskari, stotdampare, dampare, stotdemper, stoddaemper"
)
#: what a shock damps where it is none of a wheel, beside a word for a shock
_DAMPED = word_set(
    "steering, lenkung, lenkungs, direction, sterzo, direccion, direcao, stuur, styr, ohjaus, rizeni, kierownicy,"
    " seat, sitz, siege, cab, cabin, kabine, cabine, engine, handlebar, guidon, manubrio, swingarm, sidecar, trailer"
)
#: the same in one word: "Lenkungsdämpfer", "styrdämpare"
_COMPOUND = regex(
    r"(?:lenk(?:ungs?)?|sitz|kabinen?|fahrerhaus|motor|styr|stol|stuur|stoel|cabine|ohjaus|istuin|hytt)[\s-]?"
    r"(?:st(?:oss|ot))?d(?:ae?|e)mp(?:fer|are|er)|(?:ohjaus|istuin)(?:iskun)?vaimennin|steering[\s-]?stabili[sz]er"
)
_NUMBER_BEHIND = regex(r"(?i)\s(?:#|(?:no|nr|n°|number|nummer|num)\b\.?)?\s*(\d{1,3})$")
#: words before what was tested, which name nothing
_TESTED = regex(
    r"(?i)^(?:(?:dyno|bench|test|tests|report|results?|run|messung|pr[uü]fung|versuch|essai|prova|ensayo|prueba|teste|m[aå]ling|meting)"
    r"[\s:-]+)+(?:(?:of|on|for|von|vom|am|du|de|del|della|dell'|do|da|av|van|the|la|le|l')\s+)*"
)
_SMALL = word_set("the, of, from, a, de, la, le, du, del, della, der, die, das, il, el, do, da, den, van, di")
_OF_PLACES = _NAMED_SIDES | _FORKS | _BESIDE_FORKS | _SHOCKS | _SMALL
_LONGEST_PLACE = 6  #: [words]
_THEN_MORE = regex(r"\s*(?:[,;(\t|]|\s[-–—]\s)")
#: a corner of the car, as English (near and off side too) and German (vorn, hinten) shorten it
_CORNER = "(?:FL|FR|RL|RR|LF|RF|LR|VL|VR|HL|HR|[NO]S[FR])"
CORNER = regex(rf"(?<![A-Za-z0-9]){_CORNER}(?:-?\d{{1,4}})?(?![A-Za-z0-9-])")


#: letters before a corner: "GR-FR", "AX-LF-2"
_JOINED = regex(rf"(?<![A-Za-z0-9-])(?P<before>[A-Z]{{1,4}})-{_CORNER}(?:-\d{{1,4}})?(?![A-Za-z0-9-])")


@lru_cache(maxsize=2048)
def shock_in(text: str) -> str | None:
    """Return what looks like a shock's name in a text; None where it names the shocks of two corners."""
    if joined := _JOINED.search(text):
        known = joined["before"] in _CORNERS or plain(joined["before"]) in STOP or adjuster_of(joined["before"].lower())
        if not known:
            return joined[0]
    matches = list(re.finditer(r"(?<![A-Za-z0-9])([A-Za-z]{1,4})-\d{1,4}(?![A-Za-z0-9])", text))
    if len({match[0] for match in matches if match[1] in _CORNERS and len(match[1]) == 2}) > 1:
        return None
    for match in matches:
        corner = match[1] in _CORNERS
        if corner or (plain(match[1]) not in STOP and adjuster_of(match[1].lower()) is None):
            return match[0]
    corners = re.findall(rf"(?<![A-Za-z0-9]){_CORNER}\d{{1,3}}(?![A-Za-z0-9])", text)
    return corners[0] if corners else None


def corner_or_shock_in(text: str) -> str | None:
    """Return the corner or the shock that a column of several shocks side by side names."""
    match = CORNER.search(text)
    return match[0] if match else shock_in(text)


def corner_alone(text: str) -> str | None:
    """Return a text that is a place on the car and nothing else: "FL", "Left Front"; None of any other."""
    words = text.split()
    sides = 0 < len(words) <= 2 and {plain(word) for word in words} <= SIDES
    return text.strip() if sides or CORNER.fullmatch(text.strip().upper()) else None


def side_in(text: str) -> str | None:
    """Return the words for a side of the car in a column's name, as they stand there: "Left", "front right"."""
    found = [word for word in re.split(r"[\s_,;:/()\[\]-]+", text) if word and plain(word) in SIDES]
    return " ".join(found) or None


def place_of_title(text: str) -> str | None:
    """Return the place on the car that a title names, what stands there and what follows left out; of a fork all of it.

    >>> [place_of_title(t) for t in ("front right damper", "LR corner, after rebuild", "Fork leg left", "Rear test")]
    ['front right', 'LR', 'Fork leg left', None]
    """
    first, *rest = _THEN_MORE.split(text.strip(), maxsplit=1)
    if (damped := _damped_by(first)) is not None:
        return damped
    first = _TESTED.sub("", first) or first
    numbered = _NUMBER_BEHIND.search(first)
    words = (first[: numbered.start()] if numbered else first).split()
    others = rest and any(plain(word) in _NAMED_SIDES or CORNER.search(word) for word in rest[0].split())
    if not 1 <= len(words) <= _LONGEST_PLACE or others:
        return None
    place = _place_of(words) if all(map(_of_place, words)) else None
    if numbered:  # "Dämpfer hinten links Nr. 4"
        shock = any(plain(word) in _SHOCKS | _FORKS for word in words)
        return f"{place} {numbered[1]}" if place and shock else None
    lone = place is not None and len(place.split()) == 1 and not CORNER.fullmatch(place)
    return None if lone and rest else place  # "Rear shock, rebound force [N]" may be of both shocks there


def _damped_by(title: str) -> str | None:
    """Return a title that names a shock by what it damps, "Steering damper", without words for a test before it.

    >>> [_damped_by(t) for t in ("Test of steering damper", "Lenkungsdämpfer", "Amortisseur de direction", "Damper 3")]
    ['steering damper', 'Lenkungsdämpfer', 'Amortisseur de direction', None]
    """
    name = _TESTED.sub("", title.strip()) or title.strip()
    words = plain(name).split()
    if not 1 <= len(words) <= _LONGEST_PLACE:
        return None
    if _COMPOUND.match(" ".join(words)) is None:
        if _DAMPED.isdisjoint(words) or _SHOCKS.isdisjoint(words):
            return None
        words = [word for word in words if word not in _DAMPED]
    else:
        words = _COMPOUND.sub(" ", " ".join(words)).split()
    known = _OF_PLACES | {"#", "no", "nr", "no.", "nr."}
    return name if all(word in known or (word.isdigit() and len(word) < 4) for word in words) else None  # fmt: skip


def place_within(words: Sequence[str]) -> str | None:
    """Return the one place that neighbours among words name, in two words or a fork's; None where they name several.

    >>> place_within(["run", "rear", "left", "3"]), place_within(["left", "shock"]), place_within(["fork", "left"])
    ('rear left', None, 'fork left')
    """
    if _NAMED_SIDES.isdisjoint(map(str.lower, words)) and "".join(words).isascii():
        return None
    runs = ([*group] for of, group in groupby(words, _of_place) if of)
    found = {place for run in runs if (place := _place_of(run)) and len(place.split()) > 1}
    return found.pop() if len(found) == 1 else None


def _of_place(word: str) -> bool:
    """Whether a word may stand in the name of a place on the car."""
    return CORNER.fullmatch(word) is not None or plain(word) in _OF_PLACES


def _place_of(words: Sequence[str]) -> str | None:
    """Return the place that words are of, each of which may stand in its name; None where that is none or several."""
    corners = [word for word in words if CORNER.fullmatch(word)]
    sides = [word for word in words if plain(word) in _NAMED_SIDES]
    if corners:
        return corners[0] if len(corners) == 1 and not sides else None
    across = sum(plain(word) in _ACROSS | _SHORT for word in sides)
    if not sides or across > 1 or len(sides) - across > 1:
        return None
    if any(plain(word) in _FORKS for word in words):
        return " ".join(words)
    named = len(sides) == 2 or any(plain(word) in _SHOCKS for word in words)
    return " ".join(sides) if named else None
