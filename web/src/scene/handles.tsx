import type { KeyboardEvent } from "react";
import { join, keysOf } from "../api/pointer";
import { useStore } from "../api/store";
import type { Part, Units, Vector } from "../api/types";
import { wordsOf } from "../format/text";
import { stepPoint } from "./drag-point";
import type { Dot } from "./frame";
import { type Point, pointsOfAll } from "./points";
import { add, type Bodies, carry, type Face, poseOf } from "./project";

/** A point of the chosen part as it is shown in one view. */
export interface Handle {
  point: Point;
  face: Face;
  dot: Dot;
}

/** A point that the hand has moved by `d` in V. */
export interface Moved {
  point: Point;
  d: Vector;
}

/** The points of these parts, in every view that is shown. */
export function handlesOf(
  parts: Part[],
  seen: {
    faces: Face[];
    bodies: Bodies | undefined;
    moved: Moved | null;
    placeIn: (face: Face, p: Vector) => Dot;
  },
): Handle[] {
  const { faces, bodies, moved, placeIn } = seen;
  return pointsOfAll(parts).flatMap((point) => {
    const isMoved =
      moved?.point.path === point.path && moved.point.mirrored === point.mirrored ? moved : null;
    const now = carry(poseOf(bodies, point.body), isMoved ? isMoved.point.q : point.q);
    const shown = isMoved ? add(now, isMoved.d) : now;
    // From the side the mirrored one stands behind the other.
    return faces
      .filter((face) => face !== "side" || !point.mirrored)
      .map((face) => ({ point, face, dot: placeIn(face, shown) }));
  });
}

export const kHold_px = 24;
const kInch_m = 0.0254;

/** The handle under a finger. */
export function handleAt(handles: Handle[], dot: Dot): Handle | null {
  const near = handles
    .map((handle) => ({
      handle,
      far: Math.hypot(handle.dot.x - dot.x, handle.dot.y - dot.y),
    }))
    .filter(({ far }) => far <= kHold_px)
    .sort((a, b) => a.far - b.far);
  return near[0]?.handle ?? null;
}

/** What an arrow key means in a view: right, up, in V. */
const kRight: Record<Face, Vector> = { side: [-1, 0, 0], top: [-1, 0, 0], end: [0, 1, 0] };
const kUp: Record<Face, Vector> = { side: [0, 0, 1], top: [0, -1, 0], end: [0, 0, 1] };

function times(d: Vector, by: number): Vector {
  return [d[0] * by, d[1] * by, d[2] * by];
}

/** "Upper link, axle": which of a thing's points it is. */
export function nameOfPoint(point: Point): string {
  if (point.holds === "line") {
    return `${wordsOf(keysOf(point.path).at(-1) ?? "")} and all that is bolted to it`;
  }
  const keys = keysOf(point.path).filter((k) => k !== "at");
  const [top, id = ""] = keys;
  if (top === "axles" && keys.length === 2) return `${wordsOf(id)} axle, its line`;
  const last = keys.slice(keys[0] === "masses" ? 1 : -2).map((k) => wordsOf(k).toLowerCase());
  return wordsOf(last.join(", "));
}

/** Handles to take hold of the chosen part's points, by hand or with the arrow keys. */
export function Handles({ handles, units }: { handles: Handle[]; units: Units }) {
  const dragging = useStore((s) => s.pending);
  const step = units.metric ? 0.001 : kInch_m / 16;
  const stepText = units.metric ? "1 mm" : "1/16 in";
  const onKeyDown = (event: KeyboardEvent, { point, face }: Handle) => {
    const by = step * (event.shiftKey ? 16 : 1);
    const d = {
      ArrowRight: times(kRight[face], by),
      ArrowLeft: times(kRight[face], -by),
      ArrowUp: times(kUp[face], by),
      ArrowDown: times(kUp[face], -by),
    }[event.key];
    if (!d) return;
    event.preventDefault();
    event.stopPropagation();
    stepPoint(point, d);
  };
  return (
    <g className="handles">
      {handles.map((handle) => {
        const { point, face, dot } = handle;
        const isMoving = point.axes.some((axis) => {
          const path = join(point.path, axis);
          return path in dragging || join(path, "value") in dragging;
        });
        return (
          // biome-ignore lint/a11y/useSemanticElements: an SVG shape cannot be an HTML button.
          <g
            key={`${face} ${point.path} ${point.mirrored}`}
            className={`handle${isMoving ? " moving" : ""}`}
            role="button"
            tabIndex={0}
            aria-label={`${nameOfPoint(point)}, ${face} view: arrow keys move it ${stepText}, with Shift sixteen times that`}
            data-handle={point.path}
            data-face={face}
            transform={`translate(${dot.x.toFixed(1)} ${dot.y.toFixed(1)})`}
            onKeyDown={(event) => onKeyDown(event, handle)}
          >
            <circle className="handle-reach" r={kHold_px} />
            {point.holds === "line" ? (
              <rect className="handle-ring" x="-11" y="-9" width="22" height="18" rx="3" />
            ) : (
              <circle className="handle-ring" r="9" />
            )}
            <path className="handle-cross" d="M-15 0H-5M5 0H15M0 -15V-5M0 5V15" />
          </g>
        );
      })}
    </g>
  );
}
