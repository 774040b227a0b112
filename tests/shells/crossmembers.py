"""Crossmembers, from the left rail to the middle of the frame (y = 0).

Made from a part of the description, the rail, the boxed stretch it is in (or None) and the heights that the web's mesh
has lines at anyway. Each kind has the same face: `stations`, `heights`, `insets` (breaks that the rail's grid must have),
`web_squares`, `plate_squares` (cells of web and plate that it replaces), `add(mesh, grid)`, and `ties`
(boxes, low and high place, whose nodes a bolt moves as one).
"""

import numpy as np

from lines import graded, lines, with_middles
from rail import plate_inset


LAYERS = 3  # Of elements around a tube at least: with 1 the web there is 9 % too stiff, with 2 0.7 %.


def across(grid, start, breaks=()):
    """Insets from `start` to the middle of the frame, fine at the start."""
    half = grid.rail.half_width
    return lines([start, *breaks, half], graded([(start, grid.size)], 3 * grid.size))


class Channel:
    """A channel welded all round to the face it meets: "web", "plate", or "flush": to web and both flanges.

    Flush: of the rail's midline depth; its web reaches the rail's web between the flanges and is welded to
    all three, its flanges are cut back and welded to the edges of the rail's.
    """

    def __init__(self, part, rail, box, _):
        self.part, self.rail, self.box = part, rail, box
        self.t = part["thickness_m"]
        self.weld = part["weld"]
        if (self.weld == "plate") != (box is not None):
            raise ValueError(f"{part['id']}: weld {self.weld}, but the rail is {'boxed' if box else 'open'} there")
        if self.weld == "flush" and rail.bend:
            raise ValueError(f"{part['id']}: flush with a rail that has bends is not modelled")
        self.h = rail.h if self.weld == "flush" else part["depth_m"] - self.t
        self.b = part["flange_m"] - self.t / 2
        aft = {"aft": 1, "forward": -1}[part["opens"]]
        self.station = part["station_m"]
        self.edge = self.station + aft * self.b
        self.stations = [self.station, self.edge]
        self.height = part.get("height_m", 0.0)
        self.heights = [] if self.weld == "flush" else [self.height - self.h / 2, self.height + self.h / 2]
        self.insets, self.web_squares, self.plate_squares, self.ties = [], [], [], []

    def add(self, mesh, grid):
        start = plate_inset(self.rail, self.box) if self.weld == "plate" else 0.0
        if self.weld == "flush":
            beyond = across(grid, self.rail.b)
            web = np.concatenate([grid.insets, beyond[1:]])
        else:
            beyond = web = across(grid, start)
        low, high = self.height - self.h / 2, self.height + self.h / 2
        add_channel(mesh, grid, self, web, beyond, grid.between("heights", low, high))


class FlatChannel:
    """A channel opening down, welded all round to the rail's web: `station_m` is its middle, `height_m` its web's mid-plane."""

    def __init__(self, part, rail, box, _):
        if box is not None:
            raise ValueError(f"{part['id']}: a flat channel on a boxed rail is not modelled")
        self.part, self.t = part, part["thickness_m"]
        half, self.top = (part["depth_m"] - self.t) / 2, part["height_m"]
        self.edge = self.top - part["flange_m"] + self.t / 2
        self.fore, self.aft = part["station_m"] - half, part["station_m"] + half
        self.stations, self.heights = [self.fore, part["station_m"], self.aft], [self.edge, self.top]
        self.insets, self.web_squares, self.plate_squares, self.ties = [], [], [], []

    def add(self, mesh, grid):
        place, name = grid.rail.place, self.part["id"]
        insets = with_middles(across(grid, 0.0))[:, None]
        stations = with_middles(grid.between("stations", self.fore, self.aft))
        heights = with_middles(grid.between("heights", self.edge, self.top))
        mesh.add(place(stations[None], insets, self.top), self.t, f"{name} web")
        for word, station in (("front", self.fore), ("rear", self.aft)):
            mesh.add(place(station, insets, heights[None]), self.t, f"{name} {word} flange")


