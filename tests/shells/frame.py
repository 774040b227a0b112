"""A ladder frame's mesh from its description (cases/*.json; README.md says what the entries mean)."""

from dataclasses import dataclass

import numpy as np

from bolted import BoltedFlanges, BoltedPlate
from crossmembers import Channel, FlatChannel, Tube
from lines import graded
from mesh import Mesh
from rail import Grid, Rail, add_plate, add_rail, plate_inset

KINDS = {"channel": Channel, "flat_channel": FlatChannel, "tube": Tube, "bolted_plate": BoltedPlate,
         "bolted_flanges": BoltedFlanges}
DENSITIES = {"coarse": 1.5, "medium": 1.0, "fine": 0.7}
CELLS_ON_DEPTH = 16  # Of a rail's web, medium.
SLIVER = 0.2  # Cells narrower than this, of the size wanted, are refused.


@dataclass
class Frame:
    """The left half of a frame, cut at y = 0. `ties` are sets of nodes that a bolt moves as one."""

    case: dict
    rail: Rail
    mesh: Mesh
    ties: list

    def web_line(self, station):
        """(nodes, their shares of an even load) down the flat of the rail's web."""
        nodes = self.mesh.nodes
        at = np.flatnonzero((abs(nodes[:, 0] + station) < 1e-6) & (abs(nodes[:, 1] - self.rail.half_width) < 1e-6)
                            & (abs(nodes[:, 2]) < self.rail.web_top + 1e-6))
        at = at[np.argsort(nodes[at, 2])]
        heights = nodes[at, 2]
        whole = len(at) > 2 and abs(heights[-1] - heights[0] - 2 * self.rail.web_top) < 1e-6
        if not whole or max(abs(heights[1::2] * 2 - heights[:-1:2] - heights[2::2])) > 1e-6:
            raise ValueError(f"no plain line of nodes down the web at station {station}")
        shares = np.zeros(len(at))
        for k in range(0, len(at) - 2, 2):  # An even load on a quadratic edge.
            shares[k:k + 3] += np.array([1, 4, 1]) / 6 * (heights[k + 2] - heights[k])
        return at, shares / shares.sum()


def box_at(case, low, high, name):
    """The boxed stretch around the stations, if any; joints may not straddle its end."""
    for box in case.get("boxing", []):
        if box["from_m"] <= low and high <= box["to_m"]:
            return box
        if low < box["to_m"] and box["from_m"] < high:
            raise ValueError(f"{name}: straddles the end of a boxed stretch")
    return None


def part_range(part):
    """Stations that a crossmember's joint covers."""
    at = part["station_m"]
    if part["kind"] == "tube":
        return at - part["outside_diameter_m"] / 2, at + part["outside_diameter_m"] / 2
    if part["kind"] == "flat_channel":
        return at - part["depth_m"] / 2, at + part["depth_m"] / 2
    width = part["flange_m"] * (1 if part["opens"] == "aft" else -1)
    return min(at, at + width), max(at, at + width)


def make_frame(case, density):
    """The left rail and the crossmembers' left halves."""
    rail = Rail(case["rail"], case["web_to_web_m"])
    size = rail.h / CELLS_ON_DEPTH * DENSITIES[density]
    boxes = case.get("boxing", [])
    parts = []
    for part in sorted(case["crossmembers"], key=lambda p: p["kind"] == "tube"):  # Tubes take to others' lines.
        heights = [z for other in parts for z in other.heights]
        parts.append(KINDS[part["kind"]](part, rail, box_at(case, *part_range(part), part["id"]), heights))
    joints = [s for part in parts for s in part.stations] + [s for box in boxes for s in (box["from_m"], box["to_m"])]
    stress_points = case.get("stress_points", [])
    points = [*case["stations_m"].values(), *[point["station_m"] for point in stress_points]]
    middles = [rail.b_middle] if any(point["at"].endswith("_middle") for point in stress_points) else []
    features = [(s, size) for s in joints] + [(s, 1.5 * size) for s in points]
    grid = Grid(rail, [0, rail.length, *joints, *points], [z for part in parts for z in part.heights],
                [i for part in parts for i in part.insets] + [plate_inset(rail, box) for box in boxes] + middles,
                size, graded(features, 3 * size))
    for which in (grid.stations, grid.heights):
        if min(np.diff(which)) < SLIVER * size:
            raise ValueError(f"mesh lines {min(np.diff(which)):.4g} m apart: move a part or a station")
    mesh = Mesh()
    add_rail(mesh, grid, [s for part in parts for s in part.web_squares])
    for box in boxes:
        add_plate(mesh, grid, box, [s for part in parts for s in part.plate_squares
                                    if box["from_m"] <= s[0] and s[1] <= box["to_m"]])
    for part in parts:
        part.add(mesh, grid)
    mesh.merge()
    places = np.stack([-mesh.nodes[:, 0], rail.half_width - mesh.nodes[:, 1], mesh.nodes[:, 2]], axis=-1)
    ties = [np.flatnonzero(((low <= places) & (places <= high)).all(axis=1)) for part in parts for low, high in part.ties]
    if mesh.count_pieces(ties) != 1:
        raise ValueError("the frame does not hang together")
    return Frame(case, rail, mesh, ties)
