"""Dates as people write them."""

from __future__ import annotations

import re
from datetime import date

from dynoan.model.importing import DateOrder
from importers.assumptions.words import FIRST_YEAR, LAST_YEAR
from importers.patterns import regex
from importers.words.keys import DATE
from importers.words.spelling import plain, word_set

_MONTHS = {
    name: month
    for month, names in enumerate(
        ("jan janv ene gen", "feb fev fevr febr", "mar marz mars mrz maerz", "apr avr abr", "may mai mag maj mei",
         "jun juin giu",
         "jul juil lug juillet", "aug aout ago", "sep sept set", "oct okt ott out", "nov", "dec dez dic"), start=1)
    for name in names.split()
}  # fmt: skip
#: how longer names of months begin, as `plain` spells them; those of three letters are whole names
_MONTHS_BEGIN = {
    name: month
    for month, names in enumerate(
        ("stycz янв tammi ocak leden ledna", "luty lutego фев helmi subat unor", "maart март maalis brez",
         "апр kwie huhti dub",
         "май мая мај touko mayis kvet", "июн czerwi czerwc kesak haziran cerv",
         "июл lipca lipiec heinak temmuz cervenec",
         "авг elok agusto srpen srpn sierp", "сен szept wrzes syysk eylul zari", "окт pazdz lokak ekim rijna rijen",
         "ноя listopad marras kasim", "дек grudz joulu aralik pros"), start=1)
    for name in names.split()
}  # fmt: skip
#: hours, minutes and what else tells the time of day
_TIME_OF_DAY = regex(
    r"(?i)(?:(?<=\d)T)?(?<![\d.:])\d{1,2}(?:[:h]\d{2})(?:[:.]\d{2})?(?:[.,]\d+)?\s*(?:[ap]\.?m\.?|uhr|h|z|utc|gmt)?(?![\d])"
)
#: words that stand in a day beside its month
_BESIDE_DAY = word_set(
    "de, del, di, of, the, st, nd, rd, th, den, d, le, el, il, am, at, um, a, mon, tue, tues, wed, weds, thu, thur,"
    " thurs, fri, sat, sun, monday, tuesday, wednesday, thursday, friday, saturday, sunday, mo, di, mi, do, fr, sa, so,"
    " montag, dienstag, mittwoch, donnerstag, freitag, samstag, sonntag, lundi, mardi, mercredi, jeudi, vendredi,"
    " samedi, dimanche, lunes, martes, miercoles, jueves, viernes, sabado, domingo"
)
_WEEKDAYS = _BESIDE_DAY - word_set(
    "de, del, di, of, the, st, nd, rd, th, den, d, le, el, il, am, at, um, a"
) | word_set(
    "lunedi, martedi, mercoledi, giovedi, venerdi, sabato, domenica, lun, mer, gio, ven, sab, dom, segunda, terca,"
    " quarta, quinta, sexta, maandag, dinsdag, woensdag, donderdag, vrijdag, zaterdag, zondag, lordag, sondag, mandag,"
    " tirsdag, onsdag, torsdag, fredag, lauantai, sunnuntai, sobota, niedziela, nedele"
)
_NUMBERED_DAY = regex(
    r"(?<![\w./-])(?:(?:19|20)\d\d([-/.])\d{1,2}\1\d{1,2}|\d{1,2}([-/])\d{1,2}\2(?:(?:19|20)\d\d|\d\d)"
    r"|\d{1,2}\.\s?\d{1,2}\.\s?(?:(?:19|20)\d\d|\d\d))(?![\w/-]|\.\d)"
)
#: "3 March 2025", "14. Juni 2025", "7 de octubre de 2025", "March 3rd, 2025", "12 nov 25"
_DAY_IN_WORDS = regex(
    r"(?<![\w.,/-])(?:\d{1,2}(?:st|nd|rd|th|er|[.°º])?\s*(?:de\s+|of\s+)?(?P<month>[^\W\d_]{3,})\.?,?\s+(?:de\s+|del\s+)?(?P<year>(?:19|20)\d\d|'?\d\d)"
    r"|(?P<first>[^\W\d_]{3,})\.?\s+\d{1,2}(?:st|nd|rd|th)?,?\s+(?P<last>(?:19|20)\d\d))(?![\w:-]|[.,]\d)"
)
#: "2026年3月14日", "2026년 3월 14일"
_SIGNED_DAY = regex(r"(\d{4})\s?[年년]\s?(\d{1,2})\s?[月월]\s?(\d{1,2})\s?[日일号]?")
_REIWA = regex(r"令和\s?(\d{1,2})\s?年")  #: an era whose first year was 2019
_LETTERS = r"[^\W\d_]"
_MONTH = rf"(?P<month>{_LETTERS}{{3,}})\.?"
#: a day whose month is a word; of two digits a year is only where marks or nothing stand between its parts
_WORDED = tuple(
    regex(form)
    for form in (
        rf"(?<!\d)(?P<year>\d{{4}})[\s./-]+{_MONTH}[\s./-]+(?P<day>\d{{1,2}})(?!\d)",
        rf"(?<!\d)(?P<day>\d{{1,2}})(?:st|nd|rd|th|\.)?[\s./-]*(?:de\s+|di\s+)?{_MONTH}[\s./-]*(?:de\s+|del\s+)?(?P<year>\d{{4}})",
        rf"{_MONTH}[\s./-]+(?P<day>\d{{1,2}})(?:st|nd|rd|th)?[\s./-]+(?:\d\d[ :]\d\d(?:[ :]\d\d)? )?(?P<year>\d{{4}})",
        rf"(?<!\d)(?P<day>\d{{1,2}})(?P<mark>[./-]?){_MONTH}(?P=mark)(?P<year>\d{{2}})(?![\w./-])",
    )
)


