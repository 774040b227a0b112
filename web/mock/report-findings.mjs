// Findings about the invented truck, of which one follows what is edited.
import { deg, inch, lb, per } from "./figures.mjs";

export function findingsOf(caster) {
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

export function countOf(findings) {
  const counts = { good: 0, look: 0, stop: 0 };
  for (const f of findings) counts[f.verdict]++;
  return counts;
}
