"""Which encoding older than Unicode a text has, judged by the rig's words that it makes of the bytes."""

from __future__ import annotations

import re
from functools import cache

from importers.patterns import regex
from importers.words.channels import CHANNEL_WORDS, TABLE_WORDS
from importers.words.directions import COMPRESSION, REBOUND
from importers.words.keys import KNOWN
from importers.words.spelling import plain

WESTERN = "cp1252"
#: encodings in which some characters take two bytes
EAST_ASIAN = ("shift_jis", "gb18030", "euc_kr", "big5")
#: those of terminals before Windows, of other machines and of a standard that few used
_OLDER = ("cp850", "cp852", "cp857", "cp866", "mac_roman", "mac_cyrillic", "iso8859-5")
_OTHERS = ("cp1250", "cp1251", "cp1253", "cp1254", "koi8_r", *EAST_ASIAN, *_OLDER)
#: degrees behind a number, which are ASCII but for their sign
_DEGREES = regex(r"\d\s?°\s?[cf](?![^\W_])")
_LONGEST = 8  #: of the words of scripts without blanks [characters]
_LOOK = 4096  #: a header stands within so much of the start [bytes]


def old_encoding(head: bytes) -> str:
    """Return the encoding in which the start of a file holds most of the words that rigs write, Western of equals."""
    look = head[:_LOOK]
    scores = {code: _known_words(look, code) for code in (WESTERN, *_OTHERS)}
    return max(scores, key=lambda code: scores[code])


def _known_words(look: bytes, code: str) -> tuple[int, int]:
    """Return how many letters of known words, and signs of degrees, bytes beyond ASCII make in an encoding.

    And how many of them are of words known with their marks, which tell equals: "sıcaklık" from "sìcaklìk".
    """
    text = look.decode(code, errors="ignore").lower()
    words = [w for w in re.findall(r"[^\W\d_]+", text) if not w.isascii()]
    known = [w for w in words if w in _words() or _is_known(w) or _joined(w)]
    degrees = _DEGREES.search(text) is not None
    return sum(map(len, known)) + degrees, sum(len(w) for w in known if w in _words())


def _is_known(word: str) -> bool:
    """Whether a word is known by its letters without marks and long enough for that; two syllables of Korean are."""
    bare = plain(word)
    eastern = len(word) == 2 and ord(word[0]) > _FIRST_EAST_ASIAN and not bare.isascii()
    return (len(bare) > 2 or eastern) and bare in _words()


def _joined(word: str) -> bool:
    """Whether a word of a script without blanks begins with a known one, as in "compressionforce"."""
    return ord(word[0]) > _FIRST_EAST_ASIAN and any(word[:k] in _words() for k in range(2, min(len(word), _LONGEST)))


@cache
def _words() -> frozenset[str]:
    known = KNOWN.union(COMPRESSION, REBOUND, *CHANNEL_WORDS.values(), *TABLE_WORDS.values())
    return frozenset(w for phrase in known for w in phrase.split())


_FIRST_EAST_ASIAN = 0x2E80  #: of the characters of Chinese, Japanese and Korean
