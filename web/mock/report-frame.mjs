// A made-up frame for the mock's report. No number here means anything.
import { n } from "./figures.mjs";

const stiffness = (nm) => n(nm, `${Math.round(nm / 77.7)} lb-ft/deg`);
const rate = (newtons) => n(newtons, `${Math.round(newtons / 175)} lbf/in`);
const pounds = (kg) => n(kg, `${Math.round(kg * 2.2046)} lb`);
const share = (part) => n(part, `${Math.round(part * 100)} %`);

const memberOf = (id, label, kg, twist, bending, lozenging) => ({
  id,
  label,
  mass: pounds(kg),
  twist_share: share(twist),
  bending_share: share(bending),
  lozenging_share: share(lozenging),
});

const stateOf = (id, label, path, twist, bending, lozenging, kg) => ({
  id,
  label,
  path,
  mass: pounds(kg),
  twist: stiffness(twist),
  bending: rate(bending),
  lozenging: rate(lozenging),
  members: [
    memberOf("main", "left frame rail", 52, 0.31, 0.49, 0.3),
    memberOf("main", "right frame rail", 52, 0.31, 0.49, 0.3),
    memberOf("tank", "tank crossmember", 8, 0.12, 0.0, 0.2),
  ],
  assumptions: [
    {
      path: "/frame/crossmembers/tank",
      words: "What the tank crossmember is made of is not told.",
    },
  ],
});

const placeOf = (where, path, of, mpa) => ({
  where,
  path,
  case: of,
  von_mises: n(mpa * 1e6, `${(mpa / 6.895).toFixed(1)} ksi`),
  axial: n(mpa * 1e6, `${(mpa / 6.895).toFixed(1)} ksi`),
  yield: n(248e6, "36 ksi"),
  share_of_yield: share(mpa / 248),
  near_joint: of === "bump",
  distorts: false,
});

const pointOf = (label, path, side, where, mpa) => ({
  label,
  path,
  side,
  where,
  case: "bump",
  von_mises: n(mpa * 1e6, `${(mpa / 6.895).toFixed(1)} ksi`),
  yield: n(248e6, "36 ksi"),
  share_of_yield: share(mpa / 248),
  near_joint: side === "middle",
  distorts: false,
});

const stress = (mpa) => ({
  where: "left frame rail, lower flange, by the tank crossmember",
  path: "/frame/rails/main",
  von_mises: n(mpa * 1e6, `${(mpa / 6.895).toFixed(1)} ksi`),
  yield: n(248e6, "36 ksi"),
});

export function frameOf() {
  const worst = placeOf(
    "left frame rail, lower flange, 2 in ahead of the tank crossmember",
    "/frame/rails/main",
    "bump",
    141,
  );
  return {
    states: [
      stateOf("donor", "As it came", "/frame", 43000, 1.1e6, 0.9e6, 118),
      stateOf("planned", "As planned", "/frame", 51000, 1.3e6, 1.2e6, 131),
    ],
    stages: [
      {
        id: "tank_out",
        label: "Tank crossmember out",
        path: "/frame/stages/tank_out",
        cut: {
          stands: [
            {
              label: "left front stand",
              before: n(900, "202 lbf"),
              after: n(905, "203 lbf"),
              lifted: false,
            },
            {
              label: "right rear stand",
              before: n(700, "157 lbf"),
              after: n(0, "0 lbf"),
              lifted: true,
            },
          ],
          parts: [
            {
              path: "/frame/crossmembers/tank",
              label: "tank crossmember",
              first: "pushed by 62 lbf, sheared by 11 lbf",
              second: "pushed by 62 lbf, sheared by 11 lbf",
              spring: { apart: n(-0.0008, "−1/32 in"), height: n(0, "0 in"), ahead: n(0, "0 in") },
            },
          ],
          braces: [],
          before: stress(31),
          after: {
            height: n(-0.0016, "−1/16 in"),
            height_at: "left frame rail at 40 in",
            diagonals: n(0.0004, "1/64 in"),
            stress: stress(44),
          },
          without_brace: null,
        },
      },
    ],
    cases: [
      { id: "bump", label: "Both axles in a bump", basis: "common practice", state: "road", worst },
    ],
    worst: [
      worst,
      placeOf(
        "tank crossmember, web, 3 in left of the middle",
        "/frame/crossmembers/tank",
        "bump",
        96,
      ),
    ],
    points: [
      pointOf(
        "upper link of the front axle",
        "/axles/front/links/upper/frame/at",
        "left",
        "left frame rail, upper flange, 14 in ahead of the gearbox crossmember",
        87,
      ),
      pointOf(
        "hitch",
        "/hitch/ball",
        "middle",
        "left frame rail, lower flange, 104 in behind the gearbox crossmember",
        41,
      ),
    ],
    left_out: [],
  };
}
