"""The day within a sentence, "RL-02 tested on 3 March 2025 at the barn": of the test where it says so, else told."""

from __future__ import annotations

from collections.abc import Sequence

from importers.patterns import regex
from importers.stated.facts import NOTHING, StatedFacts
from importers.stated.pair_facts import facts_of_date
from importers.words.dates import days_in, is_weekday, lone_day
from importers.words.keys import DATE
from importers.words.spelling import plain, word_set

_LINES = 40  #: above the rows and below them, in which a day is looked for
_LONGEST = 200  #: a longer line is prose [characters]
_YEAR = regex(r"(?<!\d)(?:19|20)\d\d(?!\d)|\d[./-]\d{2}(?!\d)|[^\W\d_]\s'?\d\d(?!\d)")
_CLAUSES = regex(r"[,;()]\s|\s[-–—/]\s")
_PARTS = regex(r"[,;|\t()]|\s[-–—/]\s|\s{2,}|:\s")
#: of these one says that the day is the test's
_TESTED = DATE | word_set(
    "test, run, ran, dyno, dyno d, dynoed, dynod, on, am, vom, le, il, el, gepruft, geprueft, gemessen, prufung,"
    " messung, versuch, getestet, essai, essaye, mesure, mesuree, teste, prova, provato, misurato, misura, ensayo,"
    " probado, medido, testet, malt, matt, provad, testattu, mitattu, mierzono, badanie, mereno, zkouska, getest,"
    " gemeten, releve, releves, relevee, mesures, essais, aufgenommen, aufnahme, rilievo, rilevato, rilevata,"
    " medicao, medida,"
    " medicion, ensaio, ensaiado, testado, meting, opgenomen, maling, malinger, maalt, maaling, matning, upptaget,"
    " mittaus,"
    " pomiar, zmierzono, zmereno, mereni, meres, merve, испытание, испытания, измерение, измерено, замер, замерено,"
    " olcum"
)
#: and of these one that it is another's
_OF_ANOTHER = regex(
    r"\b(?:cal\w*|kal\w*|cert\w*|due|next|valid\w*|servic\w*|built|build|made|printed|export\w*|saved|gultig|geeicht"
    r"|rebuil\w*"
    r"|revalv\w*|oil|bought|purchas\w*|since|until|before|last|previous\w*|installed|software|firmware|version|rev"
    r"|revision|copyright|manual|born|delivered|order\w*|invoice|vorher|letzt\w*|seit|gekauft|olwechsel|dernier\w*"
    r"|depuis"
    r"|ultim\w*|valved|shimmed|worked|repair\w*|fix\w*|drawing|template|form|issue\w*|fitted|refilled|charged"
    r"|regassed)\b"
)


def day_in_sentences(lines: Sequence[str], decimal: str) -> StatedFacts:
    """Return the one day that sentences state as the test's; a warning of one that may be another's.

    >>> day_in_sentences(["RL-02 tested on 3 March 2025 at the barn"], ".").date
    '2025-03-03'
    >>> day_in_sentences(["oil changed 3 March 2025"], ".").date
    """
    maybe = ""
    for line in [*lines[:_LINES], *lines[_LINES:][-_LINES:]]:
        if len(line) > _LONGEST or not _YEAR.search(line):
            continue
        days = days_in(line)
        if len({*days}) > 1:  # "Date run: 2025-06-14, printed 2025-06-20"
            line = next((c for c in _CLAUSES.split(line) if days_in(c) and not _OF_ANOTHER.search(plain(c))), "")
            days = days_in(line)
        if len({*days}) != 1:
            continue
        words = plain(line).replace(".", " ").split()
        if _OF_ANOTHER.search(" ".join(words)):
            continue
        apart = any(map(lone_day, _PARTS.split(line)))
        if apart or not _TESTED.isdisjoint(words) or any(map(is_weekday, words)):
            return facts_of_date(days[0], decimal=decimal)
        shown = " ".join(line.split())[:60]
        maybe = maybe or f"'{shown}' has a day that is not said to be the test's: not taken"
    return StatedFacts(warnings=(maybe,)) if maybe else NOTHING
