#!/usr/bin/env python3
"""Single joints in CalculiX (stub.py), what is theirs drawn out (stub_beams.py) and written to results/joints.json.

    joints.py             those of cases/joints.json that have no result
    joints.py NAME...     these, anew

Compliances between web and crossmember's end at the web (or the bolted plate), on the crossmember's line (tube's axis, mid-depth of the
channel's web): `y_m_per_N` and turns about x (along the rail) and z (upright), `rate` the twist rate of a channel's end, and what of two
goes together (`yz`: the displacement y by a moment about z). `box_m`: a plate of that thickness boxes the stub. Flanges bolted to flanges:
the springs of lapped.py, and by which share the beams' compliance misses the shells', freedom by freedom. Bolted: `rail_rate_Nm3`, what
the joint does against the rail's own twist rate (twist.py; not run for all of the drawn plates).
"""

import lapped
import stub
import stub_beams
import twist
from rail import Rail, plate_inset
from run import run_missing

DENSITY = "medium"


def run(entry):
    part = entry["part"]
    case = stub.make_case(entry["rail"], part, box=entry.get("box_m"))
    if part["kind"] == "tube":
        C = stub_beams.joint_compliance(case, stub.compliance(case, DENSITY))
        return {"y_m_per_N": C[1, 1], "x_rad_per_Nm": C[3, 3], "y_rad_per_Nm": C[4, 4], "z_rad_per_Nm": C[5, 5]}
    if part["kind"] == "bolted_flanges":
        springs, misfit = lapped.find_springs(case, stub.compliance(case, DENSITY, stub_beams.warping(part)))
        return springs | dict(zip(lapped.MISFITS, misfit)) | {"rail_rate_Nm3": twist.stiffening(entry, springs, 0.0, DENSITY)}
    start = start_of(entry)
    C = stub_beams.joint_compliance(case, stub.compliance(case, DENSITY, stub_beams.warping(part)), start)
    result = {"y_m_per_N": C[1, 1], "yx_rad_per_N": C[1, 3], "yz_rad_per_N": C[1, 5], "x_rad_per_Nm": C[3, 3], "y_rad_per_Nm": C[4, 4],
              "z_rad_per_Nm": C[5, 5], "rate_per_m_per_Nm2": C[6, 6], "x_rate_per_Nm2": C[3, 6], "y_rate_per_Nm2": C[4, 6],
              "z_rate_per_Nm2": C[5, 6]}
    if "plate" in part:
        result["rail_rate_Nm3"] = twist.stiffening(entry, result, start, DENSITY)
    return result


def start_of(entry):
    """From the web's mid-plane to where a channel begins; one flush with the rail half a flange in."""
    if entry["part"].get("weld") == "flush":
        return Rail(entry["rail"] | {"length_m": 1.0}, 0.0).b / 2
    if "box_m" in entry:
        return plate_inset(Rail(entry["rail"] | {"length_m": 1.0}, 0.0), {"thickness_m": entry["box_m"]})
    if "plate" in entry["part"]:
        return (entry["rail"]["thickness_m"] + entry["part"]["plate"]["thickness_m"]) / 2
    return 0.0


if __name__ == "__main__":
    run_missing("joints", run)
