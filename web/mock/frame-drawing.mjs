// A made-up frame under load, and its sections. No number here means anything.
import { n } from "./figures.mjs";

const ksi = (value) => n(value * 6.895e6, `${value} ksi`);
const inches = (text, si) => n(si, text);

const motion = (x, most, mpa) => {
  const share = 1 - (x / 2) ** 2;
  return {
    d: [0, 0, -most * share],
    r: [0, (most * x) / 2, 0],
    stress: mpa * 1e6 * share,
    share: (mpa * share) / 248,
    level: Math.max(0, Math.min(4, Math.floor((mpa * share) / 34.5))),
  };
};

const box = (half, depth) => [
  [0, -half, -depth],
  [0, half, -depth],
  [0, half, depth],
  [0, -half, depth],
];

const railOf = (side) => ({
  path: "/frame/rails/main",
  label: `${side > 0 ? "Left" : "Right"} frame rail`,
  before: true,
  after: true,
  pieces: [
    {
      corners: box(0.03, 0.08),
      points: [-2, -1, 0, 1, 2].map((x) => ({
        p: [x - 1.5, side * 0.43, 0.58],
        before: motion(x, 0.006, 170),
        after: motion(x, 0.003, 141),
      })),
    },
  ],
});

const tube = {
  path: "/frame/crossmembers/tank",
  label: "Tank crossmember",
  before: false,
  after: true,
  pieces: [
    {
      corners: [
        [-0.03, 0, -0.03],
        [0.03, 0, -0.03],
        [0.03, 0, 0.03],
        [-0.03, 0, 0.03],
      ],
      points: [0.43, 0, -0.43].map((y) => ({
        p: [-2.6, y, 0.58],
        before: null,
        after: motion(1, 0.003, 60),
      })),
    },
  ],
};

export function drawingOf(frame, id) {
  const one = frame.cases.find((c) => c.id === id);
  if (!one) return null;
  const stateOf = (most, text) => ({
    worst: one.worst,
    p: [-1.5, 0.43, 0.5],
    d: [0, 0, -most],
    most: inches(text, most),
  });
  return {
    case: id,
    label: one.label,
    exaggeration: 20,
    levels: [0, 5, 10, 15, 20].map(ksi),
    before: stateOf(0.006, "1/4 in"),
    after: stateOf(0.003, "1/8 in"),
    left_out: "",
    members: [railOf(1), railOf(-1), tube],
  };
}

const numbersOf = (area) => [
  { id: "area", label: "Area", value: n(area, `${(area / 0.0254 ** 2).toFixed(2)} in²`) },
  { id: "weight", label: "Weighs", value: n(area * 7850, "6.59 lb/ft") },
];

export const sections = [
  {
    where: ["Frame rail, station -20 in to 120 in"],
    paths: ["/frame/rails/main"],
    seen: "from behind",
    walls: [
      {
        thickness: 0.005,
        points: [
          [-0.05, 0.075],
          [0, 0.075],
          [0, -0.075],
          [-0.05, -0.075],
        ],
      },
    ],
    centroid: [-0.012, 0],
    shear_centre: [0.018, 0],
    numbers: numbersOf(0.00125),
  },
  {
    where: ["Tank crossmember"],
    paths: ["/frame/crossmembers/tank"],
    seen: "from the left",
    walls: [
      {
        thickness: 0.004,
        points: [
          [0.03, 0],
          [0, 0.03],
          [-0.03, 0],
          [0, -0.03],
          [0.03, 0],
        ],
      },
    ],
    centroid: [0, 0],
    shear_centre: [0, 0],
    numbers: numbersOf(0.0007),
  },
];
