// The invented truck by load state.
import { deg, inch, lb, lbf, n, per } from "./figures.mjs";

export const stateOf = (id, label, total, front, rear, back, up, settled) => ({
  id,
  label,
  total: n(total * 0.4536, `${id === "bare" ? "" : "~"}${total.toLocaleString("en-US")} lb`),
  plus_minus: lb(45),
  cg: { station: inch(back[0], back[1]), offset: inch(0.25, "1/4 in"), height: inch(up[0], up[1]) },
  p_VoCm: [-back[0] * 0.0254, 0.006, up[0] * 0.0254],
  sprung: lb(total - 1130),
  unsprung: [
    { axle: "front", mass: lb(590) },
    { axle: "rear", mass: lb(540) },
  ],
  loads: [
    {
      axle: "front",
      left: lb(front / 2 + 12),
      right: lb(front / 2 - 12),
      total: lb(front),
      rating: lb(3600),
      measured: null,
      verdict: "good",
    },
    {
      axle: "rear",
      left: lb(rear / 2 + 8),
      right: lb(rear / 2 - 8),
      total: lb(rear),
      rating: lb(4200),
      measured: null,
      verdict: rear > 2500 ? "look" : "good",
    },
  ],
  sentence: `${label}: ${total} lb.`,
  shares: { front: per(52), left: per(50), cross: per(50.2) },
  explained: [],
  stability: {
    factor: n(1.04, "1.04"),
    tilt: deg(46.1),
    side_slope: deg(38.4),
    up_grade: deg(49),
    down_grade: deg(44.5),
  },
  settled,
});

export const settledOf = (heave, errors) => ({
  heave: inch(heave, `${heave} in`),
  roll: deg(0.3),
  pitch: deg(-0.4),
  corners: ["front", "rear"].flatMap((axle, i) =>
    ["left", "right"].map((side, j) => ({
      axle,
      side,
      height_error: inch(...errors[2 * i + j]),
      load: lbf([1012, 998, 840, 846][2 * i + j]),
    })),
  ),
});
