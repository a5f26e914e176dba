"""Lines and names to facts.

In go the lines around a table, and the file's name. Out come `StatedFacts`: shock, pack, clicks, temperature, gas,
date, stroke, sample rate, units, and which direction is said to be positive. Called by `parts`; what a user states is
put over them there.
"""

from importers.stated.counted_out import counted_by_none
from importers.stated.facts import StatedFacts, contradictions, merged
from importers.stated.file_name import direction_of_name, facts_of_name
from importers.stated.from_soft import FROM_SOFT, counts_from_soft
from importers.stated.lines import facts_of_lines
from importers.stated.motion import StatedMotions, stated_motions
from importers.stated.one_knob import clicks_alone
from importers.stated.positive import contradicted, statements
from importers.stated.quantities import quantity
from importers.stated.scales import RAW_UNIT, StatedScale, stated_scales
from importers.stated.several_rates import RatesApart, rates_apart
from importers.stated.speaks_against import said_against

__all__ = [
    "FROM_SOFT",
    "RAW_UNIT",
    "RatesApart",
    "StatedFacts",
    "StatedMotions",
    "StatedScale",
    "clicks_alone",
    "contradicted",
    "contradictions",
    "counted_by_none",
    "counts_from_soft",
    "direction_of_name",
    "facts_of_lines",
    "facts_of_name",
    "merged",
    "quantity",
    "rates_apart",
    "said_against",
    "stated_motions",
    "stated_scales",
    "statements",
]
