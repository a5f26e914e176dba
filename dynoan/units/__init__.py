"""Quantities as text with a unit, to and from SI.

In: what people write ("275 lb/in"), or SI values. Out: SI values, or what people read. Called from everywhere.
One table a kind of quantity, so that "lb" is a force where a force is meant and a mass where a mass is meant.
A units library is not used here: the trade's "lb" would need overriding everywhere, and importing one costs more
time than the whole of ``dynoan --help``. Read in this order: factors, examples, lengths, percent, read, show.
"""

from dynoan.units.examples import (
    EXAMPLES,
    HINTED,
    Shown,
    example,
)
from dynoan.units.factors import (
    ATMOSPHERE,
    FACTORS,
    GRAVITY,
    INCH,
    POUND,
    POUND_FORCE,
    PSI,
    SI_UNITS,
    ZERO_CELSIUS,
)
from dynoan.units.lengths import in_decimals
from dynoan.units.percent import percent_places
from dynoan.units.read import (
    BRACKETS,
    LONGEST_SHOWN,
    NOTHING,
    brief,
    enumerated,
    factor,
    normal_unit,
    parse,
    split_quantity,
    to_celsius,
)
from dynoan.units.show import (
    Display,
    degree_unit,
    degrees,
    shown,
)

__all__ = [
    "ATMOSPHERE",
    "BRACKETS",
    "EXAMPLES",
    "FACTORS",
    "GRAVITY",
    "HINTED",
    "INCH",
    "LONGEST_SHOWN",
    "NOTHING",
    "POUND",
    "POUND_FORCE",
    "PSI",
    "SI_UNITS",
    "ZERO_CELSIUS",
    "Display",
    "Shown",
    "brief",
    "degree_unit",
    "degrees",
    "enumerated",
    "example",
    "factor",
    "in_decimals",
    "normal_unit",
    "parse",
    "percent_places",
    "shown",
    "split_quantity",
    "to_celsius",
]
