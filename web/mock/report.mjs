// A made-up report about the invented truck. Only one finding follows what is edited: enough to see
// the page answer anew. No number here means anything.
import { inches } from "./scene.mjs";

const n = (si, text) => ({ si, text });
const inch = (value, text) => n(value * 0.0254, text ?? `${value} in`);
const deg = (value) => n((value * Math.PI) / 180, `${value.toFixed(1)}°`.replace("-", "−"));
const lb = (value) => n(value * 0.4536, `${value.toLocaleString("en-US")} lb`);
const lbf = (value) => n(value * 4.448, `${value.toLocaleString("en-US").replace("-", "−")} lbf`);
const per = (value) => n(value / 100, `${value} %`.replace("-", "−"));

const stateOf = (id, label, total, front, rear, back, up, settled) => ({
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

const settledOf = (heave, errors) => ({
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

const travel = Array.from({ length: 37 }, (_, i) => (-5 + i * 0.25) * 0.0254);
const rolls = Array.from({ length: 33 }, (_, i) => ((-8 + i * 0.5) * Math.PI) / 180);
const curve = (id, label, xs, f, y_dimension, low = null, high = null) => ({
  id,
  label,
  x_label: xs === travel ? "bump" : "roll",
  x: xs,
  y: xs.map(f),
  x_dimension: xs === travel ? "length" : "angle",
  y_dimension,
  low,
  high,
});
const row = (id, label, value, verdict, low, high, finding, explain) => ({
  id,
  label,
  value,
  verdict,
  low,
  high,
  finding,
  explain,
  usual: "",
  working: [],
});

export function reportOf(document) {
  const upper = inches(document.axles.front.links.upper.axle.at.height) ?? 21.75;
  const caster = 3.1 + (upper - 21.75) * 0.9;
  const findings = findingsOf(caster);
  return {
    name: document.name,
    notice: document.notice,
    verdicts: countOf(findings),
    summary: {
      weigh: [
        "Weighs about 4,010 lb on the road, 52 % of it on the front axle.",
        "Sits 3/8 in low at the left front. Towing, the rear axle carries 2,640 lb of its 4,200 lb.",
      ],
      axles: [
        "Tack the front upper seats at 14 11/16 in from the lower ones.",
        caster > 3
          ? `Caster falls off by ${caster.toFixed(1)}° in full bump: more than is accepted.`
          : `Caster changes by ${caster.toFixed(1)}° over the travel.`,
        "The rear leaves are 1 1/2 in from their stops towing.",
      ],
    },
    diagnostics: [],
    missing: [
      {
        path: "/axles/front/bump_stops/stop/end_rate",
        what: "End rate of the front stop.",
        needed: "Without it the stop is taken as even.",
      },
      { path: "/masses/tools/size", what: "Size of the tools.", needed: "For the roll inertia." },
    ],
    states: [
      stateOf(
        "bare",
        "Bare",
        3640,
        1960,
        1680,
        [52.9, "52 7/8 in"],
        [29.6, "29 5/8 in"],
        settledOf(0.31, [
          [0.3125, "5/16 in"],
          [0.3125, "5/16 in"],
          [0.5, "1/2 in"],
          [0.5, "1/2 in"],
        ]),
      ),
      stateOf(
        "road",
        "Road",
        4010,
        2090,
        1920,
        [55.0625, "55 1/16 in"],
        [30.4375, "30 7/16 in"],
        settledOf(-0.12, [
          [-0.375, "−3/8 in"],
          [-0.125, "−1/8 in"],
          [0.0625, "1/16 in"],
          [0.125, "1/8 in"],
        ]),
      ),
      stateOf(
        "towing",
        "Towing",
        4630,
        1990,
        2640,
        [65.5, "65 1/2 in"],
        [31.25, "31 1/4 in"],
        settledOf(-0.9, [
          [0.25, "1/4 in"],
          [0.375, "3/8 in"],
          [-1.5, "−1 1/2 in"],
          [-1.4375, "−1 7/16 in"],
        ]),
      ),
    ],
    axles: [frontOf(caster), rearOf()],
    articulation: {
      ramp: {
        distance: inch(58.5, "58 1/2 in"),
        height: inch(20, "20 in"),
        index: n(509, "509"),
        first_lifted: "right front",
        loads: [
          { axle: "front", left: lbf(1640), right: lbf(0) },
          { axle: "rear", left: lbf(510), right: lbf(1320) },
        ],
      },
      cross: null,
    },
    findings,
  };
}

function frontOf(caster) {
  return {
    id: "front",
    label: "Front axle",
    end: "front",
    travel: { bump: inch(4), droop: inch(5), roll: deg(8) },
    rows: [
      row(
        "roll_centre",
        "Roll centre height",
        inch(20.3, "20 5/16 in"),
        null,
        null,
        null,
        null,
        "Above the ground, where the axle's roll would leave it still sideways.",
      ),
      row(
        "caster_change",
        "Caster change over the travel",
        deg(caster),
        caster > 3 ? "stop" : "look",
        deg(-3),
        deg(3),
        "caster.front",
        "How far the axle turns nose-up from full droop to full bump.",
      ),
      row(
        "lateral_shift",
        "Sideways shift over the travel",
        inch(0.3125, "5/16 in"),
        "good",
        null,
        inch(0.5, "1/2 in"),
        "shift.front",
        "The track bar carries the axle sideways on its arc.",
      ),
      row(
        "roll_steer",
        "Roll steer",
        per(-4.5),
        "good",
        per(-8),
        per(8),
        null,
        "Change of heading per change of tilt; plus points left as the left wheel rises.",
      ),
      row(
        "anti_dive",
        "Anti-dive",
        per(38),
        "good",
        per(0),
        per(60),
        null,
        "Share of the dive in braking that the links take instead of the springs.",
      ),
      row(
        "wheel_rate",
        "Wheel rate",
        n(41000, "234 lbf/in"),
        null,
        null,
        null,
        null,
        "What the wheel feels of the coil, with its motion ratio.",
      ),
      row("frequency", "Ride frequency", n(1.42, "1.42 Hz"), null, null, null, null, ""),
      row(
        "damping",
        "Damping ratio",
        { si: null, text: "unknown" },
        null,
        null,
        null,
        null,
        "Needs the shocks' damping.",
      ),
    ],
    curves: [
      curve(
        "caster_change",
        "Caster change",
        travel,
        (x) => -(x / 0.1016) * (caster / 57.3) - x * x * 0.4,
        "angle",
        -3 / 57.3,
        3 / 57.3,
      ),
      curve(
        "lateral_shift",
        "Sideways shift",
        travel,
        (x) => x * 0.06 - x * x * 0.5,
        "length",
        null,
        0.0127,
      ),
      curve("anti_dive", "Anti-dive", travel, (x) => 0.38 - x * 1.1, "ratio", 0, 0.6),
      curve(
        "roll_steer_roll",
        "Heading in roll",
        rolls,
        (x) => -0.045 * x + 0.08 * x ** 3,
        "angle",
      ),
    ],
    seats: [
      {
        name: "Left front coil",
        path: "/axles/front/coils/coil",
        load: lbf(1012),
        free: inch(19),
        loaded: inch(14.9375, "14 15/16 in"),
        drawn: inch(14.25, "14 1/4 in"),
        tack: inch(14.6875, "14 11/16 in"),
        below_free: inch(4.3125, "4 5/16 in"),
        move: inch(0.4375, "7/16 in"),
        bump_left: inch(6.4375, "6 7/16 in"),
        frequency: { si: 1.42, text: "1.42 Hz" },
        working: [],
        sentence:
          "Tack the upper seat 14 11/16 in from the lower one, on stands with the springs out.",
      },
    ],
    links_working: [],
    links: [
      {
        name: "Left lower link",
        path: "/axles/front/links/lower",
        force: lbf(-212),
        swing_frame: deg(9.1),
        swing_axle: deg(11.4),
        limit: deg(22),
      },
      {
        name: "Right lower link",
        path: "/axles/front/links/lower",
        force: lbf(-205),
        swing_frame: deg(9.1),
        swing_axle: deg(11.4),
        limit: deg(22),
      },
      {
        name: "Upper link",
        path: "/axles/front/links/upper",
        force: lbf(388),
        swing_frame: deg(10.2),
        swing_axle: deg(12.9),
        limit: deg(22),
      },
      {
        name: "Track bar",
        path: "/axles/front/links/track_bar",
        force: lbf(41),
        swing_frame: deg(7.7),
        swing_axle: deg(7.9),
        limit: null,
      },
    ],
    locks: [],
  };
}

function rearOf() {
  return {
    id: "rear",
    label: "Rear axle",
    end: "rear",
    travel: { bump: inch(4), droop: inch(4), roll: deg(8) },
    rows: [
      row(
        "roll_centre",
        "Roll centre height",
        inch(22.8, "22 13/16 in"),
        null,
        null,
        null,
        null,
        "With leaves: at the eyes' height, carried to the axle.",
      ),
      row(
        "anti_squat",
        "Anti-squat",
        per(71),
        "good",
        per(20),
        per(100),
        null,
        "Share of the squat in driving that the springs do not see.",
      ),
      row(
        "roll_steer",
        "Roll steer",
        per(6.8),
        "look",
        per(-8),
        per(8),
        "steer.rear",
        "Plus at the rear turns the truck in: oversteer.",
      ),
    ],
    curves: [
      curve("anti_squat", "Anti-squat", travel, (x) => 0.71 + x * 1.6, "ratio", 0.2, 1),
      curve(
        "nose_up",
        "Pinion change",
        travel,
        (x) => x * 0.35 + x * x * 0.9,
        "angle",
        -4 / 57.3,
        4 / 57.3,
      ),
    ],
    seats: [],
    links: [],
    links_working: [],
    locks: [],
  };
}

function findingsOf(caster) {
  const finding = (
    id,
    verdict,
    work,
    subject,
    sentence,
    value,
    limit,
    basis,
    advice,
    path,
    more = {},
  ) => ({
    id,
    verdict,
    work,
    subject,
    sentence,
    value,
    limit,
    basis,
    advice,
    assumption: "",
    path,
    working: [],
    ...more,
  });
  const over = caster > 3;
  return [
    finding(
      "caster.front",
      over ? "stop" : "look",
      "axles",
      "Front caster",
      over
        ? `Falls off ${caster.toFixed(1)}° over the wanted travel.`
        : `Changes ${caster.toFixed(1)}° over the wanted travel.`,
      deg(caster),
      deg(3),
      "Common practice: no more than 3° over the travel.",
      "Move the axle end of the upper link 3/4 in down: the change comes to 2.4°.",
      "/axles/front/links/upper",
      {
        working: [
          {
            formula: "change = pitch(droop) − pitch(bump)",
            with_values: `change = 1.9° − (−${(caster - 1.9).toFixed(1)}°) = ${caster.toFixed(1)}°`,
            source: "definitions: caster change",
            input_paths: [
              "/axles/front/links/upper/axle/at/height",
              "/axles/front/links/lower/axle/at/height",
            ],
          },
        ],
      },
    ),
    finding(
      "shock.front.droop",
      "stop",
      "axles",
      "Front shock",
      "Tops out 1 1/4 in before the wanted droop.",
      inch(3.75, "3 3/4 in"),
      inch(5),
      "Wanted droop travel of this build.",
      "Use a shock 28 in long open, or mount the upper eye 1 1/4 in lower.",
      "/axles/front/dampers/shock",
    ),
    finding(
      "steer.rear",
      "look",
      "axles",
      "Rear roll steer",
      "Close to its limit.",
      per(6.8),
      per(8),
      "Common practice.",
      "Lower the front eye of the leaf 1/2 in: 4.9 %.",
      "/axles/rear/leaf_packs/pack",
    ),
    finding(
      "load.rear",
      "look",
      "weigh",
      "Rear axle, towing",
      "Carries 2,640 lb of 4,200 lb; the tongue load is assumed.",
      lb(2640),
      lb(4200),
      "Axle rating of this build.",
      "Weigh the trailer's tongue.",
      "/axles/rear",
      { assumption: "tongue load 10 % of the trailer." },
    ),
    finding(
      "shift.front",
      "good",
      "axles",
      "Front sideways shift",
      "Within what is accepted.",
      inch(0.3125, "5/16 in"),
      inch(0.5, "1/2 in"),
      "Limit of this build.",
      "",
      "/axles/front/links/track_bar",
    ),
    finding(
      "slope",
      "good",
      "weigh",
      "Side slope",
      "Stands on 38.4°.",
      deg(38.4),
      deg(30),
      "Limit of this build.",
      "",
      "/limits/side_slope",
    ),
    finding(
      "load.front",
      "good",
      "weigh",
      "Front axle",
      "Carries 2,090 lb of 3,600 lb.",
      lb(2090),
      lb(3600),
      "Axle rating of this build.",
      "",
      "/axles/front",
    ),
  ];
}

function countOf(findings) {
  const counts = { good: 0, look: 0, stop: 0 };
  for (const f of findings) counts[f.verdict]++;
  return counts;
}
