"""Writes a shell model for CalculiX, runs it, reads displacements and stresses back."""

import os
import re
import subprocess
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

PER_LINE = 8  # Terms of an equation; ids of a set.


@dataclass
class Model:
    """Shells and what holds and loads them.

    `supports`: (node, axis 1..3, or 1..6 with rotations). `equations`: lists of (node, axis, factor) whose sum is zero, the
    first term given up. Nodes beyond the mesh's, made by `add_node`, are free freedoms for equations.
    `steps`: a list of loads, each a list of (node, axis, force); or `unit_forces`, a list of (node, axis), each a step of its own
    that costs next to nothing. `watched_nodes` and `watched_elements` are reported.
    """

    mesh: object
    E: float
    nu: float
    supports: list = field(default_factory=list)
    equations: list = field(default_factory=list)
    steps: list = field(default_factory=list)
    unit_forces: list = field(default_factory=list)
    watched_nodes: list = field(default_factory=list)
    watched_elements: list = field(default_factory=list)
    extra_nodes: list = field(default_factory=list)

    def add_node(self, point):
        self.extra_nodes.append(point)
        return len(self.mesh.nodes) + len(self.extra_nodes) - 1

    def add_rigid(self, nodes, centre, axes=(1, 2, 3)):
        """Makes the displacements of `nodes` along `axes` those of a rigid body; returns its (displacement node at the
        centre, rotation node, whose three displacements are rotations)."""
        moves, turns = self.add_node(centre), self.add_node(centre)
        for node in nodes:
            arm = self.mesh.nodes[node] - centre
            # u = moves + turns x arm
            turned = {1: [(2, arm[2]), (3, -arm[1])], 2: [(3, arm[0]), (1, -arm[2])], 3: [(1, arm[1]), (2, -arm[0])]}
            for axis in axes:
                self.equations.append([(node, axis, -1.0), (moves, axis, 1.0)] +
                                      [(turns, k, f) for k, f in turned[axis] if abs(f) > 1e-9])
        return moves, turns


@dataclass
class Answer:
    """`displacement[step][node]`; `stress[step][element]`: (8, 6) at integration points, xx yy zz xy xz yz, which lie at
    `points[element]` (8, 3)."""

    displacement: list
    stress: list
    points: dict
    version: str


def text_of(model):
    mesh = model.mesh
    out = ["*NODE, NSET=NALL"]
    points = np.vstack([mesh.nodes, *[np.reshape(p, (1, 3)) for p in model.extra_nodes]])
    out += [f"{i + 1}, {x:.10g}, {y:.10g}, {z:.10g}" for i, (x, y, z) in enumerate(points)]
    thicknesses = np.unique(np.round(mesh.thickness, 9))
    for k, thickness in enumerate(thicknesses):
        out.append(f"*ELEMENT, TYPE=S8R, ELSET=T{k}")
        for e in np.flatnonzero(abs(mesh.thickness - thickness) < 1e-9):
            out.append(f"{e + 1}, " + ", ".join(str(n + 1) for n in mesh.elements[e]))
    out += ["*MATERIAL, NAME=STEEL", "*ELASTIC", f"{model.E:.10g}, {model.nu:.10g}", "*DENSITY", "7850."]
    for k, thickness in enumerate(thicknesses):
        out += [f"*SHELL SECTION, MATERIAL=STEEL, ELSET=T{k}", f"{thickness:.10g}"]
    for kind, name, ids in (("*NSET, NSET=", "WATCHED", model.watched_nodes),
                            ("*ELSET, ELSET=", "LOOKED", model.watched_elements)):
        if len(ids):
            out.append(kind + name)
            ids = sorted(set(int(i) + 1 for i in ids))
            out += [", ".join(map(str, ids[k:k + PER_LINE])) + "," for k in range(0, len(ids), PER_LINE)]
    for terms in model.equations:
        out += ["*EQUATION", str(len(terms))]
        flat = [f"{n + 1}, {axis}, {factor:.12g}" for n, axis, factor in terms]
        out += [", ".join(flat[k:k + 4]) + ("," if k + 4 < len(flat) else "") for k in range(0, len(flat), 4)]
    if model.supports:
        out.append("*BOUNDARY")
        out += [f"{n + 1}, {axis}, {axis}" for n, axis in model.supports]
    if model.unit_forces:  # Green's functions: one factorisation for all.
        out += ["*STEP", "*GREEN", "*CLOAD"] + [f"{n + 1}, {axis}, 1." for n, axis in model.unit_forces]
        out += ["*NODE PRINT, NSET=WATCHED", "U", "*END STEP"]
    for loads in model.steps:
        out += ["*STEP", "*STATIC", "*CLOAD, OP=NEW"]
        out += [f"{n + 1}, {axis}, {force:.12g}" for n, axis, force in loads]
        if model.watched_nodes:
            out += ["*NODE PRINT, NSET=WATCHED", "U"]
        if len(model.watched_elements):
            out += ["*EL PRINT, ELSET=LOOKED", "S, COORD"]
        out.append("*END STEP")
    return "\n".join(out) + "\n"


