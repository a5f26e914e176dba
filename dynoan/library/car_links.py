"""The side-view links in a car file, with their holes: read and written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from dynoan.library.car_keys import MILLIMETRES, written
from dynoan.library.names import printable
from dynoan.library.tables import TomlTable
from dynoan.model.links import MEMBERS, Link, Links, Point
from dynoan.units import parse

MOST_HOLES = 20  #: of a link
#: links that reach from the axle to one point of the body, and need no point at the axle
ARMS = ("torque_arm", "swing_arm")
_POINT = 'write a point like ["520 mm", "250 mm"]: ahead of the axle and above the ground'


def links_from(top: TomlTable) -> Links | None:
    """Return the side-view links, None where the file has none.

    Raises
    ------
    QuantityError
        If a point or a hole is none, file and key named.
    """
    table = top.table("links", (*MEMBERS, "holes", "torque"))
    if table is None:
        return None
    torque: Any = table.choice("torque", ("links", "body")) or "links"
    holes = table.table("holes", MEMBERS)
    members = {name: _link(table, name, holes) for name in MEMBERS if name in table}
    if not members:
        raise table.fault(
            "",
            'give lower and upper, or lower and torque_arm, or swing_arm = { body = [["1100 mm", "300 mm"]] }',
        )
    if holes is not None:
        for name in holes.data:
            if name not in members:
                raise holes.fault(name, f"there is no link {name}", hint=f"there are {', '.join(members)}")
    kind: Literal["links", "body"] = torque
    return Links(members, kind)


def _link(links: TomlTable, name: str, holes: TomlTable | None) -> Link:
    inside = links.data[name]
    arm = next((arm for arm in ARMS if isinstance(inside, Mapping) and arm in inside), None)
    if arm is not None:
        right = f'{arm} = {{ body = [["1100 mm", "300 mm"]] }}'
        raise links.fault(
            name, f"{arm} is a link of its own and stands in no other", hint=f"under [links] write {right}"
        )
    table = links.table(name, ("axle", "body"))
    assert table is not None  # the key was just seen
    given = table.data.get("body")
    if isinstance(given, Mapping):
        named = {str(key): value for key, value in given.items()}
    elif isinstance(given, list) and given and isinstance(given[0], list):
        named = {str(i + 1): value for i, value in enumerate(given)}
    else:
        named = {"1": given}
    if not 1 <= len(named) <= MOST_HOLES:
        raise table.fault("body", f"give 1 to {MOST_HOLES} holes")
    body = {key: _point(table, "body", value) for key, value in named.items()}
    picked = None if holes is None or name not in holes.data else str(holes.data[name])
    if picked is not None and picked not in body and holes is not None:
        raise holes.fault(name, f"there is no hole {printable(picked)[:20]}", hint=f"there are {', '.join(body)}")
    axle = _point(table, "axle", table.data["axle"]) if "axle" in table else None
    return Link(body, axle, picked or next(iter(body)))


def _point(table: TomlTable, key: str, value: Any) -> Point:
    if not isinstance(value, list) or len(value) != 2:
        raise table.fault(key, _POINT)
    ahead, up = (parse(v, "length", where=table.where(key)) for v in value)
    if max(abs(ahead), abs(up)) > 5.0:
        raise table.fault(key, "lies more than 5 m (16 ft) away", hint=_POINT)
    return ahead, up


def links_to_data(links: Links | None) -> dict[str, Any]:
    """Return the tables that `links_from` reads."""
    if links is None:
        return {}
    table: dict[str, Any] = {"torque": links.torque, "holes": {}}
    for name, link in links.members.items():
        table[name] = {"body": {hole: [written(v, *MILLIMETRES) for v in point] for hole, point in link.body.items()}}
        if link.axle is not None:
            table[name]["axle"] = [written(v, *MILLIMETRES) for v in link.axle]
        table["holes"][name] = link.hole
    return {"links": table}
