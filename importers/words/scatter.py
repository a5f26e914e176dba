"""Names of how far repeats scatter: "Comp Stabw. [N]", "± N", "표준편차"."""

from __future__ import annotations

from functools import lru_cache

from importers.patterns import regex
from importers.words.channels import CHANNEL_WORDS, DEVIATIONS
from importers.words.spelling import folded, plain

BRACKETED = regex(r"[\[(][^\[\]()]*[\])]")
#: marks of a scatter in a name as it stands, what stands in brackets aside; "±500" is a range
_MARKS = regex(r"(?:±|\+\s?/\s?[-−–]|\+[-−–])(?!\s*\d)|[\[(]\s*(?:±|\+/-|[123]\s?[sσ])\s*[\])]")
_HUMPS = regex(r"(?<=[a-z])(?=[A-Z])|(?<=σ)(?=[A-Za-z])")
#: parts of words that run others together with one of a scatter: "Kraftstreuung", "压缩标准差"
_WITHIN = regex(
    folded(
        r"标准差|標準差|標準偏差|标准偏差|偏差|편차|standardab|stdab|stabw|streuung|hajonta|avvik"
        r"|stdev|stddev|standard dev|standardhalve|ecart-? ?type|szoras|odchyl|afwijking|afvigelse|отклонен"
        r"|αποκλιση|desvpad"
    )
)


@lru_cache(maxsize=4096)
def says_scatter(text: str) -> bool:
    """Whether a name says that it is of how far values scatter.

    >>> [says_scatter(t) for t in ("Comp Stabw. [N]", "Reb +/- N", "forceStd", "Force (±500 N)", "Load (N, + = in)")]
    [True, True, True, False, False]
    """
    if text.isalpha() and text.isascii() and plain(text) in CHANNEL_WORDS["force"]:
        return False
    bare = plain(_HUMPS.sub(" ", BRACKETED.sub(" ", text)))
    words = {word.strip(".-+/") for word in bare.split()}
    return bool(words & DEVIATIONS) or bool(_MARKS.search(text)) or bool(_WITHIN.search(bare))
