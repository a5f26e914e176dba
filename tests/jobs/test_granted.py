"""What a launch takes for granted stands in the order in which it counts, and once for all surfaces."""

from types import SimpleNamespace

from dynoan.jobs.launch.granted import granted
from dynoan.jobs.launch.measure_first import Shift

FIGURE = "level_nose_rise_m"
NOTES = (
    "nobody says how the drive comes in: it rises within 0.15 s",
    "surfaces.loose states no slip_stiffness: taken as 15",
    "surfaces.sticky states no slip_stiffness: taken as 15",
    "surfaces.sticky states no sliding_grip: a share",
    "the gas of the shocks is a spring",
    "how far a tyre rolls is left out, and no band holds it: so it is",
)


def shift(key, size):
    return Shift(key, 1.0, {FIGURE: -size}, {FIGURE: 0.5 * size})


def test_what_no_band_holds_stands_first_then_what_moves_the_figures_most():
    runs = [SimpleNamespace(surface=s, metrics={FIGURE: 0.1}) for s in ("loose", "sticky")]
    unsure = {
        "loose": [shift("rise", 0.01), shift("surfaces.loose.slip_stiffness", 0.02)],
        "sticky": [shift("surfaces.sticky.slip_stiffness", 0.001), shift("surfaces.sticky.sliding_grip", 0.015)],
    }
    assert granted(NOTES, unsure, runs) == (
        NOTES[5],
        "surfaces.loose and surfaces.sticky state no slip_stiffness: taken as 15",
        NOTES[3],
        NOTES[0],
        NOTES[4],
    )


def test_without_anything_known_of_what_it_moves_the_order_stays():
    assert granted(NOTES[:2] + NOTES[4:5], {}, []) == (*NOTES[:2], NOTES[4])
