#!/usr/bin/env python3
"""Runs the frames of cases/ in CalculiX and writes results/: stiffness and stress, by mesh density.

    run.py NAME... [--density coarse|medium|fine]

Without a density: those that the case names. Results of other densities stay. README.md says what is modelled.
"""

import json
import sys
import time
from pathlib import Path

import calculix
import loads
from frame import DENSITIES, make_frame
from stress import Point

HERE = Path(__file__).resolve().parent


def digits(value, count=6):
    return float(f"{value:.{count}g}")


def run_missing(name, run):
    """Runs the entries of cases/NAME.json that the command names, or else those without a result, into results/NAME.json."""
    path = HERE / "results" / f"{name}.json"
    result = json.loads(path.read_text()) if path.exists() else {}
    cases = json.loads((HERE / "cases" / f"{name}.json").read_text())
    for entry in sys.argv[1:] or [entry for entry in cases if entry not in result]:
        result[entry] = {key: digits(value, 5) for key, value in run(cases[entry]).items()}
        print(entry, result[entry], flush=True)
        path.write_text("{\n" + ",\n".join(f' "{n}": {json.dumps(v)}' for n, v in result.items()) + "\n}\n")


def run_frame(case, density, keep=None):
    """Results of one mesh: the left half under mirrored loads, then under those of opposite sign."""
    frame = make_frame(case, density)
    points = [Point(frame, point) for point in case.get("stress_points", [])]
    out = {"nodes": len(frame.mesh.nodes), "elements": len(frame.mesh.elements)}
    rows = [{"id": point.id} for point in points]
    start = time.monotonic()
    for mirrored in (True, False):
        names = [name for name in loads.LOADS if loads.MIRRORED[name] == mirrored]
        units = {name: loads.nodal(frame, name) for name in names}
        model = calculix.Model(frame.mesh, case["E_Pa"], case["nu"], supports=loads.holds(frame, mirrored))
        for tie in frame.ties:
            model.add_rigid(tie, frame.mesh.nodes[tie].mean(axis=0))
        model.steps = [[(n, axis, share * loads.LOADS[name]) for n, axis, share in units[name]] for name in names]
        model.watched_nodes = [n for forces in units.values() for n, _, _ in forces]
        model.watched_elements = [e for point in points for e in point.elements]
        answer = calculix.solve(model, keep)
        for name, displacement in zip(names, answer.displacement):
            loads.check_balance(name, case)
            out[f"{name}_{loads.UNITS[name]}"] = digits(loads.LOADS[name] / loads.moved(units[name], displacement))
            for point, row in zip(points, rows):
                axial, mises = point.stress(answer, names.index(name))
                row |= {f"{name}_axial_Pa": digits(axial, 5), f"{name}_von_mises_Pa": digits(mises, 5)}
    out |= {"seconds": round(time.monotonic() - start), "ccx": answer.version, "stress": rows}
    return out


def main():
    arguments = sys.argv[1:]
    only = None
    if "--density" in arguments:
        at = arguments.index("--density")
        only = arguments[at + 1:at + 2]
        del arguments[at:at + 2]
        if not only or only[0] not in DENSITIES:
            sys.exit(__doc__)
    if not arguments:
        sys.exit(__doc__)
    for name in arguments:
        case = json.loads((HERE / "cases" / f"{name}.json").read_text())
        path = HERE / "results" / f"{name}.json"
        result = json.loads(path.read_text()) if path.exists() else {}
        result |= {"case": name, "loads": loads.LOADS}
        for density in only or case["densities"]:
            done = run_frame(case, density)
            result.setdefault("by_density", {})[density] = done
            path.write_text(json.dumps(result, indent=1) + "\n")
            print(name, density, {k: v for k, v in done.items() if k != "stress"}, flush=True)


if __name__ == "__main__":
    main()
