"""Words for compression and rebound in the languages of rigs and people, in the form `plain` returns."""

from __future__ import annotations

import re
from collections.abc import Set
from functools import lru_cache

from importers.patterns import regex
from importers.words.spelling import plain, word_set

COMPRESSION = word_set(
    "fcomp, fcompression, fbump, komp, druckkraft, druckstufenkraft, "
    "compression, comp, bump, jounce, compressive, druckstufe, compresion, compressione, einfedern, druck, cmp, "
    "compr,"
    " compressao, dobicie, ugiecie, kompresja, 縮み側, 縮み, 圧側, 縮側, kompressio, ingaende,"
    " compress, dru, c, cpr, schub, push, kompresjon, komprimering, stauchung, einfahren, eindrücken, einfederung,"
    " ingaand, ingaande, inveren, indrukken, attaque, enfoncement, sisäänpäin, sisään, puristus, joustovaimennus,"
    " komprese, stlačení, stlaceni, kompresszió, összenyomás, berugózás, сжатие, сжатия, sıkıştırma, sıkışma, basma,"
    " 压缩, 压缩侧, 圧縮, 圧縮側, 縮み行程, 압축, 압축측, συμπίεση,"
    " kompresija, ściskania, dobicia, stlačování, сжатии, sabijanje, comprimare, zhoustnuti, ściskanie,"
    " ugięcie, compresia, compresión, compressão, compressione, indad, inåt, inåtgående, compressing,"
    " shortening, sisäänjousto, surve, saspiešana, suspaudimas, compresie, comprimare, kokkusurumine,"
    " compress, dru, c, cpr, schub, kompression, inward, druckrichtung, compressione, chiusura, bound, compressn,"
    " druckst, druckstf, einfederweg, affondamento,"
    " kapanma, squeezed, pushed, sisäänvaimennus, drukkracht, dobiciu, ściśnięty, стиск, стискання, стисканні, свиване,"
    " 縮, 壓縮, 壓縮側, 壓側, συμπίεσης"
)
REBOUND = word_set(
    "freb, frebound, zugkraft, zugstufenkraft, "
    "rebound, reb, droop, extension, tension, tensile, zugstufe, detente, rebote, extensione, estensione, estens,"
    " ritorno, "
    "ausfedern,"
    " retorno, extensao, distensao, retur, udtræk, returdæmpning, returdampning, odbicie, rozciaganie, 伸ひ側, 伸ひ,"
    " 伸側, utgaende,"
    " pull, ausfahren, ausfederung, dehnung, ausziehen, uitgaand, uitgaande, uitveren, ulospäin,"
    " ulos, paluu, paluuvaimennus, odskok, roztažení, húzás, kirugózás, отбой, отбоя, растяжение, çekme,"
    " açılma, 复原, 复原侧, 拉伸, 回弹, 伸張, 伸長, 伸び行程, 戻り, 신장, 인장, 리바운드, 신장측,"
    " επαναφορά, έκταση, odboj, rozciągania, odbicia, roztahování, отбое, revenire,"
    " retorn, rozciąganie, rozciąg, utåt, utåtgående, udad, strekk, strekking, relâchement, lengthening,"
    " extensión, ulosjousto, tõmme, atsitiens, atšokimas, destindere, detenta, detentă, tração, tracao, izstiepšana,"
    " tempimas, trekkracht, kihúzás,"
    " zug, rbd, r, rbnd, ext, zugrichtung, apertura, distensione, det, reboud, outward, expansion, espansione,"
    " zugst, zugstf,"
    " rebond, ulosvaimennus, tirage, traccion, trazione, traction, extensions, pulled, stretched, gezogen, odbiciu,"
    " відбій, відбою, розтяг, розтягування, отскок,"
    " 伸, 回彈, 回彈側, 復原, 復原側, επαναφοράς, έκτασης, visszarugózás"
)
#: a direction as a sign alone, in a column of its own
SIGNS = frozenset(("+", "-", "−", "–"))
#: for compression and rebound, what says together what one alone could not: B and R, D and Z, in and out
_PAIRED = frozenset((*(tuple(pair) for pair in ("cr", "br", "jr", "ce", "ct", "dz", "io", "cd", "bd")),
                     ("in", "out"), ("in", "ut"), ("in", "uit"),
                     ("bası", "ceki"), ("baskı", "ceki"), ("縮", "伸"), ("圧", "伸"), ("压", "拉"), ("압", "신"),
                     ("ein", "aus"), ("ind", "ud"), ("druk", "trek"),
                     ("tryck", "drag"), ("trykk", "trekk"), ("tryk", "træk"), ("nen", "tra"), ("nen", "hoi"),
                     ("squash", "stretch"),
                     ("tlak", "tah"), ("nyomas", "huzas"), ("fd", "fz"), ("closing", "opening"),
                     ("shorter", "longer")))  # fmt: skip
