// The invented truck's shafts over the travel.
import { deg, inch, n } from "./figures.mjs";

const travel = Array.from({ length: 37 }, (_, i) => (-5 + i * 0.25) * 0.0254);
const kDeg = Math.PI / 180;
const curve = (id, label, f, y_dimension, low, high) => ({
  ...{ id, label, x_label: "bump", x: travel, y: travel.map(f) },
  ...{ x_dimension: "length", y_dimension, low, high },
});
const row = (id, label, value, more = {}) => ({
  ...{ id, label, value, verdict: null, low: null, high: null, finding: null },
  ...{ explain: "", usual: "", working: [] },
  ...more,
});
const rpm = (value) => n(value / 9.5493, `${value.toLocaleString("en-US")} rpm`);

/** Within both wheels' travel; past its room in droop. */
function roomAt(bump, roll, i) {
  if (bump - roll / 2 < 0 || bump + roll / 2 > 1) return "-";
  const left = bump - roll / 5 - (i === 0 ? 0.12 : 0);
  return left < 0 ? "p" : left < 0.1 ? "c" : "f";
}

export function shaftsOf(document) {
  const shafts = Object.entries(document.drivetrain?.shafts ?? {});
  return shafts.map(([id, shaft], i) => {
    const angle = 11.5 + 4 * i;
    return {
      id,
      label: shaft.label,
      path: `/drivetrain/shafts/${id}`,
      rows: [
        row("start_angle", "Angle at the case, at ride", deg(angle), {
          high: deg(28),
          verdict: "good",
          explain: "Between the output's line and the shaft's.",
        }),
        row("end_angle", "Angle at the axle, at ride", deg(1.2), { high: deg(3), verdict: "good" }),
        row("length", "Joint to joint, at ride", inch(44 - 10 * i, `${44 - 10 * i} in`), {
          low: inch(40.5, "40 1/2 in"),
          high: inch(46),
          ...(i === 0 ? { verdict: "stop", finding: "drive.slip.rear" } : {}),
        }),
        row("whirl", "Whirls at", rpm(6100 + 900 * i), { low: rpm(4200), verdict: "good" }),
      ],
      curves: [
        curve(
          "start",
          "Angle at the case",
          (x) => (angle - x * 90) * kDeg,
          "angle",
          null,
          28 * kDeg,
        ),
        curve("end", "Angle at the axle", (x) => (1.2 + x * 40) * kDeg, "angle", null, 3 * kDeg),
        curve("length", "Joint to joint", (x) => 1.118 - x * 0.2 - x * x, "length", 1.0287, 1.1176),
      ],
      under_load: [
        ["bump", "Bump, 3 g", 0.4],
        ["torque", "Full torque", 1.9],
      ].map(([load, label, more]) => ({
        ...{ id: load, label, angles: [deg(angle + more), deg(1.2 + more)] },
        ...{
          leaves: deg(0.6 + more),
          speed: rpm(4000),
          shake: n(210 + 90 * more, `${210 + 90 * more} rad/s²`),
        },
      })),
      map: {
        ...{ droop: inch(5), bump: inch(4), roll: deg(11), ride: 5 / 9 },
        rooms: Array.from({ length: 21 }, (_, r) =>
          Array.from({ length: 41 }, (_, b) => roomAt(b / 40, Math.abs(r / 10 - 1), i)).join(""),
        ),
      },
    };
  });
}
