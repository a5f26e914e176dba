"""The cautions shown once wherever clicks, loads or a launch result are given. The only place that holds this text."""

CAUTIONS = (
    "A starting point, not a promise: go toward it in steps and test at low risk. "
    "Gas-charged shocks and compressed springs store energy: release pressure before opening, support the car on "
    "stands, and follow the shock maker's service instructions, your rulebook and qualified people."
)
#: what a terminal shows; the whole stands on every page and in the guide
SHORT = "A starting point, not a promise; before you turn or open anything: dynoan guide safety"
