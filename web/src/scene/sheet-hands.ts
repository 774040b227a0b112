import type { KeyboardEvent } from "react";
import { choose } from "../api/choose";
import { askPose, move } from "../api/pose";
import { getState } from "../api/store";
import type { Vector } from "../api/types";
import { clampTo, travelOf } from "../panels/motion/travel";
import type { Lens } from "./frame";
import type { Drag } from "./gestures";
import type { Outline } from "./outline";
import { type Face, poseOf } from "./project";

/** A movement on the drawing as one in V. */
export function inView(face: Face, du: number, dv: number): Vector {
  switch (face) {
    case "side":
      return [-du, 0, -dv];
    case "top":
      return [-du, dv, 0];
    case "end":
      return [0, du, -dv];
  }
}

/** A station within a finger's reach of one of the truck's points is that point's station. */
export function snap(station_m: number, outlines: Outline[], scale: number): number {
  const near = 8 / scale;
  const stations = outlines.flatMap((o) => o.ends.map((e) => -e.at[0]));
  const hit = [0, ...stations].reduce<number | null>(
    (best, s) =>
      Math.abs(s - station_m) < near &&
      (best === null || Math.abs(s - station_m) < Math.abs(best - station_m))
        ? s
        : best,
    null,
  );
  return hit ?? station_m;
}

/** A finger on a wheel moves its axle: both wheels alike, or one wheel where it can be told apart. */
export function dragAxle(body: string, wheel_y: number | null, lens: Lens): Drag {
  const { answers, question, pose } = getState();
  const axle = answers?.report.axles.find((a) => a.id === body);
  const travel = axle ? travelOf(axle) : null;
  if (!axle || !travel) return { move: () => undefined };
  const settled = question.settled ? poseOf(pose?.bodies, body).p[2] : 0;
  const heave0 = question.heave?.[body] ?? settled;
  const roll0 = question.roll?.[body] ?? 0;
  if (question.settled) askPose({ state: question.state, heave: {}, roll: {} });
  return {
    move: (now, from) => {
      const up_m = (from.y - now.y) / lens.scale;
      const share = wheel_y === null ? 1 : 0.5;
      const roll = wheel_y === null ? roll0 : roll0 + up_m / (2 * wheel_y);
      move(
        { [body]: clampTo(travel.droop_m, travel.bump_m, heave0 + share * up_m) },
        { [body]: clampTo(-travel.roll_rad, travel.roll_rad, roll) },
      );
    },
  };
}

/** Arrow keys go from part to part; Enter or the space bar opens one. */
export function walkParts(event: KeyboardEvent, svg: SVGSVGElement | null): void {
  const parts = [...(svg?.querySelectorAll<SVGGElement>("[data-key]") ?? [])];
  const active = document.activeElement;
  const here = active instanceof SVGGElement ? parts.indexOf(active) : -1;
  if (here < 0) return;
  const step = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  if (step !== undefined) {
    event.preventDefault();
    parts[(here + step + parts.length) % parts.length]?.focus();
    return;
  }
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    event.stopPropagation();
    const path = parts[here]?.dataset.path;
    if (path !== undefined) choose(path);
  }
}
