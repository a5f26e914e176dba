r"""The equations of motion at large angles, in the fewest coordinates, for any number of settings side by side.

Body: x ahead and z up of its centre of gravity, θ nose up. Wheel centres, in axes of the body (1 ahead, 2 up):
:math:`A_i = a_i + \xi_i(u_i)`, :math:`B_i = -d_i + u_i`, u the wheel travel from rest, compression positive; ξ is how
far the links lead the wheel ahead, φ how far they turn an axle that holds the driving torque, both over travel. By
virtual work, with :math:`p = (\xi', 1)` the path, :math:`t = (-B, A)`, :math:`n = (1, -\xi')/|p|` across the path, b
the acceleration at :math:`\ddot q = 0`, F the forces at the wheel centre, S the suspension and T the driving torque:

.. math::
    (m_s 1 + \sum m n n^T)\,\ddot c + \sum m n (n t)\,\ddot\theta &= m_s g + \sum F - \sum m n (n b) - \sum p R/p^2 \\
    \sum m (n t)\, n \ddot c + (I + \sum m (n t)^2)\,\ddot\theta &= \sum F t + T - \sum m (n t)(n b) - \sum (p t) R/p^2
    + M \\
    m p^2 \ddot u &= R - m\,p (\ddot c + t\,\ddot\theta + b), \qquad R = F p - S + T \varphi'

M is the moment of a wheelie bar. All is arithmetic on numbers or on arrays of one shape.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

Value = Any  #: a number, or an array of shape (m,): one a setting


class Path(NamedTuple):
    """Where an axle's links lead its wheels: derivatives over travel at a travel."""

    ahead: Value  #: ξ [m]
    slope: Value  #: ξ' [1]
    bend: Value  #: ξ'' [1/m]
    turn: Value  #: φ', of the torque-bearing axle against the body, nose up [rad/m]


class AxleState(NamedTuple):
    """One axle at one moment."""

    place: float  #: of the axle ahead of the centre of gravity of the sprung body at rest [m]
    depth: float  #: of the wheel centre below it [m]
    mass: float  #: unsprung [kg]
    travel: Value
    rate: Value
    path: Path


class Push(NamedTuple):
    """What acts on one axle."""

    ahead: Value  #: on the wheel centre, along the ground [N]
    up: Value  #: on the wheel centre, weight included [N]
    suspension: Value  #: between wheel and body, pushing them apart [N]
    torque: Value  #: that drives the wheels, held by the links or by the body [N·m]


class Angle(NamedTuple):
    """The body's attitude."""

    sine: Value
    cosine: Value
    rate: Value  #: [rad/s]


class Accelerations(NamedTuple):
    """Of the coordinates."""

    x: Value
    z: Value
    pitch: Value
    front: Value  #: of the travel
    rear: Value


def wheel_centre(axle: AxleState, angle: Angle) -> tuple[Value, Value, Value, Value]:
    """Return where a wheel centre lies from the centre of gravity, ahead and up, and how fast it moves from it.

    Returns
    -------
    :
        Ahead [m], up [m], and their rates [m/s], of the shape of the state.
    """
    s, c = angle.sine, angle.cosine
    along, above = axle.place + axle.path.ahead, axle.travel - axle.depth
    v1 = axle.path.slope * axle.rate - angle.rate * above
    v2 = axle.rate + angle.rate * along
    return c * along - s * above, s * along + c * above, c * v1 - s * v2, s * v1 + c * v2


class _Row(NamedTuple):
    """What one axle adds to the body's equations, in axes of the body."""

    n1: Value
    n2: Value
    nt: Value
    force: tuple[Value, Value, Value]
    right: Value  #: R
    t: tuple[Value, Value]
    bias: tuple[Value, Value]
    p2: Value


def _row(axle: AxleState, angle: Angle, push: Push) -> _Row:
    s, c, w = angle.sine, angle.cosine, angle.rate
    along, above, slope = axle.place + axle.path.ahead, axle.travel - axle.depth, axle.path.slope
    p2 = 1.0 + slope * slope
    root = np.sqrt(p2)
    n1, n2 = 1.0 / root, -slope / root
    t1, t2 = -above, along
    nt = n1 * t1 + n2 * t2
    b1 = -w * w * along - 2.0 * w * axle.rate + axle.rate * axle.rate * axle.path.bend
    b2 = -w * w * above + 2.0 * w * axle.rate * slope
    nb = axle.mass * (n1 * b1 + n2 * b2)
    f1, f2 = c * push.ahead + s * push.up, c * push.up - s * push.ahead
    right = f1 * slope + f2 - push.suspension + push.torque * axle.path.turn
    share = right / p2
    force = (
        f1 - n1 * nb - slope * share,
        f2 - n2 * nb - share,
        f1 * t1 + f2 * t2 + push.torque - nt * nb - (slope * t1 + t2) * share,
    )
    return _Row(n1, n2, nt, force, right, (t1, t2), (b1, b2), p2)


def accelerations(
    body: tuple[float, float], axles: tuple[AxleState, AxleState], angle: Angle, pushes: tuple[Push, Push],
    other: tuple[Value, Value, Value],
) -> Accelerations:  # fmt: skip
    """Return the accelerations of the car.

    Parameters
    ----------
    body
        Sprung mass and pitch inertia. [kg, kg·m²]
    axles, angle, pushes
        Front and rear, and the attitude, at one moment.
    other
        Forces on the body besides, ahead and up, weight included, and their moment nose up. [N, N, N·m]
    """
    mass, inertia = body
    f, r = (_row(axle, angle, push) for axle, push in zip(axles, pushes, strict=True))
    mf, mr = axles[0].mass, axles[1].mass
    m11 = mass + mf * f.n1 * f.n1 + mr * r.n1 * r.n1
    m12 = mf * f.n1 * f.n2 + mr * r.n1 * r.n2
    m22 = mass + mf * f.n2 * f.n2 + mr * r.n2 * r.n2
    m13 = mf * f.n1 * f.nt + mr * r.n1 * r.nt
    m23 = mf * f.n2 * f.nt + mr * r.n2 * r.nt
    m33 = inertia + mf * f.nt * f.nt + mr * r.nt * r.nt
    s, c = angle.sine, angle.cosine
    q1 = f.force[0] + r.force[0] + c * other[0] + s * other[1]
    q2 = f.force[1] + r.force[1] + c * other[1] - s * other[0]
    q3 = f.force[2] + r.force[2] + other[2]
    c11, c12, c13 = m22 * m33 - m23 * m23, m13 * m23 - m12 * m33, m12 * m23 - m13 * m22
    c22, c23, c33 = m11 * m33 - m13 * m13, m12 * m13 - m11 * m23, m11 * m22 - m12 * m12
    whole = m11 * c11 + m12 * c12 + m13 * c13
    a1 = (c11 * q1 + c12 * q2 + c13 * q3) / whole
    a2 = (c12 * q1 + c22 * q2 + c23 * q3) / whole
    turn = (c13 * q1 + c23 * q2 + c33 * q3) / whole
    out = []
    for axle, row in zip(axles, (f, r), strict=True):
        g1, g2 = a1 + turn * row.t[0] + row.bias[0], a2 + turn * row.t[1] + row.bias[1]
        out.append((row.right / axle.mass - axle.path.slope * g1 - g2) / row.p2)
    return Accelerations(c * a1 - s * a2, s * a1 + c * a2, turn, out[0], out[1])