#: what words of a pair begin with where they are alike otherwise: "ingoing" and "outgoing", "CD" and "RD"
_BEGINNINGS = (("in", "out"), ("ein", "aus"), ("c", "r"), ("b", "r"))
#: how longer words for a direction begin, in the languages that took them from one another
_COMPRESSION_STEMS, _REBOUND_STEMS = (tuple(sorted(word_set(stems))) for stems in (
    "compr, kompr, bump, jounce, druckstuf, stlac, ecras, enfonc, indruk, einfeder, eindruck, nyomo, stiskan, сжати,"
    " сжим, стискан, стиснен, sıkış",
    "rebound, extens, extend, ekstens, return, retour, retur, ritorn, recoil, zugstuf, detent, ausfeder, roztah,"
    " roztiah, rozcia, raztez, huzo, outstroke, отбо, растяж, розтяг",
))  # fmt: skip
#: words that begin like a direction and are none
_NO_DIRECTION = word_set("compressor, kompressor, compresseur, extensometer, extensometre, extensimetro, bumpstop")
#: the first of the characters of Korean, Chinese and Japanese, which set no blanks between words
_FIRST_EASTERN = 0x1100
_EASTERN_COMPRESSION, _EASTERN_REBOUND = (
    tuple(w for w in known if len(w) > 1 and ord(w[0]) >= _FIRST_EASTERN) for known in (COMPRESSION, REBOUND)
)
#: where a travel is counted from: "from full extension" grows as the shock closes
_COUNTED_FROM = regex(
    r"\b(?:from|off|ab|von|depuis|desde|da|dalla|vanaf|fran|fra|od|a partir de)\s+"
    r"(?:(?:the|full|fully|voller?|max|maximum|complete|completa|pleine|plena|piena|toute|total|la)\s+)*(?P<end>\w+)"
)
#: where a travel that is left is counted to: "distance to bump stop" shrinks as the shock closes
_COUNTED_TO = regex(
    r"\b(?:distance|travel|gap|clearance|remaining|left|room|course|restweg|weg|abstand|distancia|distanza|avstand)\s+"
    r"(?:(?:left|remaining|restante)\s+)?(?:to|til|till|until|bis|zum|jusqu a|jusqu au|jusqu en|hasta|fino a|tot)\s+"
    r"(?:(?:the|full|fully|zum|voller?|max|maximum|complete|la|en|au)\s+)*(?P<end>\w+)"
)
_OUT = frozenset(("extended", "topped", "droop", "ausgefedert", "ausgefahren", "detendu", "extendido", "esteso"))
_IN = frozenset(("compressed", "bottomed", "eingefedert", "eingefahren", "comprime", "comprimido", "compresso"))


@lru_cache(maxsize=4096)
def direction_of(text: str) -> str | None:
    """Return "compression" or "rebound" where the words of a plain text name exactly one of them.

    >>> direction_of("travel from full extension"), direction_of("rebound 4")
    ('compression', 'rebound')
    """
    if (far := _COUNTED_FROM.search(text) or _COUNTED_TO.search(text)) and (way := _end_of(far["end"])):
        return way
    words = re.split(r"[\s/.,+-]+", text)
    long = [w for w in words if len(w) > 1] or words
    bump = any(w in COMPRESSION or w.startswith(_EASTERN_COMPRESSION) for w in long)
    drop = any(w in REBOUND or w.startswith(_EASTERN_REBOUND) for w in long)
    if not bump and not drop:
        bump, drop = "c" in words, "r" in words
    return None if bump == drop else ("compression" if bump else "rebound")


def direction_by_stem(text: str) -> str | None:
    """Return the direction that one word of a column's plain name begins like, in whatever ending or language.

    >>> direction_by_stem("compressiekracht"), direction_by_stem("returning"), direction_by_stem("compressor")
    ('compression', 'rebound', None)
    """
    words = [w for w in re.split(r"[\s/.,+-]+", text) if w not in _NO_DIRECTION]
    bump, drop = (any(w.startswith(stems) for w in words) for stems in (_COMPRESSION_STEMS, _REBOUND_STEMS))
    return None if bump == drop else ("compression" if bump else "rebound")


def _end_of(word: str) -> str | None:
    """Return which direction leads away from an end of travel; None where a word names none."""
    if word in _OUT or (len(word) > 2 and word in REBOUND):
        return "compression"
    return "rebound" if word in _IN or (len(word) > 2 and word in COMPRESSION) else None


def direction_among(word: str, words: Set[str]) -> str | None:
    """Return the direction that a cell names; a letter or a short word may do so beside the other of its pair.

    >>> direction_among("B", {"B", "R"}), direction_among("B", {"B", "Q"}), direction_among("Zug", {"Zug"})
    ('compression', None, 'rebound')
    """
    bare = plain(word)
    other = {plain(w) for w in words} - {bare, ""}
    if len(other) == 1:
        (mate,) = other
        if _are_pair(bare, mate) or _are_pair(mate, bare):
            return "compression" if _are_pair(bare, mate) else "rebound"
    return direction_of(bare)


def _are_pair(first: str, second: str) -> bool:
    """Whether two words are those of compression and rebound, in this order."""
    alike = (
        first[len(a) :] == second[len(b) :] for a, b in _BEGINNINGS if first.startswith(a) and second.startswith(b)
    )
    return (first, second) in _PAIRED or any(alike)
