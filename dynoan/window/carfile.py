"""The car's file as a form and back: faults at their field, and what would change shown before it is written."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.jobs.undo import text_place
from dynoan.library import files
from dynoan.library.car_axle_mass import KEY as AXLE_MASS
from dynoan.library.car_file import car_from_data, car_from_text
from dynoan.library.car_keys import QUANTITIES, STAND_INS
from dynoan.library.faults import all_faults
from dynoan.library.names import check_name
from dynoan.library.text_edit import Value, with_values
from dynoan.library.toml_text import parse_toml
from dynoan.model.car import AXLES, CORNERS, axle_of
from dynoan.model.car_check import check_car
from dynoan.model.shock import clicks_over, parse_clicks
from dynoan.units import parse
from dynoan.window.carfields import FIELDS, CarField, plain_fields
from dynoan.window.saying_cars import field_words

if TYPE_CHECKING:
    from dynoan.window.desk import Desk


@dataclass(frozen=True)
class CarText:
    """The text of a car's file as a form would leave it, and what is wrong with it, by field."""

    name: str
    before: str
    after: str
    values: Mapping[str, str]
    faults: Mapping[str, str] = field(default_factory=dict)

    @property
    def changes(self) -> list[tuple[str, str, str]]:
        """What changes: its name in words, what the file holds now and what it would hold; "" for nothing."""
        was, now = flat(self.before), flat(self.after)
        rows = {k: (_held(was, k), _held(now, k)) for k in was | now if was.get(k) != now.get(k)}
        rows = {k: pair for k, pair in rows.items() if pair[0] != pair[1]}
        for axle in AXLES:  # what becomes of both sides alike is one line
            for own in {k.partition(".")[2] for k in rows if k.partition(".")[0] in CORNERS}:
                both = [f"{c}.{own}" for c in CORNERS if c[0] == axle[0]]
                if all(k in rows for k in both) and len({rows[k] for k in both}) == 1:
                    rows = {f"{axle}.{own}" if k == both[0] else k: v for k, v in rows.items() if k != both[1]}
        made = [(field_words(k), *pair) for k, pair in rows.items()]
        return made or ([("How the file is written", "", "otherwise")] if self.before != self.after else [])


def _held(values: Mapping[str, str], key: str) -> str:
    """Return what a key holds; a corner that states nothing holds what its axle states."""
    place, _, own = key.partition(".")
    axle = next((a for a in AXLES if place in CORNERS and a[0] == place[0]), "")
    return values.get(key) or values.get(f"{axle}.{own}", "")


def text_of(desk: Desk, name: str) -> str:
    """Return the text of a car's file, empty where there is none."""
    return desk.library.car_text(name) if name in desk.library.cars() else ""


def flat(text: str) -> dict[str, str]:
    """Return the values of a car's file as text, by key.

    Raises
    ------
    QuantityError
        If the text is no TOML.
    """
    return dict(_flat(parse_toml(text, "the car's file")))


def _flat(data: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, str]]:
    for key, value in data.items():
        if isinstance(value, Mapping):
            yield from _flat(value, f"{above}{key}.")
        else:
            yield f"{above}{key}", str(value)


def formed(desk: Desk, name: str, given: Mapping[str, str]) -> CarText:
    """Return a car's file with what a form holds in it; faults by field, "" for the whole."""
    before = text_of(desk, name)
    old = flat(before)
    values = plain_fields(given, desk.units, new=not before)
    moved = {k: v for k, v in values.items() if v != old.get(_home(k, old), "")}
    faults = {k: f for k, v in values.items() if (f := _fault(FIELDS[k], v, values, old))}
    changes: dict[tuple[str, ...], Value | None] = {
        tuple(_home(k, old).split(".")): _value(k, v) for k, v in moved.items() if k not in faults
    }
    try:
        after = with_values(before or f"# {name}\n", changes)
    except DynoanError as error:
        return CarText(name, before, before, old | values, faults | {"": str(error)})
    faults = _whole(name, after) | faults  # of what is not written, since it is at fault, a field's own words count
    return CarText(name, before, before if faults else after, old | values, faults)


def _home(key: str, old: Mapping[str, str]) -> str:
    """Return where a file states what the form asks: anti-squat may stand under its axle."""
    if key == "antisquat":
        return next((k for k in ("rear.antisquat", "front.antisquat") if k in old), key)
    return key


def _value(key: str, text: str) -> Value | None:
    if not text:
        return None
    return _number(text) if FIELDS[key].kind == "number" else text


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise QuantityError(f"'{text}' is no number") from None


def _as_number(text: str) -> int | float:
    """Return a number as it would be written by hand: a hole is 2, not 2.0."""
    return int(text) if text.isdecimal() else _number(text)


