import { useMemo } from "react";
import { useLoadShown } from "../api/drive-look";
import { useStore } from "../api/store";
import type { DriveLoad, Vector } from "../api/types";
import type { Dot } from "./frame";
import { add, type Bodies, carry, poseOf, turn } from "./project";

/** A force as it is drawn, in V. */
export interface Arrow {
  from: Vector;
  to: Vector;
  text: string;
}

/** How long the greatest force of a load is drawn. */
const kLongest_m = 0.42;
/** Shorter than this an arrow is seen from its end. */
const kStub_px = 5;
const kHead_px = 10;
const kLine_px = 16;
const kChar_px = 7.6;
const kMark_px = 18;

/** What each mount does to the cases, to one scale within the load. */
export function arrowsOf(load: DriveLoad, bodies: Bodies | undefined): Arrow[] {
  const size = (f: Vector) => Math.hypot(f[0], f[1], f[2]);
  const most = Math.max(...load.mounts.map(({ f }) => size(f)));
  if (!(most > 0)) return [];
  const pose = poseOf(bodies, "frame");
  return load.mounts.map(({ label, along, p, f }) => {
    const from = carry(pose, p);
    const side = /\b(left|right)\b/i.exec(label)?.[1]?.toLowerCase();
    return {
      from,
      to: add(from, turn(pose, f), kLongest_m / most),
      text: side ? `${along.text} ${side}` : along.text,
    };
  });
}

/** The arrows of the load that is shown, as the truck stands. */
export function useArrows(): Arrow[] {
  const load = useLoadShown();
  const bodies = useStore((s) => s.pose?.bodies);
  return useMemo(() => (load ? arrowsOf(load, bodies) : []), [load, bodies]);
}

interface Placed {
  from: Dot;
  to: Dot;
  text: string;
  /** Where the text stands; null: the force is seen from its end, and told in another view. */
  label: Dot | null;
}

const lengthOf = ({ from, to }: { from: Dot; to: Dot }) => Math.hypot(to.x - from.x, to.y - from.y);

/** Texts stand by their arrows, where they cover neither each other nor a mark. */
export function placeArrows(
  arrows: Arrow[],
  place: (p: Vector) => Dot | null,
  marks: Dot[] = [],
): Placed[] {
  const placed: Placed[] = [];
  for (const arrow of arrows) {
    const [from, to] = [place(arrow.from), place(arrow.to)];
    if (!from || !to) continue;
    const { text } = arrow;
    if (lengthOf({ from, to }) < kStub_px) {
      placed.push({ from, to, text, label: null });
      continue;
    }
    const half = (kChar_px * text.length) / 2;
    const isFree = (at: Dot) =>
      !marks.some((m) => isNear(m, at, kMark_px + half, kMark_px + 6)) &&
      !placed.some(
        (p) => p.label && isNear(p.label, at, half + (kChar_px * p.text.length) / 2 + 4, kLine_px),
      );
    const spots = spotsBy(from, to, half);
    placed.push({ from, to, text, label: spots.find(isFree) ?? spots[0] ?? to });
  }
  return placed;
}

/** Where a text may stand by an arrow, the best first: at its tip, beside it, then row by row off
 * its tip. */
function spotsBy(from: Dot, to: Dot, half: number): Dot[] {
  const down = to.y > from.y ? 1 : -1;
  const tip = { x: to.x, y: to.y + (down > 0 ? 18 : -8) };
  const beside = half + 10;
  const sides = [to.y + 5, (from.y + to.y) / 2 + 5, from.y + 5].flatMap((y) =>
    [-beside, beside].map((dx) => ({ x: to.x + dx, y })),
  );
  const rows = [1, 2, 3].map((row) => ({ x: tip.x, y: tip.y + row * down * kLine_px }));
  return [tip, ...sides, ...rows];
}

function isNear(a: Dot, b: Dot, dx: number, dy: number): boolean {
  return Math.abs(a.x - b.x) < dx && Math.abs(a.y - b.y) < dy;
}

interface ForceArrowsProps {
  arrows: Arrow[];
  place: (p: Vector) => Dot | null;
  /** Places that texts keep clear of. */
  marks?: Dot[];
}

/** Forces on the cases, in the colour of forces. */
export function ForceArrows({ arrows, place, marks }: ForceArrowsProps) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus; the sheet has the numbers.
    <g className="forces" aria-hidden="true">
      {placeArrows(arrows, place, marks).map(({ from, to, text, label }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the mounts of a load keep their order.
        <g key={`${i}`}>
          <path className="under" d={shapeOf(from, to)} />
          <path d={shapeOf(from, to)} />
          {label && (
            <text x={label.x.toFixed(1)} y={label.y.toFixed(1)}>
              {text}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** A line with a head; a ring where the force is seen from its end. */
function shapeOf(from: Dot, to: Dot): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = lengthOf({ from, to });
  const at = (x: number, y: number) => `${x.toFixed(1)} ${y.toFixed(1)}`;
  if (length < kStub_px) {
    return `M${at(from.x - 5, from.y)}a5 5 0 1 0 10 0a5 5 0 1 0 -10 0`;
  }
  const head = Math.min(kHead_px, length * 0.6);
  const [ux, uy] = [(dx / length) * head, (dy / length) * head];
  const barb = (turn: number) => at(to.x - ux - turn * 0.5 * uy, to.y - uy + turn * 0.5 * ux);
  return `M${at(from.x, from.y)}L${at(to.x, to.y)}M${barb(1)}L${at(to.x, to.y)}L${barb(-1)}`;
}
