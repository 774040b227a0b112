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
    };
  });
}