def date_of(text: str) -> str | None:
    """Return the day a text states, ISO 8601; None where there is none or day and month could be swapped.

    >>> date_of("2026-05-02 10:11"), date_of("02.05.2026"), date_of("05/02/2026"), date_of("2 May 2026")
    ('2026-05-02', '2026-05-02', None, '2026-05-02')
    """
    text = _signs_out(text)
    if match := re.search(r"(?<!\d)(\d{4})[-./]?(\d{2})[-./]?(\d{2})(?!\d)", text):
        return _iso(int(match[1]), int(match[2]), int(match[3]))
    if match := re.search(r"(?<!\d)(\d{4})([-./])(\d{1,2})\2(\d{1,2})(?!\d)", text):
        return _iso(int(match[1]), int(match[3]), int(match[4]))
    if match := re.search(r"(?<!\d)(\d{4})\.\s(\d{1,2})\.\s(\d{1,2})(?!\d)", text):
        return _iso(int(match[1]), int(match[2]), int(match[3]))
    if match := re.search(r"(?<!\d)(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4}|\d{2})(?!\d)", text):
        return _iso(_year(match[3]), int(match[2]), int(match[1]))
    if match := re.search(r"(?<!\d)(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})(?!\d)", text):
        first, second, year = int(match[1]), int(match[2]), _year(match[3])
        if first == second or second > 12:
            return _iso(year, first, second)
        return _iso(year, second, first) if first > 12 else None
    return _worded(plain(text))


def _signs_out(text: str) -> str:
    """Return a text with the signs of Eastern days as dashes, the years of the era as those of the world."""
    return _SIGNED_DAY.sub(r"\1-\2-\3", _REIWA.sub(lambda m: f"{2018 + int(m[1])}年", text))


