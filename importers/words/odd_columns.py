"""Words by which a remark says that columns, signs or units of a table are other than they stand there."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from importers.patterns import regex
from importers.words.channels import CHANNEL_WORDS
from importers.words.spelling import folded, plain, word_set

#: two things that stand in each other's place
_SWAPPED = (
    r"(?:wrong|other) way (?:round|around|up)|back to front|upside down|swapped|switched|reversed|interchanged"
    r"|transposed|mixed up|flipped|inverted|vertauscht\w*|verdreht\w*|verwechselt\w*|umgekehrt\w*|invers\w+"
    r"|intervert\w+|invertid\w+|intercambiad\w+|cambiad[oa]s?|al reves|invertit\w+|scambiat\w+|trocad[oa]s?"
    r"|verwisseld|omgewisseld|omgedraaid|omgekeerd|byttet(?: om)?|ombytte\w*|forbytte\w*|forvekslet|forvaxlade?"
    r"|omkastade?|omvand\w*|vaihtunee\w*|vaarinpain|zamienion\w+|odwrocon\w+|odwrotnie|prohozen\w+|prehozen\w+"
    r"|zamenen\w+|felcserel\w+|перепутан\w*|наоборот"
)
#: what is wrong, or became so by mistake
_WRONG = (
    r"by mistake|by accident|in error|wrong(?:ly)?|incorrect(?:ly)?|mislabell?ed|erroneous(?:ly)?|falsch\w*"
    r"|irrtumlich|versehentlich|fehlerhaft|par erreur|faux|fausses?|errone(?:e?s?|ees)|por error|por equivocacion"
    r"|equivocad[oa]s?|incorrect[oa]s?|erronea?s?|erroneos?|por engano|errad[oa]s?|trocad[oa]|per errore|per sbaglio"
    r"|sbagliat[oaie]|errat[oaie]|per ongeluk|per abuis|verkeerd\w*|foutief|ved en feil|ved en fejl|feilaktig|feil"
    r"|forkert\w*|av misstag|fel|felaktig\w*|vaarin|vahingossa|omylkowo|przez pomylke|bledn\w+|omylem|chybn\w+"
    r"|spatne|tevesen|hibas|ошибочн\w*|по ошибке|неверн\w*"
)
#: what something is in truth, which then follows
_IN_TRUTH = (
    r"really|actually|in fact|in reality|in truth|should(?: have)? (?:be|been|read|say)|must be|ought to be"
    r"|eigentlich|in wirklichkeit|in wahrheit|tatsachlich|muss\w* heissen|sollte\w* heissen|en realite|en fait"
    r"|devrai\w+ etre|en realidad|deberia\w? ser|in realta|dovrebbe\w* essere|na verdade|na realidade|deveria\w? ser"
    r"|eigenlijk|in werkelijkheid|moet\w* zijn|egentlig|egentligen|i virkeligheden|i virkeligheten|skal vaere"
    r"|ska vara|skulle vara|oikeasti|w rzeczywistosci|naprawde|powinn\w+ byc|ve skutecnosti|ma byt|valojaban"
    r"|на самом деле|должн\w+ быть"
)
#: the same in languages that set no blanks
_EAST = ("逆|入れ替わ|搞反|颠倒|互换|바뀌|바뀜", "間違|誤り|誤って|错误|弄错|잘못", "実際は|本当は|实际上|其实|실제로")
#: what begins a word of each of them: few texts have one, and the patterns are long
_STEMS = word_set(
    "wron, way, back, upsi, swap, swit, reve, inte, tran, mixe, flip, inver, vert, verd, verw, umge, camb, scam, troc,"
    " omge,"
    " bytt, omby, forb, forv, omka, omva, vaih, vaar, zami, odwr, proh, preh, zame, felc, пере, наоб, mist, acci, erro,"
    " inco, misl, fals, irrt, vers, fehl, erre, faux, faus, equi, erra, erre, enga, sbag, onge, abui, verk, fout,"
    " feil, fejl,"
    " fork, miss, fel, fela, vahi, omyl, pomy, bled, chyb, spat, teve, hiba, ошиб, неве, real, actu, fact, trut,"
    " shou, must,"
    " ough, eige, wirk, wahr, tats, muss, soll, fait, devr, debe, dovr, deve, verd, moet, egen, virk, skal, ska, skul,"
    " oike, rzec, napr, powi, skut, byt, valo, само, долж"
)
_EASTERN = regex(folded("|".join(_EAST)))
_STEM, _LONGER = 4, 5  #: letters; the longer where four begin words of every file ("invented")


def may_doubt(text: str) -> bool:
    """Whether a text has the beginning of a word by which something is said to be wrong.

    >>> may_doubt("columns swapped"), may_doubt("列が逆"), may_doubt("Shock: FL-03, gravel")
    (True, True, False)
    """
    bare = plain(text)
    words = bare.split()
    if not (
        _STEMS.isdisjoint({word[:_STEM] for word in words}) and _STEMS.isdisjoint({word[:_LONGER] for word in words})
    ):
        return True
    return not text.isascii() and _EASTERN.search(bare) is not None


#: of a fault that was mended before the file was written
MENDED = regex(
    r"\b(?:(?:has|have|had)(?: now)? been|was|were|now|already|since) (?:re)?(?:corrected|fixed|mended|swapped back)"
    r"|\b(?:korrigiert|behoben|corrige(?:e|s|es)?|corregid\w+|corrett[oaie]|corrigid[oa]s?|gecorrigeerd|rettet"
    r"|rattat|poprawion\w+|opraven\w+)\b"
)
_COLUMNS = (
    "heading, headings, header, headers, column, columns, label, labels, col, cols, spalte, spalten, uberschrift,"
    " uberschriften, spaltenkopfe, kopfzeile, beschriftung, colonne, colonnes, entete, entetes, en-tete, en-tetes,"
    " columna, columnas, encabezado, encabezados, cabecera, cabeceras, coluna, colunas, cabecalho, cabecalhos,"
    " colonna, intestazione, intestazioni, kolom, kolommen, kop, koppen, kolonne, kolonner, kolonnene, overskrift,"
    " overskrifter, kolumn, kolumner, kolumnerna, rubrik, rubriker, rubrikerna, sarake, sarakkeet, otsikot, kolumna,"
    " kolumny, naglowek, naglowki, sloupec, sloupce, hlavicka, hlavicky, zahlavi, oszlop, oszlopok, fejlec, столбец,"
    " столбцы, заголовки"
)
_SIGNS = (
    "sign, signs, polarity, vorzeichen, signe, signes, signo, signos, segno, segni, sinal, sinais, teken, tekens,"
    " fortegn, tecken, merkki, merkit, znak, znaki, znamenko, znamenka, elojel, знак, знаки, 符号"
)
_UNITS = (
    "unit, units, einheit, einheiten, unite, unites, unidad, unidades, unita, unidade, unidades, eenheid, eenheden,"
    " enhed, enheder, enhet, enheter, yksikko, yksikot, jednostka, jednostki, jednotka, jednotky, egyseg, единицы,"
    " 単位, 单位"
)
#: names in languages that set no blanks, by what they name
_WITHIN = (
    ("columns", "列 見出し 열"),
    ("sign", "符号"),
    ("unit", "単位 单位 단위"),
    ("channel", "荷重 減衰力 速度 力 圧側 伸側 縮側"),
)
#: names of channels that are those of parts of the rig as well, which are swapped without the table being so
_OF_PARTS = (
    "load cell, loadcell, cell, lc, kraftmessdose, laser, pot, poti, ram, shaft, stroke, hub, course, slag, skok"
)
#: parts of a shock and of the rig that are swapped, wrong or turned round without the table being so
HARDWARE = regex(
    r"\b(?:shims?|stacks?|pistons?|valves?|valving|springs?|adjusters?|knobs?|needles?|seals?|oil|bleeds?|jets?"
    r"|clicks?|packs?|spacers?|washers?|clicker|cell|sensor|tyres?|wheels?|clevis|bush\w*|kolben|feder\w*|ventil\w*"
    r"|shimpaket|paket|ol|nadel|ressort\w*|clapet\w*|piston\w*|huile|muelle\w*|valvula\w*|aceite|molla|molle|pistone"
    r"|valvola|olio|mola|oleo|veer|zuiger|klep\w*|olie|fjaer\w*|fjader\w*|kolv\w*|olja|jousi|sprezyn\w*|tlok\w*|olej"
    r"|pruzin\w*|pist\w*)\b"
)


class ColumnWords(NamedTuple):
    """What remarks on columns are made of; few files have one."""

    swapped: re.Pattern[str]
    wrong: re.Pattern[str]
    in_truth: re.Pattern[str]
    named: Mapping[str, frozenset[str]]  #: words for "columns", "sign", "unit" and "channel"
    within: Mapping[str, tuple[str, ...]]  #: the same in languages that set no blanks


@cache
def column_words() -> ColumnWords:
    """Return the words of remarks on columns."""
    swapped, wrong, in_truth = (
        regex(rf"(?<![^\W_])(?:{folded(words)})(?![^\W_])|{folded(east)}")
        for words, east in zip((_SWAPPED, _WRONG, _IN_TRUTH), _EAST, strict=True)
    )
    channels = (CHANNEL_WORDS[channel] for channel in ("force", "velocity", "displacement"))
    named = {"columns": word_set(_COLUMNS), "sign": word_set(_SIGNS), "unit": word_set(_UNITS)}
    named["channel"] = frozenset(w for words in channels for w in words if len(w) > 2) - word_set(_OF_PARTS)
    within = {what: tuple(map(plain, names.split())) for what, names in _WITHIN}
    return ColumnWords(swapped, wrong, in_truth, named, within)
