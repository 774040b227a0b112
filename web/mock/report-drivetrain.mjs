// A made-up report about the invented truck's drivetrain. No number here means anything.
import { inch, lb, lbf, n, per } from "./figures.mjs";
import { shaftsOf } from "./report-shafts.mjs";
import { casesOf } from "./scene-drivetrain.mjs";

const kTorque_lbft = 0.73756215;
const torque = (lbft) => n(lbft / kTorque_lbft, `${lbft.toLocaleString("en-US")} lb-ft`);
const hertz = (value) => n(value, `${value.toFixed(1)} Hz`);
const turns = (value) => n(value, `${value.toFixed(2)}:1`);
const speed = (mph) => n(mph * 0.44704, `${mph.toFixed(1)} mph`);

const row = (id, label, value, more = {}) => ({
  ...{ id, label, value, verdict: null, low: null, high: null, finding: null },
  ...{ explain: "", usual: "", working: [] },
  ...more,
});

export function drivetrainOf(document) {
  const cases = casesOf(document);
  if (cases.length === 0) return null;
  return {
    rows: [
      row("mass", "Weighs, all of it", lb(870), { explain: "Engine, gearbox and transfer case." }),
      row("balance", "Balance point, station", inch(12.25, "12 1/4 in"), {
        explain: "Behind the front-axle line.",
        working: [
          {
            formula: "x = Σ m x / Σ m",
            with_values: "x = (610 · 2 in + 260 · 36 1/4 in) / 870 = 12 1/4 in",
            source: "definitions: balance point",
            input_paths: ["/masses/engine/at/station"],
          },
        ],
      }),
      row("bounce", "Bounce on its mounts", hertz(9.6), {
        low: hertz(6),
        high: hertz(14),
        verdict: "good",
        finding: "drive.bounce",
        explain: "How fast it swings straight up and down.",
        usual: "6 to 14 Hz.",
      }),
      row("flange", "Bending at the worst flange", torque(1290), {
        high: torque(1400),
        verdict: "look",
        finding: "drive.flange.gearbox",
        explain: "Where one case is bolted to the next.",
      }),
      row("stiffness", "Stiffness of the cases", n(null, "unknown")),
    ],
    cases: cases.map(({ id, segment, path, a, b }, i) => ({
      ...{ id, label: segment.label, path, a, b },
      mass: i === 2 ? n(null, "unknown") : lb([610, 150, 0, 110][i]),
    })),
    loads: [
      loadOf(cases, "standing", "Standing", "Its own weight.", [1, 1, 1], 240, 0),
      loadOf(
        cases,
        "first",
        "First, low range",
        "Full torque, wheels held.",
        [3.1, -1.4, 1.6],
        1290,
        1,
      ),
      loadOf(
        cases,
        "reverse",
        "Reverse, low range",
        "Full torque backward.",
        [-1.2, 3.4, 0.9],
        980,
        -1,
      ),
      loadOf(cases, "bump", "A bump at 3 g", "Common practice.", [3, 3, 3], 760, 0),
    ],
    modes: [
      modeOf(6.9, "roll", [
        ["roll", 88],
        ["sideways", 9],
        ["yaw", 3],
      ]),
      modeOf(9.6, "bounce", [
        ["bounce", 82],
        ["pitch", 14],
        ["lengthwise", 4],
      ]),
      modeOf(12.3, "pitch", [
        ["pitch", 79],
        ["bounce", 18],
        ["lengthwise", 3],
      ]),
    ],
    shafts: shaftsOf(document),
    gears: [
      gearOf("first", "low", 37.95, 1.8, 14.1, 1.21, "grip"),
      gearOf("first", "high", 13.95, 4.8, 38.4, 0.62, "engine"),
      gearOf("third", "high", 4.56, 14.7, 117.4, 0.11, "engine"),
    ],
    lifts: [
      {
        id: "all",
        label: "all of it",
        path: "/drivetrain/lifts/all",
        mass: lb(760),
        balance: inch(10.5, "10 1/2 in"),
        hook_off: inch(1.5, "1 1/2 in"),
        leg: lbf(439),
      },
    ],
    road_speed: speed(55),
    gaps: [
      {
        id: "pan",
        label: "oil pan to the axle tube",
        path: "/drivetrain/gaps/pan",
        drawn: inch(3.5, "3 1/2 in"),
        least: inch(0.25, "1/4 in"),
        least_load: "bump, 3 g",
        wanted: inch(0.5, "1/2 in"),
        moves: inch(0.3125, "5/16 in"),
        moves_load: "bump, 3 g",
        verdict: "look",
      },
    ],
    steps: [
      step("Hang the engine alone", "Hook at station 12 in, chain to both lugs.", ""),
      step(
        "Set it on its mounts",
        "Rubbers loose in their cups, crank line 3 1/2° down to the rear.",
        "Measure the slope on the front pulley face and the height of the rear face: 31 3/16 in.",
      ),
      step("Bolt the gearbox on", "Jack under its rear end until the mount is in.", ""),
      step(
        "Tack the gearbox crossmember",
        "With all cases on and the truck at ride height.",
        "Measure both shafts, joint to joint, at ride: 44 in and 33 7/8 in.",
      ),
    ],
  };
}