def _fault(field_: CarField, text: str, values: Mapping[str, str], old: Mapping[str, str]) -> str:
    if not text:
        own = field_.key.partition(".")[2]
        held = any(f"{c}.{own}" in old for c in CORNERS) if field_.key.split(".")[0] in AXLES else False
        on_axle = own == "mass" and f"{axle_of(field_.key.split('.')[0])}.{AXLE_MASS}" in old
        return "needed" if field_.needed and not held and not on_axle else ""
    if "±" in text:
        return ""  # what a value is uncertain by is judged with the whole file
    try:
        if field_.kind == "number":
            _number(text)
        elif field_.kind == "text":
            check_name(text, "")
        elif field_.kind == "clicks":
            parse_clicks(text, where="")
        elif field_.kind in (*QUANTITIES.values(), "ratio"):
            parse(text, field_.kind)
    except DynoanError as error:
        return error.text
    if field_.choices and text not in field_.choices:
        return f"one of {', '.join(field_.choices)}"
    return ""


def _whole(name: str, text: str) -> dict[str, str]:
    """Return all that is wrong with a whole file, each at the field where it can be told."""
    read = lambda data: car_from_data(data, "the car", name)  # noqa: E731
    found = all_faults(text, "the car", read, STAND_INS) or check_car(car_from_text(text, "the car", name))
    return {k: v for fault in found for k, v in _placed(f"{fault.key}: {fault.text}").items()}


def _placed(text: str) -> dict[str, str]:
    found = re.match(r"\[?([a-z_]+)\]?[.\s]+([a-z_]+): (.*)", text) or re.match(r"()([a-z_]+): (.*)", text)
    if found is None:
        return {"": text}
    part, key, words = found.groups()
    axle = {"f": "front", "r": "rear"}.get(part[:1], "")
    for at in (f"{part}.{key}", f"{axle}.{key}", key):
        if at in FIELDS:
            return {at: words}
    return {"": text}


def with_changes(desk: Desk, name: str, changes: Mapping[str, str]) -> CarText:
    """Return a car's file with keys changed, as what-if and choosing give them; numbers stay numbers.

    Raises
    ------
    DynoanError
        If there is no such car, or it would be none.
    """
    before, file = desk.library.car_text(name), f"cars/{name}.toml"
    data = parse_toml(before, file)
    car_from_data(data, file, name)  # what is half there, or was spoiled meanwhile, is not built upon
    values: dict[tuple[str, ...], Value | None] = {}
    for key, text in changes.items():
        for path in _paths(data, tuple(key.split("."))):
            values[path] = _as_number(text) if _is_number(data, path, text) else _among(data, path, text)
    after = with_values(before, values)
    car_from_data(parse_toml(after, file), file, name)
    return CarText(name, before, after, flat(after))


def _paths(data: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Yield where a value has to stand: in corners that state it themselves, else in their axle."""
    if path[0] not in AXLES or len(path) != 2:
        yield path
        return
    corners = [c for c in CORNERS if c[0] == path[0][0]]
    own = [c for c in corners if path[1] in data.get(c, {})]
    yield from ((c, path[1]) for c in own)
    if len(own) < len(corners):
        yield path


def _among(data: Mapping[str, Any], path: tuple[str, ...], text: str) -> str:
    """Return what a key is to hold: clicks that are not spoken of stay, be they the corner's own or its axle's."""
    if path[-1] != "clicks":
        return text
    axle = next((a for a in AXLES if path[0][0] == a[0]), "")
    held = data.get(path[0], {}).get("clicks") or data.get(axle, {}).get("clicks") or ""
    return clicks_over(held, text) if isinstance(held, str) else text


def _is_number(data: Mapping[str, Any], path: tuple[str, ...], text: str) -> bool:
    here: Any = data
    for part in path:
        here = here.get(part) if isinstance(here, Mapping) else None
    bare = here is None and path[-1].endswith("_ratio")
    return isinstance(here, int | float) or (bare and text.replace(".", "").isdecimal())


def write(desk: Desk, made: CarText, words: str) -> None:
    """Write a car's file, so that it can be taken back.

    Raises
    ------
    CallError
        If it was changed by somebody else since it was shown.
    """
    place = text_place("cars", made.name)
    # Locked: a command beside the window that writes between the look and the change would be undone by it.
    with desk.bench(), files.locked(desk.path / files.LOCK):
        if text_of(desk, made.name) != made.before:
            raise CallError(f"the file of {made.name} was changed elsewhere meanwhile: look at it again")
        with desk.change(words, [place]):
            desk.write(place, made.after.encode())
