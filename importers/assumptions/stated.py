"""What is taken for granted of what files state beside their numbers."""

from __future__ import annotations

#: [K] two temperatures that a file states of one run differ where they are further apart; judged: half of it is what
#: people round by
APART_DEGREES = 1.0
#: [1] two pressures or diameters likewise, as a share of the first; judged: bar and psi of one gauge, both rounded, are
#: as near
APART_SHARE = 0.02
#: [Pa] a pressure in a sentence about gas is no larger to be the shock's; judged: shocks hold 2 to 35 bar, bottles that
#: fill them 100 and more
MOST_GAS_IN_SENTENCE = 5e6
