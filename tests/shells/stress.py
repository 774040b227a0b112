"""Stress at a named point of the left rail: fitted to the integration points of the elements around it."""

import numpy as np

FLANGES = {"upper_edge": ("upper flange", 1, "b"), "lower_edge": ("lower flange", -1, "b"),
           "upper_corner": ("upper flange", 1, "bend"), "lower_corner": ("lower flange", -1, "bend"),
           "upper_middle": ("upper flange", 1, "b_middle"), "lower_middle": ("lower flange", -1, "b_middle")}


class Point:
    """`at`: the edge of a flange, its middle, or where its flat meets the web (or the bend), on the mid-surface.

    Twisted plates have an edge layer about their thickness wide, which no mesh here is fine enough for: von Mises' stress
    in torsion goes down with the mesh at edges and corners and stands only in the middle.
    """

    def __init__(self, frame, point):
        rail, mesh = frame.rail, frame.mesh
        word, sign, inset = FLANGES[point["at"]]
        self.id = point["id"]
        self.where = rail.place(point["station_m"], getattr(rail, inset), sign * rail.h / 2)
        node = mesh.find(self.where)
        in_region = mesh.region == f"left {word}"
        self.elements = np.flatnonzero(in_region & (mesh.elements == node).any(axis=1))
        self.thickness = rail.t

    def stress(self, answer, step):
        return stress_at(self.where, self.thickness, self.elements, answer, step)


def stress_at(where, thickness, elements, answer, step):
    """(axial at mid-surface, larger von Mises of the two faces) at a point of a wall in the x-y plane.

    Least squares over the integration points of the elements around: bilinear in the plane, linear through it. At a
    face only what lies in its plane counts.
    """
    d = np.vstack([answer.points[e] for e in elements]) - where
    size = abs(d[:, :2]).max(axis=0)
    x, y, z = d[:, 0] / size[0], d[:, 1] / size[1], d[:, 2] / (thickness / 2)
    basis = np.column_stack([np.ones_like(x), x, y, x * y, z])
    values = np.vstack([answer.stress[step][e] for e in elements])[:, [0, 1, 3]]
    fit = np.linalg.lstsq(basis, values, rcond=None)[0]
    return float(fit[0, 0]), max(von_mises(*(fit[0] + face * fit[4])) for face in (-1, 1))


def von_mises(xx, yy, xy):
    return float(np.sqrt(xx ** 2 - xx * yy + yy ** 2 + 3 * xy ** 2))
