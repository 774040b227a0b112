"""A plain thin-walled beam model, dense matrices: what joint springs are drawn out of shells with.

Independent of the program's own solver. Exact elements: stretch at the centroid, Timoshenko bending, Vlasov's torsion about the
shear centre. A section is level-symmetric (about its y axis): y and z are principal, all lines in the x-y plane.
Freedoms of a joint: 3 displacements, 3 turns (global axes); the twist rate of a beam's end is a freedom of its own.
"""

from dataclasses import dataclass

import numpy as np


@dataclass
class Section:
    A: float
    I_y: float
    I_z: float
    J: float
    C_w: float  # 0: does not warp.
    y_C: float  # Centroid from O.
    y_S: float  # Shear centre from O.
    A_y: float  # Shear areas.
    A_z: float
    web_turn: float = 0.0  # Slope of the sectorial coordinate along an upright wall at O, m.


def open_section(path, t):
    """Of a bent sheet of even thickness along a path (n, 2) of (y, z), symmetric about z = 0, through O = (0, 0)."""
    d = np.diff(path, axis=0)
    length = np.linalg.norm(d, axis=1)
    middle = (path[1:] + path[:-1]) / 2

    def product(f, g):  # Of two functions linear on each piece.
        a, b = f[:-1], f[1:]
        c, e = g[:-1], g[1:]
        return t * np.sum(length * (2 * a * c + 2 * b * e + a * e + b * c) / 6)

    A = t * length.sum()
    y, z = path.T
    y_C = t * np.sum(length * middle[:, 0]) / A
    I_y, I_z = product(z, z), product(y - y_C, y - y_C)
    arm = middle[:, 0] * d[:, 1] - middle[:, 1] * d[:, 0]  # Times length: grows w about O.
    w = np.concatenate([[0], np.cumsum(arm)])
    w -= t * np.sum(length * (w[1:] + w[:-1]) / 2) / A
    y_S = product(w, z) / I_y
    w_S = w - y_S * z
    across = t ** 3 / 12  # What the thickness adds to second moments.
    I_y += across * np.sum(d[:, 0] ** 2 / length)
    I_z += across * np.sum(d[:, 1] ** 2 / length)
    A_y = 5 / 6 * t * np.sum(d[:, 0] ** 2 / length)
    A_z = t * np.ptp(z)
    return Section(A, I_y, I_z, length.sum() * t ** 3 / 3, product(w_S, w_S), y_C, y_S, A_y, A_z, -y_S)


def tube(r, t):
    I = np.pi * r * t * (r * r + t * t / 4)
    return Section(2 * np.pi * r * t, I, I, 2 * I, 0.0, 0.0, 0.0, np.pi * r * t, np.pi * r * t)


def channel_path(h, b, bend=0.0):
    """From the lower to the upper flange's edge, opening to +y."""
    angle = np.linspace(0, np.pi / 2, 17)
    arc = np.stack([bend * (1 - np.sin(angle)), h / 2 - bend + bend * np.cos(angle)], axis=-1) if bend else \
        np.array([[0.0, h / 2]])
    upper = np.vstack([[[0.0, 0.0]], arc[::-1] if bend else arc, [[b, h / 2]]])
    return np.vstack([upper[:0:-1] * [1, -1], upper])


def bending(EI, GA, L):
    """On (v, turn) at both ends, v'= turn."""
    p = 12 * EI / (GA * L * L)
    k = np.array([[12, 6 * L, -12, 6 * L], [6 * L, (4 + p) * L * L, -6 * L, (2 - p) * L * L],
                  [-12, -6 * L, 12, -6 * L], [6 * L, (2 - p) * L * L, -6 * L, (4 + p) * L * L]])
    return EI / (L ** 3 * (1 + p)) * k


def torsion(GJ, EC_w, L):
    """On (twist, twist rate) at both ends, from 1, x, cosh, sinh."""
    if not EC_w:
        k = np.zeros((4, 4))
        k[np.ix_([0, 2], [0, 2])] = GJ / L * np.array([[1, -1], [-1, 1]])
        return k
    n = np.sqrt(GJ / EC_w)
    c, s = np.cosh(n * L), np.sinh(n * L)
    ends = np.array([[1, 0, 1, 0], [0, 1, 0, n], [1, L, c, s], [0, 1, n * s, n * c]])
    forces = np.array([[0, -GJ, 0, 0], [0, 0, -EC_w * n * n, 0],
                       [0, GJ, 0, 0], [0, 0, EC_w * n * n * c, EC_w * n * n * s]])
    k = forces @ np.linalg.inv(ends)
    return (k + k.T) / 2


class Beams:
    """Assembles beams and springs on freedoms; `follow` makes freedoms combinations of others."""

    def __init__(self, E, nu):
        self.E, self.G = E, E / (2 + 2 * nu)
        self.count = 0
        self.pieces = []
        self.followers = {}
        self.held = []

    def freedoms(self, count):
        self.count += count
        return list(range(self.count - count, self.count))

    def follow(self, freedom, terms):
        """freedom = sum of factor times another (not itself a follower)."""
        self.followers[freedom] = terms

    def hold(self, freedoms):
        self.held += freedoms

    def spring(self, freedoms, k):
        self.pieces.append((list(freedoms), np.atleast_2d(k)))

    def beam(self, section, start, end, joints, rates, y_axis):
        """O runs from start to end; `joints` the two lists of six freedoms, at the ends; `rates` the two twist rates or None."""
        E, G, s = self.E, self.G, section
        x_axis = (end - start) / np.linalg.norm(end - start)
        R = np.stack([x_axis, y_axis, np.cross(x_axis, y_axis)])
        L = np.linalg.norm(end - start)
        k = np.zeros((14, 14))  # u_C, v_S, w_S, turns x y z, rate at both ends.
        k[np.ix_([0, 7], [0, 7])] = E * s.A / L * np.array([[1, -1], [-1, 1]])
        k[np.ix_([1, 5, 8, 12], [1, 5, 8, 12])] += bending(E * s.I_z, G * s.A_y, L)
        sign = np.diag([1, -1, 1, -1])  # w' = -turn about y.
        k[np.ix_([2, 4, 9, 11], [2, 4, 9, 11])] += sign @ bending(E * s.I_y, G * s.A_z, L) @ sign
        k[np.ix_([3, 6, 10, 13], [3, 6, 10, 13])] += torsion(G * s.J, E * s.C_w, L)
        end_T = np.eye(7)
        end_T[0, 5] = -s.y_C
        end_T[2, 3] = s.y_S
        rotate = np.eye(7)
        rotate[:3, :3] = rotate[3:6, 3:6] = R
        T = np.kron(np.eye(2), end_T @ rotate)
        ids = []
        for joint, rate in zip(joints, rates):
            ids += [*joint, self.freedoms(1)[0] if rate is None and s.C_w else rate]
        k = T.T @ k @ T
        used = [i for i, f in enumerate(ids) if f is not None]
        self.pieces.append(([ids[i] for i in used], k[np.ix_(used, used)]))

    def compliance(self, freedoms):
        """Displacements at freedoms under unit loads on them."""
        T = np.eye(self.count)
        for freedom, terms in self.followers.items():
            T[freedom] = 0
            for other, factor in terms:
                T[freedom, other] += factor
        free = [f for f in range(self.count) if f not in self.followers and f not in self.held]
        T = T[:, free]
        K = np.zeros((self.count, self.count))
        for ids, k in self.pieces:
            K[np.ix_(ids, ids)] += k
        load = T[freedoms].T
        return T[freedoms] @ np.linalg.solve(T.T @ K @ T, load)