def lone_day(cell: str) -> str | None:
    """Return a cell that is a day and nothing else but a time of day and a word for date, without these; None else.

    >>> lone_day("11/14/2025 2:33 PM"), lone_day("fecha 7 de octubre de 2025"), lone_day("calibrated 2025-03-01")
    ('11/14/2025', '7 de octubre de 2025', None)
    """
    bare = _TIME_OF_DAY.sub(" ", cell).strip(" \t,;:.-")
    words = bare.split()
    taken = next((k for k in (3, 2, 1) if plain(" ".join(words[:k])).rstrip(".") in DATE and len(words) > k), 0)
    rest = " ".join(words[taken:]).lstrip(":=- ")
    names = [w for w in re.findall(rf"{_LETTERS}+", plain(_signs_out(rest))) if w not in _BESIDE_DAY]
    if len(names) > 1 or any(_month(w) is None for w in names):
        return None
    return rest if re.search(r"\d", rest) and (date_of(rest) or swappable_date(rest)) else None


def days_in(text: str) -> list[str]:
    """Return the days in a sentence, with their years; one of two digits behind a month's name only beside a weekday.

    >>> days_in("run on March 3rd, 2025 (cold)"), days_in("wed 12 nov 25"), days_in("C6 out 25 psi")
    (['March 3rd 2025'], ['12 nov 2025'], [])
    """
    text = _signs_out(text)
    found = [m[0] for m in _NUMBERED_DAY.finditer(text)]
    weekday = any(map(is_weekday, plain(text).split()))
    for match in _DAY_IN_WORDS.finditer(text):
        year = (match["year"] or match["last"]).lstrip("'")
        if _month(plain(match["month"] or match["first"])) is not None and (len(year) == 4 or weekday):
            day = match[0].replace(",", " ").replace("'", "")
            found.append(" ".join(f"{day[: -len(year)]}{_year(year)}".split()))
    return [day for day in found if date_of(day) or swappable_date(day)]


def is_weekday(word: str) -> bool:
    """Whether a plain word of three letters or more is a day of the week."""
    return len(word) > 2 and word in _WEEKDAYS


def is_month(cell: str) -> bool:
    """Whether a cell is a month of a year, or a day, and nothing else: "Mar-25", "May 2025"."""
    match = re.fullmatch(rf"({_LETTERS}{{3,9}})\.?[\s/'-]*(?:\d{{2}}|\d{{4}})", plain(cell))
    return lone_day(cell) is not None or (match is not None and _month(match[1]) is not None)


def swappable_date(text: str) -> str | None:
    """Return the part of a text that is a day whose day and month could be swapped, or None.

    >>> swappable_date("tested 05/02/2026 10:11"), swappable_date("05/13/2026")
    ('05/02/2026', None)
    """
    match = re.search(r"(?<!\d)(\d{1,2})[/-](\d{1,2})[/-](\d{4}|\d{2})(?!\d)", text)
    if match is None or date_of(text) is not None:
        return None
    return match[0] if 1 <= int(match[1]) <= 12 and 1 <= int(match[2]) <= 12 else None


def in_order(day: str, order: DateOrder) -> str | None:
    """Return a swappable day, ISO 8601, with its numbers in the order that someone states.

    >>> in_order("05/02/26", "month-first"), in_order("05/02/26", "day-first")
    ('2026-05-02', '2026-02-05')
    """
    first, second, year = re.split(r"[/-]", day)
    month, number = (first, second) if order == "month-first" else (second, first)
    return _iso(_year(year), int(month), int(number))


def without_dates(text: str) -> str:
    """Return a text with blanks where days stand in numbers: their parts are no clicks."""
    return re.sub(r"\d{1,4}[-./]\d{1,2}[-./]\d{2,4}", " ", text)


def _worded(text: str) -> str | None:
    for form in _WORDED:
        for match in form.finditer(text):
            if (month := _month(match["month"])) is not None:
                return _iso(_year(match["year"]), month, int(match["day"]))
    return None


def _month(word: str) -> int | None:
    short = _MONTHS.get(word) or _MONTHS.get(word[:4]) or _MONTHS.get(word[:3])
    longer = [name for name in _MONTHS_BEGIN if word.startswith(name)]
    return _MONTHS_BEGIN[max(longer, key=len)] if longer else short


def _year(text: str) -> int:
    return int(text) if len(text) == 4 else 2000 + int(text)


def _iso(year: int, month: int, day: int) -> str | None:
    try:
        return date(year, month, day).isoformat() if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None