def blocks_of(text):
    """(heading, numbers (n, columns)) of each table in a .dat file."""
    for part in re.split(r"\n(?=\s*[a-z])", text):
        heading, _, body = part.strip().partition("\n")
        rows = [line.split("_")[0].split() for line in body.splitlines()
                if re.match(r"\s*\d", line)]  # Less the element's type, and the headings of Green's functions.
        if rows:
            yield heading, np.array(rows, float)


def solve(model, keep=None):
    """Runs ccx in a folder of its own (`keep`: this one, left there)."""
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(keep or temporary)
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "model.inp").write_text(text_of(model))
        run = subprocess.run(["ccx", "-i", "model"], cwd=folder, capture_output=True, text=True, check=False,
                             env={**os.environ, "OMP_NUM_THREADS": "1"})
        if run.returncode != 0 or "*ERROR" in run.stdout or "Job finished" not in run.stdout:
            raise RuntimeError("ccx failed:\n" + run.stdout[-3000:] + run.stderr[-1000:])
        version = re.search(r"Version ([\d.]+)", run.stdout)
        answer = read((folder / "model.dat").read_text(), len(model.steps) + len(model.unit_forces))
        answer.version = version.group(1) if version else "?"
        return answer


def compliance(model, freedoms):
    """Displacements at freedoms (node, axis), columns by unit forces on them; and the version of ccx."""
    # They come in the order of the equations, by node and axis.
    model.unit_forces = sorted(freedoms)
    model.watched_nodes = [node for node, _ in freedoms]
    answer = solve(model)
    rank = [model.unit_forces.index(f) for f in freedoms]
    C = np.array([[answer.displacement[k][node][axis - 1] for k in rank] for node, axis in freedoms])
    if abs(C - C.T).max() > 1e-4 * abs(C).max() or (np.diag(C) <= 0).any():
        raise RuntimeError("the compliance is not that of an elastic body")
    return (C + C.T) / 2, answer.version


def read(text, steps):
    displacement, stress, points = [], [], {}
    for heading, rows in blocks_of(text):
        if heading.startswith("displacements"):
            displacement.append({int(row[0]) - 1: row[1:4] for row in rows})
        elif heading.startswith("stresses"):
            stress.append({int(e) - 1: rows[rows[:, 0] == e][:, 2:8] for e in np.unique(rows[:, 0])})
        elif "coordinates" in heading:
            points = {int(e) - 1: rows[rows[:, 0] == e][:, 2:5] for e in np.unique(rows[:, 0])}
    if len(displacement) not in (0, steps) or len(stress) not in (0, steps):
        raise RuntimeError("ccx left steps out of its answer")
    return Answer(displacement, stress, points, "")
