"""Clicks in a free remark: the run's where no other line states them, which is said; of another time they are none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from importers.header import uncomment
from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.words.channels import REMARKS
from importers.words.spelling import plain

#: what makes a remark one of another time than the run's
_OF_ANOTHER_TIME = regex(
    r"\b(?:(?:last|next|previous|other|same)\s(?:time|run|test|session|year|week|event|race|day|setting)|was|were|had"
    r"|used to|felt|should|would|could|try|wants?|wanted|instead|than|before|earlier|recommend\w*|suggest\w*"
    r"|war|waren|sollte\w*|wurde\w*|vorher|nachste[ns]? mal|letzte[ns]? mal|besser als|etait|avant|essayer"
    r"|prochaine fois|derniere fois|prossima volta|prima era|provare|probar|antes|proxima vez)\b"
)
_OF_THE_RUN = regex(r"\b(?:re-?run|re-?tested|changed to|set to|turned to|actual(?:ly)?)\b")


def of_remark(line: str) -> bool:
    """Whether a line is a remark: its key says so, and it does not say itself that it is of the run.

    >>> [of_remark(t) for t in ("Remark: C6 R8", "# Notes; LSC 6", "Clicks: C6 R8", "Note: rerun at C6 R8")]
    [True, True, False, False]
    """
    bare = plain(uncomment(line))
    return bare.split(" ")[0].strip(".") in REMARKS and not _OF_THE_RUN.search(bare)


def clicks_of_remark(line: str, facts: Sequence[StatedFacts], elsewhere: Mapping[str, int]) -> list[StatedFacts]:
    """Return a remark's facts with the clicks that may be taken of it, and what is to be said of them.

    Parameters
    ----------
    elsewhere
        The clicks that other lines state.
    """
    said = line.strip()[:60]
    if _OF_ANOTHER_TIME.search(plain(line)):
        words = f"'{said}' may be of another setting than this run's: no clicks were taken of it; state them"
        return [*(replace(f, clicks={}, counted={}) for f in facts), *_warned("" if elsewhere else words)]
    stated = {k: n for f in facts for k, n in f.clicks.items()}
    other = {k: n for k, n in stated.items() if elsewhere.get(k, n) != n}
    kept = [replace(f, clicks={k: n for k, n in f.clicks.items() if k not in other}) for f in facts]
    apart, own = (", ".join(f"{k}={which[k]}" for k in other) for which in (other, elsewhere))
    believed = f"'{said}' says {apart}, another line {own}: the remark was not believed"
    taken = f"clicks were read from a remark, '{said}': check that they are this run's"
    return [*kept, *_warned(believed if other else ""), *_warned("" if stated.keys() <= elsewhere.keys() else taken)]


def _warned(words: str) -> list[StatedFacts]:
    return [StatedFacts(warnings=(words,))] if words else []
