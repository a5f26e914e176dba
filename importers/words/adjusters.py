"""Names of adjusters and of clicks, as patterns over texts in the form `plain` returns."""

from __future__ import annotations

import re

from importers.patterns import regex
from importers.words.directions import direction_by_stem, direction_of
from importers.words.spelling import folded, plain, word_set

LOW = (
    r"(?:l/s|low[\s-]*speed|low|ls|lowspeed|slow|langsam\w*|bv|basse[\s-]*vitesse|baja[\s-]*velocidad|baja"
    r"|bass[ae][\s-]*velocita|bs|hidas|woln\w*|pomal\w*|lent[aeo]?|lagfart|langzaam|baixa[\s-]*velocidade|baixa)"
)
HIGH = (
    r"(?:h/s|high[\s-]*speed|high|hi|hs|highspeed|fast|schnell\w*|hv|haute[\s-]*vitesse|alta[\s-]*velocidad|alta"
    r"|alt[ae][\s-]*velocita|av|nopea|szybk\w*|rychl[aeyi]\w*|rapid[aeo]?|hogfart|snel|alta[\s-]*velocidade)"
)
#: "damping" behind a direction in Japanese; of a force it is an adjuster's only beside its word for clicks
_DAMPED = r"(?:減衰(?:力?調整|力(?=\s*\d{1,2}\s*(?:段|クリック|ノッチ))|(?!力))|段[数數]|クリック数|ノッチ数)?"
_BUMP = folded(
    rf"(?:comp(?:r\w*)?|komp(?:r\w*)?|bump|jounce|druckstufe\w*|druck|ingaande?|ingaende|puristus\w*|joustovaim\w*|inveer\w*|osszenyomas|berugozas|sisaan\w*|dobici[eau]|inveren|ingaand\w*|indad|inat|komprese|ugiecie"
    rf"|sciskani[ea]|stlac\w*|сжати[ея]|压缩(?:阻尼)?|壓縮側?(?:阻尼)?(?:段數)?|圧縮側?{_DAMPED}|圧側{_DAMPED}|압축|縮み?側?{_DAMPED})"
)
DROP = folded(
    rf"(?:reb(?:ou?nd)?|rebote|zugstufe\w*|zug|detente|droop|extensao|extensi[oó]n|uitveren|uitveer\w*|utgaende|ausfedern|estensione|extension|ritorno|retur\w*|paluu\w*|ulosvaimennus|utat|udad|uitgaande?|odbici[eau]|rozciag\w*|rozta[hz]\w*|huzas|kirugozas|odskok|отбои"
    rf"|复原(?:阻尼)?|回弹(?:阻尼)?|(?:回彈|復原)側?(?:阻尼)?(?:段數)?|伸ひ?側?{_DAMPED}|리바운드|retorno|paluu\w*)"
)
#: words for either direction
WAY = rf"{_BUMP}|{DROP}"
_GAP = r"[\s-]*(?:(?:de|a|alle|di|en|in|of|la|der|bei)[\s-]+)*"


def _both(speed: str, way: str, short: str) -> str:
    bump = f"|{short[:2]}b" if short[2] == "c" else ""
    turned = f"|{short[2]}{short[:2]}"
    return rf"{short}{bump}{turned}|{short[:2]}[\s-]*{short[2]}|{speed}{_GAP}{way}|{way}{_GAP}{speed}"


_ADJUSTER_PATTERNS = {
    "lsc": _both(LOW, _BUMP, "lsc"), "hsc": _both(HIGH, _BUMP, "hsc"),
    "lsr": _both(LOW, DROP, "lsr"), "hsr": _both(HIGH, DROP, "hsr"),
    "cr": "cr", "c": f"c|{_BUMP}|compression", "r": f"r|{DROP}",
}  # fmt: skip
ADJUSTER = regex("|".join(f"(?P<{name}>(?:{pattern}))" for name, pattern in _ADJUSTER_PATTERNS.items()))
#: what each of them has: a direction, or letters that begin with one of these
_ANY_OF_THEM = regex(rf"(?<![a-z0-9])[lhcr]|{WAY}")
#: words for clicks alone, none of which may mean a run or a place
CLICKS_ALONE = folded(
    r"(?:clicks?|clics?|klicks?|klikk?|kliks?|klik\w+|scatti|rasten|naksua|cliques|kattanas\w*|щелчк\w*|клик\w*|"
    r"κλικ|クリック|ノッチ|段數?|档|挡|檔|格|클릭|단(?:수)?)"
)
CLICK_WORD = folded(
    r"(?:clicke?r?s?|clics?|klicks?|rasten|raste|rastungen|clks?|cks?|clk|positions?|pos|scatti|scatto|setting"
    r"|crans?|notches|adj\w*|einstellung|reglage|ajuste|"
    r"regolazione|versteller|knob|screw|klikk?|klick|kliks|klik\w+|naksua|naksut|naksut|щелчк\w*|клик\w*|klikniec"
    r"|kattanas\w*|klikow|kliknieci\w*|kliku|hak|notch|cliques|κλικ|クリック|ノッチ|段數?|档|挡|檔|格|클릭|단(?:수)?"
    r"|clicks?\s+(?:out|open))"
)
#: the end of an adjuster's range where it is soft
SOFT = r"(?:soft|weich|souple|blando|morbido|zacht|mjuk)"
SOFT_END = rf"(?:{SOFT}|open|offen|ouvert|abierto|aperto)"
#: where clicks are counted from, at the end of a name
_FROM_AN_END = regex(
    r"\b(?:out|open)?\s*(?:from|off|ab|von|depuis|desde|da)\s+(?:full\w*\s+)?"
    r"(?:in|hard|closed|close|stiff|seated|soft|open|geschlossen|zu|ferme|cerrado|chiuso)$"
)


