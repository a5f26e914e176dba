"""Names that people and files give to cars, shocks and setups, made safe as file names, and back."""

from __future__ import annotations

import difflib
import os
import unicodedata
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from urllib.parse import quote, unquote

from dynoan.errors import CallError, LookupFault

FEW = 8  #: names that a message lists whole
LONGEST = 100  #: characters of a name that becomes a file name
LONGEST_TEXT = 200  #: characters of a name kept as text
_PLAIN = " +-_.()#@,=~"
_DEVICES = {"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in "0123456789¹²³")}
# Control characters, marks that turn the direction of writing, lone surrogates, line separators.
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
#: what people call a key, and the keys that it may be, likeliest first; common practice, no source
OTHER_WORDS = {
    "weight": ("mass",), "corner_weight": ("mass",), "scale": ("mass",), "load": ("mass",),
    "axle_weight": ("axle_mass",), "axle_load": ("axle_mass",), "axle_scale": ("axle_mass",),
    "unsprung_weight": ("unsprung",), "unsprung_mass": ("unsprung",),
    "rate": ("spring",), "spring_rate": ("spring",), "springs": ("spring",),
    "motion_ratio": ("shock_ratio",), "damper_ratio": ("shock_ratio",), "installation_ratio": ("shock_ratio",),
    "spring_motion_ratio": ("spring_ratio",), "shock_motion_ratio": ("shock_ratio",),
    "tire": ("tyre",), "tire_rate": ("tyre",), "tyre_rate": ("tyre",),
    "cg": ("cg_height",), "cog": ("cg_height",), "cog_height": ("cg_height",), "centre_of_gravity": ("cg_height",),
    "drive": ("driven",), "drivetrain": ("driven",), "driven_axle": ("driven",),
    "bump": ("bump_travel",), "droop": ("droop_travel",), "inertia": ("pitch_inertia",),
    "anti_squat": ("antisquat",), "ic": ("instant_centre",), "instant_center": ("instant_centre",),
    "damper": ("shock",), "valving": ("pack",), "valve_pack": ("pack",), "setting": ("clicks",),
    "gas": ("gas_pressure", "gas_rate"), "pressure": ("gas_pressure",), "shaft": ("rod",), "rod_diameter": ("rod",),
    "bore": ("piston",), "travel": ("stroke", "bump_travel"), "mu": ("grip",), "friction": ("grip",),
    "positions": ("clicks",), "range": ("clicks",), "count": ("counted",),
    "bump_low": ("lsc",), "low_speed_compression": ("lsc",), "high_speed_compression": ("hsc",),
    "low_speed_rebound": ("lsr",), "high_speed_rebound": ("hsr",), "compression": ("c", "lsc"), "rebound": ("r", "lsr"),
}  # fmt: skip


def check_name(name: str, what: str, *, longest: int = LONGEST_TEXT) -> str:
    """Return a name, or raise `CallError` where it is empty, too long, or holds characters that cannot be seen."""
    if not name.strip():
        raise CallError("an empty name", where=what, hint="give it at least one letter or number")
    if len(name) > longest:
        raise CallError(f"a name of {len(name)} characters", where=what, hint=f"use at most {longest}")
    for character in name:
        if unicodedata.category(character) in _UNSEEN:
            raise CallError(
                f"{printable(name)!r} holds the invisible character U+{ord(character):04X}",
                where=what,
                hint="type the name anew",
            )
    return name


def file_name(name: str, what: str = "name") -> str:
    """Return a name as a file name without suffix that no path trick and no system's reserved name can abuse.

    Letters, numbers and a few marks stay; all else is written as %XX of its UTF-8 bytes, so that `name_of` undoes it.

    >>> file_name("../Kestrel"), file_name("nul"), file_name("FL-03")
    ('%2E.%2FKestrel', '%6Eul', 'FL-03')
    """
    check_name(name, what, longest=LONGEST)
    name = unicodedata.normalize("NFC", name)
    text = "".join(c if c.isalnum() or c in _PLAIN else quote(c, safe="") for c in name)
    if text.split(".")[0].strip().lower() in _DEVICES or text[0] in " .":
        text = f"%{ord(text[0]):02X}{text[1:]}"
    if text[-1] in ". ":
        text = f"{text[:-1]}%{ord(text[-1]):02X}"
    if len(text.encode()) > 200:
        raise CallError(f"'{name[:30]}…' is too long for a file name", where=what, hint="use a shorter name")
    return text


def text_file(folder: Path, name: str, what: str = "name") -> Path:
    """Return the file of a text in a folder, whoever named it: another program, or a disk that spells letters its way.

    A file that this program did not write may hold marks that it would write as %XX, or é as two characters.
    """
    path = folder / f"{file_name(name, what)}.toml"
    if not os.path.lexists(path):
        with suppress(OSError):
            wanted = unicodedata.normalize("NFC", name)
            for found in sorted(os.listdir(folder)):
                if found.endswith(".toml") and unicodedata.normalize("NFC", name_of(found[:-5])) == wanted:
                    return folder / found
    return path


def name_of(stem: str) -> str:
    """Return the name that `file_name` turned into this file name."""
    return unquote(stem, errors="replace")


def printable(text: str) -> str:
    """Return text with what could hide or move other text on a screen shown as its code."""
    if text.isprintable():
        return text
    return "".join(f"\\u{ord(c):04x}" if unicodedata.category(c) in _UNSEEN else c for c in text)


def nearest(name: str, known: Iterable[str]) -> str:
    """Return " (did you mean 'x'?)" where a known name is near, else nothing."""
    right = meant(name, known)
    return f" (did you mean '{right}'?)" if right is not None else ""


def known_here(name: str, known: Iterable[str]) -> str:
    """Return which names are known: all of a few, of many the near ones, nothing where one was `meant`."""
    every = list(known)
    if meant(name, every) is not None:
        return ""
    near = difflib.get_close_matches(name.casefold()[:LONGEST], every, n=FEW, cutoff=0.4)
    some = every if len(every) <= FEW else near or every[:FEW]
    more = f" and {len(every) - len(some)} more" if len(some) < len(every) else ""
    return f"known here: {', '.join(some)}{more}"


def meant(name: str, known: Iterable[str]) -> str | None:
    """Return the known name that is nearest: another word for it, or one that is spelled alike; None where none is."""
    by_fold = {k.casefold(): k for k in known}
    wanted = name.casefold()[:LONGEST]
    others = other_words(wanted)
    for other in others:
        if other in by_fold:
            return by_fold[other]
    if others:  # it is known what was meant, and it is none of these: "weight" is spelled like "cg_height"
        return None
    near = difflib.get_close_matches(wanted, by_fold, n=3, cutoff=0.6)
    # Two letters swapped ("lcs") are likelier than one mistaken.
    near.sort(key=lambda k: sorted(k) != sorted(wanted))
    return by_fold[near[0]] if near else None


def other_words(name: str) -> tuple[str, ...]:
    """Return the keys that a word of another vocabulary may be, likeliest first."""
    return OTHER_WORDS.get(name.casefold()[:LONGEST].replace(" ", "_").replace("-", "_"), ())


def unknown(kind: str, name: str, known: tuple[str, ...]) -> LookupFault:
    """Return the error that says of a name that the library does not know it, and which it knows."""
    some = ", ".join(printable(k) for k in known[:8]) or "none"
    more = f" and {len(known) - 8} more" if len(known) > 8 else ""
    near = nearest(name, known)
    return LookupFault(f"no {kind} '{printable(name[:60])}' in the library{near}", hint=f"it has {some}{more}")
