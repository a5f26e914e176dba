"""What the titles of runs beside one another state: a temperature, the position of a knob; and how they are named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from importers.patterns import regex
from importers.words.adjusters import names_clicks
from importers.words.spelling import plain

#: a temperature that tells runs apart: "C 20°C [N]", "hot 90 °C"
_WARMTH = regex(r"(?<![\w.,])[-+]?\d{1,3}(?:[.,]\d)?\s?(?:°|(?i:deg)\.?)\s?[CF](?!\w)")
#: a knob's position: "stand 5", "Pos. 3"
_POSITION = regex(
    r"(?:stand|stufe|stellung|raste|pos\.?|position|positie|posizione|posicion|posicao|setting|step|stap|cran|tacca"
    r"|scatto"
    r"|stilling|lage|hak|asento|pozycja|poloha|pozice|позиция|положение|位置)\s?\.?(?P<n>\d{1,2})"
)
_MOST = 6  #: titles that are named; of more the first and the last


def lines_of_title(title: str, lines: Iterable[str]) -> tuple[str, ...]:
    """Return as lines what the title of a run states; a position is clicks where another line speaks of clicks.

    >>> lines_of_title("hot 90 °C", ()), lines_of_title("stand 5", ["klikken vanaf dicht"])
    (('temperature: 90 °C',), ('5 clicks',))
    >>> lines_of_title("stand 5", ())
    ()
    """
    warmth = _WARMTH.search(title)
    position = _POSITION.fullmatch(plain(title))
    clicks = position is not None and any(map(names_clicks, lines))
    return (
        *((f"temperature: {warmth[0]}",) if warmth else ()),
        *((f"{position['n']} clicks",) if clicks and position else ()),
    )


def taken_as_runs(titles: Sequence[str], lines: Iterable[str]) -> str:
    """Return the warning that columns under titles were taken as runs of their own, clicks or not.

    >>> taken_as_runs(["hot", "cold"], ())
    "'hot' and 'cold' were taken as runs of their own, beside one another in one table"
    >>> taken_as_runs(["stand 0", "stand 5", "stand 10"], ())[-80:]
    'ir own, beside one another in one table; if their numbers are clicks, state them'
    """
    named = titles if len(titles) <= _MOST else (titles[0], titles[-1])
    shown = ", ".join(f"'{one}'" for one in named[:-1])
    numbered = all(_POSITION.fullmatch(plain(title)) for title in titles) and not any(map(names_clicks, lines))
    asked = "; if their numbers are clicks, state them" if numbered else ""
    return f"{shown} and '{named[-1]}' were taken as runs of their own, beside one another in one table{asked}"
