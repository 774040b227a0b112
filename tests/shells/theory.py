"""Thin-walled beam theory of a channel, by its midlines: what the shells of a lone member must come near.

Closed forms; [Vlasov] Thin-Walled Elastic Beams, 2nd ed. 1961, from memory, worked out again.
"""

import math
from dataclasses import dataclass


@dataclass
class Section:
    """`e`: the shear centre behind the web's mid-plane, away from the flanges; `c`: the centroid before it."""

    A: float
    I_y: float  # About the level axis.
    I_z: float  # About the upright axis.
    J: float
    C_w: float
    c: float
    e: float
    omega_edge: float  # Sectorial coordinate at the edge of a flange, absolute.


def channel(h, b, t):
    """Sharp corners; h between the flanges' mid-planes, b from the web's mid-plane to the edges."""
    A = t * (h + 2 * b)
    c = b * b * t / A
    I_y = t * h ** 3 / 12 + 2 * (b * t * h * h / 4 + b * t ** 3 / 12)
    I_z = h * t ** 3 / 12 + 2 * t * b ** 3 / 3 - A * c * c
    I_line = t * h ** 3 / 12 + b * t * h * h / 2
    e = b * b * h * h * t / (4 * I_line)
    C_w = t * h * h * b ** 3 / 12 * (3 * b + 2 * h) / (6 * b + h)
    return Section(A, I_y, I_z, (h + 2 * b) * t ** 3 / 3, C_w, c, e, h / 2 * (b - e))


def box_torsion_constant(h, w, t, plate):
    """Bredt and St Venant: h by w between midlines, three walls t and a plate."""
    return 4 * (h * w) ** 2 / ((h + 2 * w) / t + h / plate) + (h + 2 * w) * t ** 3 / 3 + h * plate ** 3 / 3


def torsion_factor(length, GJ, EC_w):
    """Stiffness of a bar whose ends may not warp, over GJ / length."""
    a = math.sqrt(EC_w / GJ)
    return 1 / (1 - 2 * a / length * math.tanh(length / (2 * a)))
