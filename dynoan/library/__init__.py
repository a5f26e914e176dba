"""The folder store: sweeps as HDF5, cars, shocks and setups as text. What it reports as kept is on the disk, whole."""

from dynoan.library.car_file import car_from_text
from dynoan.library.car_written import car_to_text
from dynoan.library.checking import CheckReport
from dynoan.library.index import Fault
from dynoan.library.store import Added, Library
from dynoan.library.sweep_card import SweepRecord

__all__ = ["Added", "CheckReport", "Fault", "Library", "SweepRecord", "car_from_text", "car_to_text"]