const step = (label, detail, hold) => ({ label, detail, hold });
const gearOf = (gear, range, overall, idle, top, climb, climb_by) => ({
  ...{ gear, range, overall: turns(overall), idle_speed: speed(idle), top_speed: speed(top) },
  road_engine: n(180 * (overall / 4.56), `${Math.round(1719 * (overall / 4.56))} rpm`),
  ...{ climb: per(Math.round(climb * 100)), climb_by },
});
const modeOf = (frequency, way, shares) => ({
  frequency: hertz(frequency),
  way,
  shares: shares.map(([of, share]) => ({ way: of, share: per(share) })),
});

/** The weight on the mounts, times a factor each, and a bow of bending between them. */
function loadOf(cases, id, label, basis, times, most_lbft, turn) {
  const places = [
    ["left engine mount", "/drivetrain/mounts/engine", [-0.076, 0.279, 0.648], 270],
    ["right engine mount", "/drivetrain/mounts/engine", [-0.076, -0.279, 0.648], 270],
    ["gearbox mount", "/drivetrain/mounts/rear", [-0.94, 0, 0.61], 330],
  ];
  const along = places.map(([, , , weight], i) => Math.round(weight * times[i]));
  const share = (k) => Math.round((most_lbft * k) / 10) * 10;
  const flange = (at, bends, limit, verdict) => ({
    label: `rear face of the ${at}`,
    path: `/drivetrain/segments/${at}/flange_limit`,
    bending: torque(share(bends)),
    torsion: torque(share(0.55 * turn)),
    shear: lbf(Math.round(most_lbft * 0.4)),
    limit: limit === null ? null : torque(limit),
    verdict,
  });
  const spots = cases.flatMap(({ a, b }, k) =>
    [0, 0.2, 0.4, 0.6, 0.8, ...(k === cases.length - 1 ? [1] : [])].map((t) =>
      a.map((x, axis) => x + (b[axis] - x) * t),
    ),
  );
  const [from, to] = [spots[0][0], spots.at(-1)[0]];
  return {
    ...{ id, label, basis },
    mounts: places.map(([name, path, p], i) => ({
      ...{ label: name, path, along: lbf(along[i]), p },
      f: [turn * 150, -40 * Math.sign(p[1]), along[i] * 4.448],
    })),
    flanges: [
      flange("engine", 0.6, 1900, "good"),
      flange("gearbox", 1, 1400, most_lbft > 1200 ? "look" : "good"),
      flange("adapter", 0.5, null, null),
    ],
    diagram: spots.map((p) => {
      const t = (p[0] - from) / (to - from);
      const bow = t < 0.2 ? -0.5 * t : t < 0.7 ? 2.2 * t - 0.54 : (1 - t) / 0.3;
      return { p, moment: (most_lbft / kTorque_lbft) * bow };
    }),
  };
}

/** What is said and found about it; nothing about a truck without. */
export function drivetrainTold(document) {
  if (!document.drivetrain) return { summary: [], findings: [] };
  const common = { work: "drivetrain", assumption: "", working: [] };
  return {
    summary: [
      "The engine hangs 3.5° down to the rear; its mounts bounce at 9.6 Hz.",
      "The rear shaft has 1 3/4 in of spline left in full droop: 2 in are wanted.",
    ],
    findings: [
      {
        ...common,
        id: "drive.flange.gearbox",
        verdict: "look",
        subject: "Rear face of the gearbox",
        sentence: "Carries 1,290 lb-ft of 1,400 lb-ft in first, low range.",
        value: torque(1290),
        limit: torque(1400),
        basis: "Limit of this build.",
        advice: "Move the gearbox mount 4 in to the rear: 1,010 lb-ft.",
        path: "/drivetrain/segments/gearbox",
      },
      {
        ...common,
        id: "drive.slip.rear",
        verdict: "stop",
        subject: "Rear shaft, splines",
        sentence: "1 3/4 in are left in full droop; 2 in are wanted.",
        value: inch(1.75, "1 3/4 in"),
        limit: inch(2),
        basis: "Limit of this build.",
        advice: "Have the tube made 1/2 in longer.",
        path: "/drivetrain/shafts/rear",
      },
      {
        ...common,
        id: "drive.bounce",
        verdict: "good",
        subject: "Bounce on the mounts",
        sentence: "9.6 Hz.",
        value: hertz(9.6),
        limit: null,
        basis: "Common practice: 6 to 14 Hz.",
        advice: "",
        path: "/drivetrain/mounts/engine",
      },
    ],
  };
}