def add_channel(mesh, grid, channel, web_insets, flange_insets, heights):
    """Web and flanges of a channel crossmember, mesh lines given."""
    place, name = grid.rail.place, channel.part["id"]
    web, flange = with_middles(web_insets), with_middles(flange_insets)
    mesh.add(place(channel.station, web[:, None], with_middles(heights)[None]), channel.t, f"{name} web")
    stations = with_middles(grid.between("stations", *sorted([channel.station, channel.edge])))
    for word, height in (("lower", heights[0]), ("upper", heights[-1])):
        mesh.add(place(stations[None], flange[:, None], height), channel.t, f"{name} {word} flange")


class Tube:
    """A round tube welded all round to the web, which has a hole of its mean radius; its end is flush with the web's
    mid-plane. In a boxed stretch it runs through the plate, in a hole of its own, welded there too."""

    def __init__(self, part, rail, box, heights):
        self.part, self.rail, self.box = part, rail, box
        self.t = part["thickness_m"]
        self.r = (part["outside_diameter_m"] - self.t) / 2
        self.station, self.height = part["station_m"], part.get("height_m", 0.0)
        reach = self.find_reach(heights)
        self.stations = [self.station - reach, self.station, self.station + reach]
        self.heights = [self.height - reach, self.height, self.height + reach]
        square = (self.stations[0], self.stations[2], self.heights[0], self.heights[2])
        self.web_squares = [square]
        self.plate_squares = [square] if box else []
        self.insets, self.ties = [], []

    def find_reach(self, heights):
        """Half the side of the square that is meshed around the tube; to lines that are there anyway, if they suit."""
        there = [abs(z - self.height) for z in heights if 1.25 * self.r < abs(z - self.height) < 1.7 * self.r
                 and any(abs(2 * self.height - z - other) < 1e-9 for other in heights)]
        room = self.rail.web_top - abs(self.height)
        reach = there[0] if there else min(1.5 * self.r, (self.r + room) / 2)
        if reach < 1.1 * self.r:
            raise ValueError(f"{self.part['id']}: no room for a mesh around the tube")
        return reach

    def ring(self, grid):
        """(around the square, around the circle): closed lattices of (station, height)."""
        s = with_middles(grid.between("stations", self.stations[0], self.stations[2]))
        z = with_middles(grid.between("heights", self.heights[0], self.heights[2]))
        outer = np.array([*((v, z[0]) for v in s), *((s[-1], v) for v in z[1:]),
                          *((v, z[-1]) for v in s[-2::-1]), *((s[0], v) for v in z[-2::-1])])
        angle = np.unwrap(np.arctan2(outer[:, 1] - self.height, outer[:, 0] - self.station))
        angle[1::2] = (angle[:-1:2] + angle[2::2]) / 2
        inner = np.stack([self.station + self.r * np.cos(angle), self.height + self.r * np.sin(angle)], axis=-1)
        inner[-1] = inner[0]
        return outer, inner

    def add(self, mesh, grid):
        place, name = grid.rail.place, self.part["id"]
        outer, inner = self.ring(grid)
        layers = max(LAYERS, round((self.heights[2] - self.height - self.r) / grid.size))
        share = np.linspace(0, 1, 2 * layers + 1)[None, :, None]
        around = inner[:, None] * (1 - share) + outer[:, None] * share
        mesh.add(place(around[..., 0], 0.0, around[..., 1]), self.rail.t, "left web")
        insets = across(grid, 0.0)
        if self.box:
            plate = plate_inset(self.rail, self.box)
            mesh.add(place(around[..., 0], plate, around[..., 1]), self.box["thickness_m"], "left plate")
            half = self.rail.half_width
            insets = lines([0.0, plate, half], graded([(0.0, grid.size), (plate, grid.size)], 3 * grid.size))
        mesh.add(place(inner[:, None, 0], with_middles(insets)[None], inner[:, None, 1]), self.t, f"{name} tube")
