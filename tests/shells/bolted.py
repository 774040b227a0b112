"""Bolted crossmembers. A bolt is a square of its washer's area, inside which both plates move as one rigid body.

That is the clamped cone under a tightened bolt. Holes, slip and contact beyond the washers are left out: plates that
would bear on each other beside the bolts pass freely, so the joint is on the soft side.
"""

import math

import numpy as np

from crossmembers import across, add_channel
from lines import lines, with_middles

TOLERANCE_M = 1e-6


def square(washer_diameter):
    """Half a side of the square that has the washer's area."""
    return washer_diameter * math.sqrt(math.pi) / 4


def around(centres, half):
    return sorted({centre + step for centre in centres for step in (-half, 0, half)})


class Bolted:
    """The channel of a bolted joint, and half a side of the bolts' squares."""

    def __init__(self, part, rail, box):
        if box is not None:
            raise ValueError(f"{part['id']}: bolted to a boxed rail is not modelled")
        self.part, self.rail = part, rail
        self.t = part["thickness_m"]
        self.h, self.b = part["depth_m"] - self.t, part["flange_m"] - self.t / 2
        self.station = part["station_m"]
        self.edge = self.station + {"aft": 1, "forward": -1}[part["opens"]] * self.b
        self.half = square(part["washer_diameter_m"])
        self.web_squares, self.plate_squares = [], []


class BoltedPlate(Bolted):
    """A channel welded all round to a plate, which lies on the rail's web and is bolted to it.

    `plate`: thickness_m, depth_m (centred on the crossmember's height), fore_m and aft_m (how far it runs past the
    channel's web mid-plane). `bolts`: [station from the channel's web mid-plane, height from its middle].
    """

    def __init__(self, part, rail, box, _):
        super().__init__(part, rail, box)
        self.plate = part["plate"]
        self.height = part.get("height_m", 0.0)
        self.fore, self.aft = self.station - self.plate["fore_m"], self.station + self.plate["aft_m"]
        self.low = self.height - self.plate["depth_m"] / 2
        self.high = self.height + self.plate["depth_m"] / 2
        if not (self.fore < min(self.station, self.edge) and max(self.station, self.edge) < self.aft):
            raise ValueError(f"{part['id']}: the plate does not reach past the channel")
        if max(self.high, -self.low) > rail.web_top:
            raise ValueError(f"{part['id']}: the plate does not lie on the flat of the web")
        half = self.half
        bolts = [(self.station + s, self.height + z) for s, z in part["bolts"]]
        self.stations = [self.fore, self.station, self.edge, self.aft, *around([s for s, _ in bolts], half)]
        self.heights = [self.low, self.height - self.h / 2, self.height + self.h / 2, self.high,
                        *around([z for _, z in bolts], half)]
        self.insets = []
        self.inset = (rail.t + self.plate["thickness_m"]) / 2
        reach = half + TOLERANCE_M
        self.ties = [((s - reach, -TOLERANCE_M, z - reach), (s + reach, self.inset + TOLERANCE_M, z + reach))
                     for s, z in bolts]

    def add(self, mesh, grid):
        stations = with_middles(grid.between("stations", self.fore, self.aft))
        heights = with_middles(grid.between("heights", self.low, self.high))
        mesh.add(grid.rail.place(stations[:, None], self.inset, heights[None]), self.plate["thickness_m"],
                 f"{self.part['id']} plate")
        insets = across(grid, self.inset)
        add_channel(mesh, grid, self, insets, insets,
                    grid.between("heights", self.height - self.h / 2, self.height + self.h / 2))


class BoltedFlanges(Bolted):
    """A channel whose flanges lie inside the rail's and are bolted to them; its web stays clear of the rail's web.

    `gap_m`: from the rail's web mid-plane to the channel's end. `bolts`: [station from the channel's web mid-plane,
    inset from the rail's web mid-plane], the same above and below. `depth_m` must fit between the rail's flanges.
    """

    def __init__(self, part, rail, box, _):
        super().__init__(part, rail, box)
        if abs(rail.h - rail.t - self.t - self.h) > TOLERANCE_M:
            raise ValueError(f"{part['id']}: its flanges do not lie on the rail's")
        half = self.half
        bolts = [(self.station + s, inset) for s, inset in part["bolts"]]
        self.stations = [self.station, self.edge, *around([s for s, _ in bolts], half)]
        self.heights = []
        self.gap = part["gap_m"]
        self.insets = [self.gap, *around([inset for _, inset in bolts], half)]
        reach = half + TOLERANCE_M
        self.ties = []
        for low, high in ((-rail.h / 2, -self.h / 2), (self.h / 2, rail.h / 2)):
            self.ties += [((s - reach, i - reach, low - TOLERANCE_M), (s + reach, i + reach, high + TOLERANCE_M))
                          for s, i in bolts]

    def add(self, mesh, grid):
        insets = np.concatenate([grid.between("insets", self.gap, self.rail.b), across(grid, self.rail.b)[1:]])
        add_channel(mesh, grid, self, insets, insets, lines([-self.h / 2, 0, self.h / 2], grid.size))