#: brackets around all that is left of a name, or around nothing
_BRACKETS = regex(r"^\s*(.*?)\s*[\[(]\s*[\])]\s*$|^\s*[\[(]([^\[\]()]*)[\])]\s*$")


_CLICKS = regex(rf"(?<![^\W\d_]){CLICKS_ALONE}(?![^\W\d_])")
_WORD = regex(r"[^\W\d_]{3,}")
_LEAST_WAY = 4  #: letters of a word for a direction in any language
#: words for low and high speed that adjusters are known by as another
_SPEEDS = {
    word: speed
    for speed, words in (
        (
            "low",
            "lav, lavt, laag, lage, lag, langsom, langsomt, niedrig, niedrige, niska, niskie, nizka, nizke, matala",
        ),
        (
            "high",
            "hoj, høj, højt, hoy, høy, høyt, hoog, hoge, hog, hoch, hohe, hurtig, wysoka, wysokie, vysoka, korkea",
        ),
    )
    for word in word_set(words)
}
_A_WAY = regex(WAY)
_LETTERS = 2  #: so many are too few to name a direction alone
#: words for a direction that name its adjuster only beside a word for clicks: "clic det", "klik trek"
_BESIDE_CLICKS = (
    (
        "c",
        word_set(
            "k, druk, in, ingaand, ein, bası, basi, baskı, baski, tryck, trykk, tryk, tlak, nyomas, kapanma,"
            " 縮, 圧, 压, 壓, cmp, cp"
        ),
    ),
    (
        "r",
        word_set(
            "trek, uit, uitgaand, aus, ceki, çeki, çekme, drag, trekk, traek, træk, huzas, tah, 伸, 拉, det, ext, est,"
            " dist, ret, vissza, rugozas vissza"
        ),
    ),
)


def names_clicks(text: str) -> bool:
    """Whether a text has a word for clicks: "Clicks frenado"."""
    return _CLICKS.search(plain(text)) is not None


def may_name_adjuster(text: str) -> bool:
    """Whether a plain text has a word of any adjuster: short, where most lines have none and the whole pattern is long.

    >>> [may_name_adjuster(t) for t in ("lsc 6", "slow rebound", "note 1 made on a bench")]
    [True, True, False]
    """
    return _ANY_OF_THEM.search(text) is not None


def _by_direction(name: str) -> str | None:
    """Return the adjuster of a name that is words for one direction alone, in whatever language."""
    ways = {direction_of(word) or direction_by_stem(word) for word in name.split()}
    way = ways.pop() if len(ways) == 1 else None
    return way[0] if way and len(name) > _LETTERS else None


def with_known_ways(bare: str) -> str:
    """Return a plain text that speaks of clicks with a word that adjusters are known by for each of a direction.

    >>> with_known_ways("sıkısma 8 klik, acılma 12 klik"), with_known_ways("acılma 12")
    ('comp 8 klik, reb 12 klik', 'acılma 12')
    >>> with_known_ways("kompression lav 8 klik")
    'kompression low 8 klik'
    """
    return _WORD.sub(_known_way, bare) if _CLICKS.search(bare) else bare


def _known_way(found: re.Match[str]) -> str:
    word = found[0]
    if word in _SPEEDS:
        return _SPEEDS[word]
    way = None if len(word) < _LEAST_WAY or _A_WAY.fullmatch(word) else direction_of(word)
    return {"compression": "comp", "rebound": "reb"}.get(way or "", word)


def adjuster_of(text: str) -> str | None:
    """Return the adjuster that a plain text names and nothing else; click words around it do not matter."""
    if not may_name_adjuster(text) and not _CLICKS.search(text):
        return None
    bare = re.sub(rf"\b{CLICK_WORD}\b", " ", _FROM_AN_END.sub(" ", text)).strip(" .")
    if bare != text and bare[-1:] in ")]":
        bare = _BRACKETS.sub(r"\1\2", bare)  # "clicks (lsr)", "lsr (clicks)"
    name = " ".join(bare.split())
    match = ADJUSTER.fullmatch(name)
    if match is None and bare != text:
        return next((way for way, words in _BESIDE_CLICKS if name in words), None) or _by_direction(name)
    return match.lastgroup if match else None
