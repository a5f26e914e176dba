"""Copies that sync tools and file managers put beside a text: both are one thing, which must not count twice.

The words are those that such tools use in several languages; common practice, no source.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable

from dynoan.errors import LibraryError
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial

_WORD = (
    r"(?:conflict|konflikt|conflit|conflitt|conflito|motstridende|motstridig|ristiriita|ütközés|çakiş|конфликт|конфлікт|"
    r"競合|冲突|衝突|충돌|σύγκρουσ|تعارض|התנגשות)"
)
#: how a name says that two machines changed the file: in brackets, with the day, behind the ending; the word alone is
#: a name like any other
_CONFLICT = re.compile(
    rf"\([^()]*{_WORD}[^()]*\)|\[[^][]*{_WORD}[^][]*\]|[._-]{_WORD}\w*[ ._-]*\d{{6}}|"
    rf"\.toml[ ._-]+(?:sync[ ._-])?{_WORD}"
)
#: the word behind a name, which is a copy of the file of that name
_NAMED_CONFLICT = re.compile(rf"[ ._-]+{_WORD}.*$")
#: a name that is another one's with this after it, or before it, is a copy of that one
_AFTER = re.compile(r"(?:[ _-]*\(\d{1,3}\)|[ _-]+(?:copy|copie|kopie|copia|cópia|kopia|kopi|kopya|копия|コピー|副本)"
                    r"(?:[ _-]*\(?\d{1,3}\)?)?)$")  # fmt: skip
_BEFORE = re.compile(r"^(?:copy of|copie de|kopie von|copia de|copia di|cópia de|kopia|kopi af|копия) +")
ADVICE = "a copy, as sync tools make of a file that two machines changed"
HINT_TWIN = "keep what is right in one of the two, and move the other away"
ALIKE = "and '{}' differ by upper and lower case alone, which many disks and sync tools take for one file"
HINT_ALIKE = "give one of them another name before the library goes there"
HINT = "keep what is right in the file without that name, and move this one away"


def is_conflict(name: str) -> bool:
    """Tell whether a file's name says that two machines changed the file."""
    return _CONFLICT.search(_plain(name)) is not None


def original_of(name: str, others: Iterable[str]) -> str | None:
    """Return the one of the names beside it whose copy a name such as "start - Copy" may be, None without one."""
    plain = _plain(name)
    bases = {_AFTER.sub("", plain), _BEFORE.sub("", plain), _NAMED_CONFLICT.sub("", plain)} - {plain}
    return next((other for other in others if _plain(other) in bases), None) if bases else None


def alike(names: Iterable[str]) -> dict[str, str]:
    """Return the names that differ from an earlier one by upper and lower case alone, each with that one."""
    first: dict[str, str] = {}
    spelled = (unicodedata.normalize("NFC", name) for name in names)
    return {name: first[_plain(name)] for name in spelled if first.setdefault(_plain(name), name) != name}


def hold_single(name: str, others: Iterable[str], read: Callable[[str], object]) -> None:
    """Raise `LibraryError` where a text is another one's copy: by its name alone, or by name and by what it records.

    A second setup of a day and a trial that is run again have names like copies, but moments of their own.
    """
    single = unicodedata.normalize("NFC", name)
    if single != name and single in others:
        raise LibraryError("its name is that of another file here, written with other bytes", hint=HINT_TWIN)
    base = None if is_conflict(name) else original_of(name, others)
    if is_conflict(name) or (base is not None and _moment(read(name)) == _moment(read(base)) != ""):
        raise LibraryError(ADVICE, hint=HINT)


def _moment(text: object) -> str:
    """Return what no second setup or trial has in common with the first: when it was recorded, or its first run."""
    if isinstance(text, Setup):
        return text.recorded
    return repr(text.runs[0]) if isinstance(text, Trial) and text.runs else ""


def _plain(name: str) -> str:
    """Return a name in one spelling, whatever a disk made of its letters; i and its Turkish kin are one."""
    folded = unicodedata.normalize("NFC", name).replace("İ", "i").casefold().replace("ı", "i")
    return unicodedata.normalize("NFC", folded)
