"""The line of a car's file that says its numbers are an example's, and what is told of such a car."""

from __future__ import annotations

SAID = "# Example numbers, no real car's: put in your own, then take this line out."
TOLD = "These are example numbers, no real car's: what stands here is no advice for yours."


def has_example_numbers(text: str) -> bool:
    """Return whether a car's file says that its numbers are an example's."""
    return SAID in text
