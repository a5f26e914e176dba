"""Files of cars and shocks among the dropped ones, known as such."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePath

from dynoan.errors import DynoanError
from dynoan.library.car_file import car_from_text
from dynoan.library.names import name_of
from dynoan.library.shock_file import shock_from_text
from dynoan.library.toml_text import parse_toml
from dynoan.model.car import AXLES, CORNERS

ENDING = ".toml"
KINDS = {"cars": "car", "shocks": "shock"}  #: by the library's folder


@dataclass(frozen=True)
class Described:
    """What a text file describes."""

    folder: str  #: of the library: "cars" or "shocks"
    name: str
    fault: str = ""  #: why it cannot be kept

    @property
    def kind(self) -> str:
        """What it is of, in a word."""
        return KINDS[self.folder]


def described(data: bytes, file: str) -> Described | None:
    """Return which car or shock a file describes, with what is wrong with it; None where it describes none."""
    if PurePath(file).suffix.lower() != ENDING:
        return None
    name = name_of(PurePath(file).stem)
    try:
        text = data.decode("utf-8-sig")
        held = parse_toml(text, file)
    except (DynoanError, UnicodeDecodeError):
        return None
    folder = "shocks" if "adjusters" in held else "cars" if {*AXLES, *CORNERS} & held.keys() else ""
    if not folder:
        return None
    try:
        shock_from_text(text, file, name) if folder == "shocks" else car_from_text(text, file, name)
    except DynoanError as error:
        return Described(folder, name, str(error))
    return Described(folder, name)
