// A made-up report about the invented truck. Only one finding follows what is edited: enough to see
// the page answer anew. No number here means anything.

import { inch, lbf, n } from "./figures.mjs";
import { inches } from "./places.mjs";
import { frontOf, rearOf } from "./report-axles.mjs";
import { drivetrainOf, drivetrainTold } from "./report-drivetrain.mjs";
import { countOf, findingsOf } from "./report-findings.mjs";
import { frameOf } from "./report-frame.mjs";
import { settledOf, stateOf } from "./report-states.mjs";

export function reportOf(document) {
  const upper = inches(document.axles.front.links.upper.axle.at.height) ?? 21.75;
  const caster = 3.1 + (upper - 21.75) * 0.9;
  const findings = [...findingsOf(caster), ...drivetrainTold(document).findings];
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
      drivetrain: drivetrainTold(document).summary,
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
    frame: frameOf(),
    drivetrain: drivetrainOf(document),
    findings,
  };
}
