"""Made days at the track, with a known truth: runs that drift, decays of a pushed corner, launches of a car.

Nothing in here knows how a difference, a decay or a car is judged, nor imports anything that does.
"""
