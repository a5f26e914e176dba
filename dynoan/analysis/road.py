"""Random roads after ISO 8608, and how much vertical shaking a seated person feels after ISO 2631-1.

Gd(n) is the one-sided spectrum of profile height per cycle/m, waviness 2: ``Gd(n) = Gd(n0)·(n/n0)^-2``, n0 = 0.1
cycle/m. Its values by class are `dynoan.model.car.ROAD_CLASSES`.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray

REFERENCE = 0.1  #: n0 [cycle/m] (ISO 8608, 1995)
#: the band a profile is made in, that of the standard's reports but for waves the tyre swallows [cycle/m]; common
#: practice, no source
PROFILE_BAND = (0.011, 2.83)
#: after which a made-up road repeats itself [m]; judged
PERIOD = 200.0
#: of the made-up road all settings meet, unless another is asked for
SEED = 8608
#: samples of a made-up road in its shortest wave, at least: read between them by straight lines
SAMPLES_A_WAVE = 32


def spectrum(roughness: float, frequency: ArrayLike) -> FloatArray:
    """Return Gd(n), of the shape of the frequencies. [m³]

    Parameters
    ----------
    roughness
        Gd(n0). [m³]
    frequency
        Spatial, above zero, any shape. [cycle/m]
    """
    return np.asarray(roughness * (np.asarray(frequency, dtype=float) / REFERENCE) ** -2.0)


def slope_spectrum(roughness: float) -> float:
    """Return the spectrum of the profile's slope, (2π·n0)²·Gd(n0), the same at every n. [m]

    Parameters
    ----------
    roughness
        Gd(n0). [m³]
    """
    return (2 * math.pi * REFERENCE) ** 2 * roughness


def velocity_spectrum(roughness: float, speed: float) -> float:
    """Return the one-sided spectrum of vertical road velocity in time, the same at every frequency. [(m/s)²/Hz]

    Parameters
    ----------
    roughness
        Gd(n0). [m³]
    speed
        Of driving. [m/s]

    Examples
    --------
    >>> round(velocity_spectrum(256e-6, 20.0), 5)  # an average road of class C at 72 km/h
    0.00202
    """
    return slope_spectrum(roughness) * speed


def profile(
    roughness: float,
    distance: ArrayLike,
    *,
    length: float = PERIOD,
    seed: int = SEED,
    band: tuple[float, float] = PROFILE_BAND,
) -> FloatArray:
    """Return the height of a made-up road at distances, of their shape. [m]

    A sum of cosines with seeded random phases whose spectrum is that of `roughness` within `band`; the same
    seed gives the same road.

    Parameters
    ----------
    roughness
        Gd(n0). [m³]
    distance
        Any shape. [m]
    length
        After which the road repeats itself. [m]
    seed
        Of the phases.
    band
        Lowest and highest spatial frequency. [cycle/m]

    Raises
    ------
    QuantityError
        If the roughness is negative or not finite.
    """
    s = np.asarray(distance, dtype=float)
    if not (math.isfinite(roughness) and roughness >= 0):
        raise QuantityError(f"roughness {roughness:g} m³ is no ISO 8608 value", hint="class C is 256e-6 m³")
    if roughness == 0:
        return np.zeros_like(s)
    height = _samples(roughness, length, seed, band)
    place = np.arange(len(height)) * length / (len(height) - 1)
    return np.asarray(np.interp(s % length, place, height))


@lru_cache(maxsize=8)
def _samples(roughness: float, length: float, seed: int, band: tuple[float, float]) -> FloatArray:
    """Return one period of the profile, its first height again at the end."""
    n = np.arange(math.ceil(band[0] * length), int(band[1] * length) + 1) / length
    amplitude = np.sqrt(2 * spectrum(roughness, n) / length)
    phase = np.random.default_rng(seed).uniform(0, 2 * np.pi, len(n))
    # Sampled finely by one inverse transform, then read between the samples: 565 cosines at each point cost more.
    samples = 1 << math.ceil(math.log2(length * band[1] * SAMPLES_A_WAVE))
    bins = np.zeros(samples // 2 + 1, dtype=complex)
    bins[np.rint(n * length).astype(int)] = amplitude * np.exp(1j * phase) * samples / 2
    height = np.fft.irfft(bins, samples)
    closed = np.append(height, height[0])
    closed.flags.writeable = False
    return closed


#: parameters of the weighting Wk: corner frequencies f1-f6 [Hz] and Q4-Q6; ISO 2631-1:1997, annex A
_F1, _F2, _F3, _F4, _F5, _F6 = 0.4, 100.0, 12.5, 12.5, 2.37, 3.35
_Q4, _Q5, _Q6 = 0.63, 0.91, 0.91
_ALMOST_ZERO = 1e-9  #: in the place of a mean, which weighs nothing [Hz]


def felt_weighting(frequency: ArrayLike) -> FloatArray:
    """Return the weighting Wk of vertical acceleration, of the shape of the frequencies; ISO 2631-1:1997, annex A.

    Parameters
    ----------
    frequency
        Any shape. [Hz]

    Examples
    --------
    >>> felt_weighting([1.0, 5.0, 40.0]).round(2).tolist()
    [0.48, 1.04, 0.31]
    """
    f = np.maximum(np.asarray(frequency, dtype=float), _ALMOST_ZERO)
    s = 2j * np.pi * f
    w1, w2, w3, w4, w5, w6 = (2 * np.pi * x for x in (_F1, _F2, _F3, _F4, _F5, _F6))
    high = s**2 / (s**2 + math.sqrt(2) * w1 * s + w1**2)
    low = w2**2 / (s**2 + math.sqrt(2) * w2 * s + w2**2)
    transition = (1 + s / w3) / (1 + s / (_Q4 * w4) + (s / w4) ** 2)
    step = (1 + s / (_Q5 * w5) + (s / w5) ** 2) / (1 + s / (_Q6 * w6) + (s / w6) ** 2) * (w5 / w6) ** 2
    return np.asarray(np.abs(high * low * transition * step))


def felt_acceleration(acceleration: ArrayLike, step: float) -> float:
    """Return the rms of a vertical acceleration record weighted by Wk, as if it went on periodically. [m/s²]

    Parameters
    ----------
    acceleration
        Shape (n,). [m/s²]
    step
        Time between samples. [s]
    """
    a = np.asarray(acceleration, dtype=float)
    bins = np.fft.rfft(a) * felt_weighting(np.fft.rfftfreq(len(a), step))
    power = np.abs(bins) ** 2
    doubled = 2 * power.sum() - power[0] - (power[-1] if len(a) % 2 == 0 else 0.0)
    return float(math.sqrt(doubled)) / len(a)
