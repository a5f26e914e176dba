"""The tyre along the road: force over slip by the sine-arctangent law, and how it falls when the wheel spins.

``X = N·μ·sin(C·atan(B·κ))`` with slip ``κ = (ω·r − v)/max(|v|, v0)`` (H. B. Pacejka, *Tyre and Vehicle Dynamics*,
Magic Formula with E = 0). The grip left at endless slip is ``μ·sin(C·π/2)``: that
share fixes C, and the stiffness at no slip fixes B. More load on a tyre grips a little less than in proportion:
``μ = μ0·(N/N0)^−n``, N0 the load that its axle stands with (a power law for load sensitivity, as in W. F. Milliken and
D. L. Milliken, *Race Car Vehicle Dynamics*, ch. 2; from memory). A load that swings about a mean grips less than that
mean, by some n·(1 − n)/2 of its mean square. The stiffness over the load stays. Left out: the way a tyre rolls until
its force has come in (its relaxation length), which costs grip where wheels hop and a driver holds a slip short of the
best one; wheels that spin bring it in within centimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Surface

#: grip left when the wheel spins, as a share of the peak, where the surface states none [1]; common practice, no source
SLIDING_SHARE = 0.85
#: least and most of it that bands hold then [1]; common practice, no source
SLIDING_SHARES = (0.7, 1.0)
#: slip stiffness over load where the surface states none [1]; common practice, no source
SLIP_STIFFNESS = 15.0
#: least and most of it that bands hold then [1]; common practice, no source: loose ground and treaded tyres, slicks
SLIP_STIFFNESSES = (7.5, 30.0)
#: n, by which power of its load a tyre's grip falls, where the surface states none [1]; common practice, no source:
#: tyres along the road have 0.03 to 0.15 (a published passenger tyre 0.03: H. B. Pacejka, *Tyre and Vehicle Dynamics*,
#: Magic Formula's p_Dx2, from memory), ground that gives more
LOAD_SENSITIVITY = 0.1
#: least and most of it that bands hold then [1]; common practice, no source
LOAD_SENSITIVITIES = (0.0, 0.2)
#: speed below which slip is reckoned over this [m/s] (numerics: at a standstill slip is not defined)
SLOWEST = 3.0
#: a wheel spins where its slip is beyond this many times the slip of most grip, or beyond this slip [1]; judged
SPINS, SPINNING_SLIP = 2.0, 0.3


@dataclass(frozen=True)
class SlipLaw:
    """Grip over slip of one surface."""

    grip: float  #: peak
    shape: float  #: C
    stiffness: float  #: B·C·μ: slope of the grip at no slip

    def loaded(self, share: float, falls: float) -> SlipLaw:
        """Return the law under another load.

        Parameters
        ----------
        share
            The load over the one at rest, above zero. [1]
        falls
            By which power of it the grip falls. [1]
        """
        return replace(self, grip=self.grip * share**-falls)

    @property
    def factor(self) -> float:
        """B. [1]"""
        return self.stiffness / (self.shape * self.grip)

    def at(self, slip: ArrayLike) -> FloatArray:
        """Return the grip used at slips, of their shape. [1]"""
        return np.asarray(self.grip * np.sin(self.shape * np.arctan(self.factor * np.asarray(slip, dtype=float))))


def slip_law(grip: float, sliding: float | None = None, stiffness: float | None = None) -> SlipLaw:
    """Return the law of a surface.

    Parameters
    ----------
    grip
        Peak. [1]
    sliding
        Grip when the wheel spins; at most the peak. None: `SLIDING_SHARE` of it. [1]
    stiffness
        Of the tyre over its load. None: `SLIP_STIFFNESS`. [1]

    Raises
    ------
    QuantityError
        If the grip when sliding is above the peak, or a value is not above zero.
    """
    share = SLIDING_SHARE if sliding is None else sliding / grip
    if not 0 < share <= 1:
        raise QuantityError(f"sliding_grip lies between 0 and the peak grip of {grip:g}")
    steep = SLIP_STIFFNESS if stiffness is None else stiffness
    if not (math.isfinite(steep) and steep > 0):
        raise QuantityError("slip_stiffness must be above zero")
    return SlipLaw(grip, 2.0 - 2.0 / math.pi * math.asin(share), steep)


def law_of(surface: Surface) -> SlipLaw:
    """Return the law of a surface under the load that an axle stands with. Errors as of `slip_law`."""
    return slip_law(surface.grip, surface.sliding_grip, surface.slip_stiffness)


def load_sensitivity(surface: Surface) -> float:
    """Return by which power of its load a tyre's grip falls on a surface: as stated, else as usual. [1]"""
    return LOAD_SENSITIVITY if surface.load_sensitivity is None else surface.load_sensitivity
