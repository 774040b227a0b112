#!/usr/bin/env python3
"""Lone rails and NAFEMS LE5 in CalculiX, written to results/members.json beside thin-walled beam theory.

    members.py            all
    members.py NAME...    some; the others' results stay
"""

import json
import sys
from pathlib import Path

import le5
import member
import theory
from rail import Rail, plate_inset
from run import digits

HERE = Path(__file__).resolve().parent
DENSITY = "medium"


def theory_of(case):
    """Torsion stiffness, warping free and held, and bending stiffness of the channel, or of the box if boxed all along."""
    rail = Rail(case["rail"], 0.0)
    E, G = case["E_Pa"], case["E_Pa"] / (2 + 2 * case["nu"])
    s = theory.channel(rail.h, rail.b, rail.t)
    L = rail.length
    boxes = case.get("boxing", [])
    if not boxes:
        free = G * s.J / L
        return {"torsion_free_Nm_per_rad": free,
                "torsion_held_Nm_per_rad": free * theory.torsion_factor(L, G * s.J, E * s.C_w),
                "bending_N_per_m": 1 / (L ** 3 / (48 * E * s.I_y) + L / (4 * G * rail.t * rail.h))}
    if boxes[0]["from_m"] <= 0 and boxes[0]["to_m"] >= L:
        plate = boxes[0]["thickness_m"]
        J = theory.box_torsion_constant(rail.h, plate_inset(rail, boxes[0]), rail.t, plate)
        return {"torsion_free_Nm_per_rad": G * J / L}
    return {}


def run(name, case):
    out = {"words": case["words"]}
    free, version = member.torsion_stiffness(case, DENSITY, False)
    held, _ = member.torsion_stiffness(case, DENSITY, True)
    out |= {"torsion_free_Nm_per_rad": digits(free), "torsion_held_Nm_per_rad": digits(held)}
    if not case.get("boxing"):
        out["bending_N_per_m"] = digits(member.bending_stiffness(case, DENSITY)[0])
    if not case["rail"].get("inside_radius_m"):
        out["theory"] = {key: digits(value) for key, value in theory_of(case).items()}
    return out | {"ccx": version}


def main():
    path = HERE / "results" / "members.json"
    result = json.loads(path.read_text()) if path.exists() else {}
    cases = json.loads((HERE / "cases" / "members.json").read_text())
    names = sys.argv[1:] or [*cases, "LE5"]
    for name in names:
        if name == "LE5":
            axial, twist, version = le5.solve()
            result[name] = {"axial_at_A_Pa": digits(axial), "tip_twist_rad": digits(twist), "ccx": version}
        else:
            result[name] = run(name, cases[name])
        print(name, result[name], flush=True)
        path.write_text(json.dumps(result, indent=1) + "\n")


if __name__ == "__main__":
    main()
