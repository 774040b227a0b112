#!/usr/bin/env python3
"""Power laws through the bolted joints of results/joints.json: what src/frame/bolted_joints.cc has.

    bolt_fits.py

As fits.py prints them. A plate: a height, c length of the channel, rz and rx from bolt to bolt up and along the rail, w side of the square of a
washer's area, tp the plate, tc the channel, all by their midlines. How much a thicker plate does grows with how near the bolts come
to the rail's flanges: the last power is that of tp/t, times the logarithm of 1-rz/h. Flanges: n bolts in each.
"""

import numpy as np

from bolted import square
from fits import E, fit, read, stiffnesses
from rail import Rail


def rail_of(entry):
    return Rail(entry["rail"] | {"length_m": 1.0}, 0.0)


def plate_ratios(rail, part):
    t, tc, h = rail.t, part["thickness_m"], rail.h
    bolts = np.array(part["bolts"])
    reach, rise = np.ptp(bolts, axis=0)
    return {"a/h": (part["depth_m"] - tc) / h, "c/h": (part["flange_m"] - tc / 2) / h, "rz/h": rise / h, "1-rz/h": 1 - rise / h, "rx/h": reach / h,
            "w/h": 2 * square(part["washer_diameter_m"]) / h, "tp/t": part["plate"]["thickness_m"] / t, "tc/t": tc / t, "t/h": t / h, "b/h": rail.b / h,
            "tp/t^ln(1-rz/h)": np.exp(np.log(part["plate"]["thickness_m"] / t) * np.log(1 - rise / h))}


def plates(cases, results):
    rows, centres = [], []
    for name, result in results.items():
        entry, rail = cases[name], rail_of(cases[name])
        if entry["part"]["kind"] != "bolted_plate" or rail.bend:
            continue
        values, centre = stiffnesses(result, rail.t, rail.h, False)
        rows.append((name, values, plate_ratios(rail, entry["part"])))
        centres.append(centre / (entry["part"]["flange_m"] - entry["part"]["thickness_m"] / 2))
    for key in rows[0][1]:
        fit(f"channel on a bolted plate: {key}", [(name, values[key], ratios) for name, values, ratios in rows])
    fit("channel on a bolted plate: rail's twist rate / (E t^3 h^2)", [
        (name, results[name]["rail_rate_Nm3"] / (E * rail_of(cases[name]).t ** 3 * rail_of(cases[name]).h ** 2),
         {key: ratios[key] for key in ("rz/h", "rx/h", "w/h", "tp/t", "t/h")})
        for name, _, ratios in rows if "rail_rate_Nm3" in results[name]])
    print(f"   centre / flange: mean {np.mean(centres):.3f}, {min(centres):.3f} to {max(centres):.3f}")


def flanges(cases, results):
    rows = []
    for name, result in results.items():
        rail, part = rail_of(cases[name]), cases[name]["part"]
        if part["kind"] != "bolted_flanges" or rail.bend:
            continue
        ratios = {"n": len(part["bolts"]), "w/b": 2 * square(part["washer_diameter_m"]) / rail.b, "tc/t": part["thickness_m"] / rail.t,
                  "t/b": rail.t / rail.b, "h/b": rail.h / rail.b}
        unit = E * rail.t
        rows.append((name, {"along / (E t)": result["along_N_per_m"] / unit, "across / (E t)": result["across_N_per_m"] / unit,
                            "up b^2 / (E t^3)": result["up_N_per_m"] * (rail.b / rail.t) ** 2 / unit,
                            "turn / (E t b^2)": result["turn_Nm_per_rad"] / rail.b ** 2 / unit,
                            "rail's twist rate / (E t^3 b^2)": result["rail_rate_Nm3"] / (rail.t * rail.b) ** 2 / unit}, ratios))
    for key in rows[0][1]:
        fit(f"bolted flange: {key}", [(name, values[key], ratios) for name, values, ratios in rows])


def main():
    cases, results = read("joints")
    plates(cases, results)
    flanges(cases, results)


if __name__ == "__main__":
    main()
