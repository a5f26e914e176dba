"""Lines whose clicks are of another run than the file's: recommended, stock, last, next ones."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from importers.patterns import regex
from importers.stated.facts import StatedFacts
from importers.stated.remarked import clicks_of_remark, of_remark
from importers.words.clicks import clicks_of
from importers.words.spelling import plain

#: what begins a line of clicks that are not the run's
_OTHER = regex(
    r"(?:(?:the|our|my|notes?|remarks?|bemerkung|nota)\s+)*(?:recommend\w*|suggest\w*|target|goal|stock|factory|oem|next|"
    r"last|previous|prior|before that|same as|"
    r"(?:customer\w*|driver\w*)\s+(?:s\s+)?(?:setting|setup|clicks?|wants?|wish\w*|asks?)|"
    r"wanted|wish\w*|try(?!\s*(?:no\s*)?#?\d)|"
    r"empf\w+|ziel|vorschlag|serien(?:stand|ein\w*|setup|m\w+)|werksein\w*|ab werk|"
    r"nachste\w*|letzte\w*|vorig\w*|vorher\w*|"
    r"kunden(?:ein|wunsch|setup)\w*|wunsch\w*|"
    r"recommand\w*|conseil\w*|prochain\w*|dernier\w*|precedent\w*|objectif|d usine|d origine|"
    r"consigliat\w*|prossim\w*|precedente|ultim[oa]|di serie|recomendad\w*|siguiente|anterior|de serie|objetivo)\b"
)
#: the same of a line that is the run's where no other states clicks
_EARLIER = regex(
    r"(?:baseline|base|start(?:ing)?(?:\s+(?:point|setting|position))?|original|reference|referenz|basis)\b"
)
#: what follows is of the run after all
_TESTED = regex(
    r"(?:[,;.(]|\b(?:but|and|und|aber|mais|et)\b)\s*(?:was\s+|were\s+)?"
    r"(?:(?:now|jetzt|maintenant|ora|ahora)\b(?=\D{0,20}\d)|(?:tested|measured|run|ran|gepr[uü]ft|gemessen|test[eé]|mesur[eé])\s+(?:at|with|in|on|mit|bei|avec|à|a))\b",
    re.I,
)
_AFTER_RUN = regex(r"\bafter (?:the )?(?:run|test|session)\b")
#: clicks that were, within a remark: "was C8 R6 before, now stiffer"
_WAS = regex(
    r"\b(?:was|were|had|used to (?:be|run)|war|waren|etait|era|eran|erano)\b(?=[^;]{0,40}\d[^;]{0,40}"
    r"\b(?:before|earlier|previously|last time|originally|vorher|zuvor|fruher|avant|auparavant|antes|prima"
    r"|now|jetzt|maintenant|ora|ahora)\b)"
    r"|\b(?:previously|formerly|used to (?:be|run)|zuvor|vorher|auparavant|precedemment|anteriormente|in precedenza)\b"
    r"(?=[^;]{0,12}\d)"
)
_MOST = 200  #: longer lines are prose [characters]


def of_another_run(line: str) -> bool:
    """Whether a line speaks of another run's setting: one that is recommended, of the last or the next run.

    >>> [of_another_run(t) for t in ("Recommended: C 4 R 5", "Next time try C 4", "Clicks: C 4 R 5", "Last: C6 R8")]
    [True, True, False, True]
    """
    bare = plain(line[:_MOST])
    if _OTHER.match(bare) or _AFTER_RUN.search(bare):
        return True
    return (was := _WAS.search(bare)) is not None and not clicks_of(bare[: was.start()])


def of_an_earlier_run(line: str) -> bool:
    """Whether a line's setting is the run's only where no other line states one: "Baseline: C 4 R 4"."""
    return _EARLIER.match(plain(line[:_MOST])) is not None


def as_tested(line: str) -> str:
    """Return what a line says of the run itself behind another's: "Customer's C 4 R 4, tested at C 6 R 9"."""
    return _known_as_tested(line) if len(line) <= _MOST else line


@lru_cache(maxsize=2048)
def _known_as_tested(line: str) -> str:
    found = _TESTED.search(line) if re.search(r"\d", line) else None
    return line[found.end() :] if found and of_another_run(line) else line


def own_clicks(stated: Sequence[tuple[str, Sequence[StatedFacts]]]) -> list[StatedFacts]:
    """Return what lines state, without the clicks of those that speak of another run; each line with its facts.

    Where no other line states clicks, a warning says that those were not taken.
    """
    clicked = [any(f.clicks for f in facts) for _, facts in stated]
    if not any(clicked):
        return [f for _, facts in stated for f in facts]
    others = [of_another_run(line) for line, _ in stated]
    earlier = [of_an_earlier_run(line) for line, _ in stated]
    remarks = [c and not o and of_remark(line) for (line, _), c, o in zip(stated, clicked, others, strict=True)]
    rows = list(zip(stated, others, earlier, clicked, remarks, strict=True))
    own = any(c and not (o or e or r) for _, o, e, c, r in rows)
    elsewhere = {k: n for (_, facts), o, _, _, r in rows if not (o or r) for f in facts for k, n in f.clicks.items()}
    out: list[StatedFacts] = []
    for (line, facts), other, before, clicks, remark in rows:
        if remark:
            out += clicks_of_remark(line, facts, elsewhere)
            continue
        if not clicks or not (other or (before and own)):
            out += facts
            continue
        out += [replace(f, clicks={}, counted={}, doubted=()) for f in facts]
        if not own and not any(c and e and not o for _, o, e, c, _ in rows):
            said = f"'{line[:60]}' is not said to be this run's setting: no clicks were taken of it; state them"
            out.append(StatedFacts(warnings=(said,)))
    return out
