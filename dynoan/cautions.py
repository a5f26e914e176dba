"""The cautions shown once wherever clicks, loads, a launch result or a test are given. The only place of this text."""

CAUTIONS = (
    "A starting point, not a promise: go toward it in steps and test at low risk. "
    "Gas-charged shocks and compressed springs store energy: release pressure before opening, support the car on "
    "stands, and follow the shock maker's service instructions, your rulebook and qualified people."
)
#: what a terminal shows; the whole stands on every page and in the guide
SHORT = "A starting point, not a promise; before you turn or open anything: dynoan guide safety"

#: wherever runs at the track are asked for
CLOSED_COURSE = (
    "Test on a closed course only, with nobody in the way, and inside your rulebook; change one thing at a time, in "
    "small steps."
)
#: wherever a car is to be pushed and let go
PUSHING = (
    "Push the car only while it stands on its own wheels on level ground, brakes off, blocks a hand's breadth from the "
    "wheels and nobody under it: a car on stands or on a jack can be pushed off them."
)
