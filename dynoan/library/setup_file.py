"""``setups/NAME.toml``: what was on the car on one day, as text that people can read and edit.

The file is a car file with the day's facts in front of it, as keys that begin with "setup."::

    setup.car = "kestrel"
    setup.date = "2026-05-02"
    setup.surface = "loose"
    setup.good = true

    wheelbase = "2430 mm"        # from here on the car's own file, word for word
    …

so that the car can be taken back out of it as its team wrote it, comments and units included.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from dynoan.errors import QuantityError, Spot
from dynoan.library.car_file import car_from_data
from dynoan.library.car_written import car_to_text
from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from dynoan.model.dates import iso_date
from dynoan.model.setup import Setup
from dynoan.units import Shown

KEYS = ("car", "date", "recorded", "surface", "temperature", "result", "good", "remarks", "extra")
LONGEST = {"remarks": 20_000, "result": 500}
COLDEST, HOTTEST = -60.0, 90.0  #: of air or track [°C]; common practice, no source
_FACT = re.compile(r"\s*(setup\s*\.|#|$)")


def setup_from_text(text: str, file: str, name: str, *, units: Shown = "metric") -> Setup:
    """Return the setup that a setup file describes; `units` are its library's, in which usual speeds are round.

    Raises
    ------
    QuantityError
        If the text is not TOML, or a key is unknown, missing, or its value impossible; file and key are named.
    """
    data = parse_toml(text, file)
    if "setup" not in data:
        raise QuantityError(
            "missing",
            where=Spot(file, "setup.date"),
            hint='a setup begins with lines such as setup.date = "2026-05-02"',
        )
    facts = TomlTable(data["setup"], file, KEYS, "setup")
    of_car = {k: v for k, v in data.items() if k != "setup"}
    car = car_from_data(of_car, file, facts.text("car") or "car", units=units)
    extra = facts.names("extra")
    texts = TomlTable(extra, file, tuple(extra), "setup.extra")
    return Setup(
        name=name, car=replace(car, file=file), date=_date(facts), surface=facts.text("surface"),
        temperature=_temperature(facts), result=facts.text("result", LONGEST["result"]), good=facts.flag("good"),
        remarks=facts.text("remarks", LONGEST["remarks"]) or "", recorded=facts.text("recorded") or "",
        extra={key: texts.text(key, 2000) or "" for key in extra}, file=file,
    )  # fmt: skip


def setup_to_text(setup: Setup, car_text: str | None = None) -> str:
    """Return a setup as the text of a setup file, around the car's own text where that is at hand."""
    import tomli_w

    facts: dict[str, Any] = {
        "car": setup.car.name, "date": setup.date, "recorded": setup.recorded or None, "surface": setup.surface,
        "temperature": _degrees(setup), "result": setup.result, "good": setup.good, "remarks": setup.remarks or None,
    }  # fmt: skip
    lines = [f"setup.{tomli_w.dumps({key: value})}" for key, value in facts.items() if value is not None]
    lines += [f"setup.extra.{tomli_w.dumps({key: value})}" for key, value in setup.extra.items()]
    text = "".join(lines) + "\n" + (car_to_text(setup.car) if car_text is None else car_text)
    setup_from_text(text, "setup", setup.name)  # what is kept can be read again
    return text


def _degrees(setup: Setup) -> str | None:
    """Return the day's temperature as a file has it, in the units of the car."""
    if setup.temperature is None:
        return None
    us = setup.car.units == "us"
    return f"{1.8 * setup.temperature + 32:.6g} °F" if us else f"{setup.temperature:.6g} °C"


def car_text_of(text: str, file: str) -> str:
    """Return the car's part of a setup file: word for word where the day's facts stand in front, else written anew."""
    lines = re.split(r"(?<=\n)", text)  # a remark may hold what other programs take for the end of a line
    first = next((n for n, line in enumerate(lines) if not _FACT.match(line)), len(lines))
    facts = [n for n in range(first) if lines[n].lstrip().startswith("setup")]
    rest = "".join(lines[facts[-1] + 1 :]).lstrip("\n") if facts else text
    data = parse_toml(text, file)
    data.pop("setup", None)
    try:
        if parse_toml(rest, file) == data:
            return rest
    except QuantityError:
        pass  # a fact of several lines: the car is written anew below
    return car_to_text(car_from_data(data, file))


def _date(facts: TomlTable) -> str:
    date = facts.text("date")
    if not date:
        raise facts.fault("date", "missing", hint='write it like setup.date = "2026-05-02"')
    return iso_date(date, facts.where("date"))


def _temperature(facts: TomlTable) -> float | None:
    value = facts.quantity("temperature", "temperature")
    if value is not None and not COLDEST <= value <= HOTTEST:
        raise facts.fault("temperature", f"{value:g} °C is no weather", hint="check the number and its unit")
    return value
