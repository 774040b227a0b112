"""The left rail, its boxing plates, and how a place on the frame becomes a point.

Places are (station, inset, height): station aft of the rail's front end, inset from the web's mid-plane
towards the middle of the frame, height above mid-depth. Points are (x, y, z), x forward, y left, z up.
"""

import math

import numpy as np

from lines import index_of, lines, unique, with_middles

ARC_CELLS = 2  # Of a bend.


class Rail:
    """A channel by outside sizes, its walls on their midlines: depth `h`, flange `b` from web mid-plane to edge."""

    def __init__(self, sizes, web_to_web):
        self.t = sizes["thickness_m"]
        self.h = sizes["depth_m"] - self.t
        self.b = sizes["flange_m"] - self.t / 2
        self.b_middle = self.b / 2
        self.length = sizes["length_m"]
        radius = sizes.get("inside_radius_m", 0)
        self.bend = radius + self.t / 2 if radius else 0.0
        self.web_top = self.h / 2 - self.bend  # Where the flat of the web ends.
        self.half_width = web_to_web / 2

    def place(self, station, inset, height):
        """Points of places; arrays broadcast."""
        station, inset, height = np.broadcast_arrays(station, inset, height)
        return np.stack([-station, self.half_width - inset, height], axis=-1).astype(float)

    def path(self, insets, heights):
        """(points (inset, height), region of each cell) around the section from lower to upper flange edge."""
        points, regions = [], []

        def go(inset, height, region):
            points.extend(zip(*np.broadcast_arrays(inset, height)) if not points
                          else list(zip(*np.broadcast_arrays(inset, height)))[1:])
            regions.extend([region] * (len(np.broadcast_arrays(inset, height)[0]) // 2))

        def bend(sign):
            angle = np.linspace(0, math.pi / 2, 2 * ARC_CELLS + 1)
            inset = self.bend * (1 - np.sin(angle))
            height = sign * (self.web_top + self.bend * np.cos(angle))
            return (inset, height) if sign < 0 else (inset[::-1], height[::-1])

        flange, web = with_middles(insets), with_middles(heights)
        go(flange[::-1], -self.h / 2, "left lower flange")
        if self.bend:
            go(*bend(-1), "left lower bend")
        go(0.0, web, "left web")
        if self.bend:
            go(*bend(1), "left upper bend")
        go(flange, self.h / 2, "left upper flange")
        return np.array(points), regions


class Grid:
    """Mesh lines of a rail: `stations` along it, `heights` on the web's flat, `insets` on the flanges' flat."""

    def __init__(self, rail, stations, heights, insets, size, station_size):
        self.rail, self.size = rail, size
        self.stations = lines(stations, station_size)
        self.heights = lines([-rail.web_top, 0, rail.web_top, *heights], size)
        self.insets = lines([rail.bend, rail.b, *insets], size)

    def between(self, which, low, high):
        """The lines from one break to another."""
        corners = getattr(self, which)
        return corners[index_of(corners, low):index_of(corners, high) + 1]

    def cells_in(self, squares, heights):
        """(stations, heights) cells inside any of the squares (station low, high, height low, high)."""
        s = (self.stations[1:] + self.stations[:-1]) / 2
        z = (heights[1:] + heights[:-1]) / 2
        inside = np.zeros((len(s), len(z)), bool)
        for s0, s1, z0, z1 in squares:
            inside |= ((s0 < s) & (s < s1))[:, None] & ((z0 < z) & (z < z1))[None]
        return inside


def add_rail(mesh, grid, squares):
    """The channel, its web without the cells inside the squares."""
    rail = grid.rail
    path, regions = rail.path(grid.insets, grid.heights)
    stations = with_middles(grid.stations)
    lattice = rail.place(stations[:, None], path[None, :, 0], path[None, :, 1])
    keep = np.ones((len(grid.stations) - 1, len(regions)), bool)
    web = [k for k, region in enumerate(regions) if region == "left web"]
    keep[:, web] = ~grid.cells_in(squares, grid.heights)
    mesh.add(lattice, rail.t, np.broadcast_to(np.array(regions, object), keep.shape), keep)


def plate_heights(grid):
    """Lines of a boxing plate: those of the web, carried on to the flanges' mid-planes."""
    rail = grid.rail
    ends = lines([rail.web_top, rail.h / 2], grid.size) if rail.bend else []
    return np.array(unique([*grid.heights, *ends, *[-z for z in ends]]))


def add_plate(mesh, grid, box, squares):
    """A boxing plate from one flange's mid-plane to the other's, without the cells inside the squares."""
    heights = plate_heights(grid)
    low, high = index_of(grid.stations, box["from_m"]), index_of(grid.stations, box["to_m"])
    lattice = grid.rail.place(with_middles(grid.stations[low:high + 1])[:, None], plate_inset(grid.rail, box),
                              with_middles(heights)[None])
    mesh.add(lattice, box["thickness_m"], "left plate", ~grid.cells_in(squares, heights)[low:high])


def plate_inset(rail, box):
    """Inset of the mid-plane of a plate between the flanges, its outer face flush with their edges."""
    return rail.b - box["thickness_m"] / 2
