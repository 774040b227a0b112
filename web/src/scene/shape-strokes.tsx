import { memo, useMemo } from "react";
import { type Lens, onScreen } from "./frame";
import type { FrameShape, Stretch } from "./frame-shape";
import { type Face, hullOf, type Spot, spotOf } from "./project";

interface ShapeProps {
  shape: FrameShape;
  face: Face;
  lens: Lens;
  offset: Spot;
}

/** Which coordinate tells how near a member is, the nearest last. */
const kNear = { side: 1, top: 2, end: 0 } as const;

function nearness(member: Stretch[], face: Face): number {
  const near = member.map(({ ends: [a] }) => a[0]?.[kNear[face]] ?? 0);
  return near.reduce((sum, x) => sum + x, 0) / Math.max(1, near.length);
}

/** The frame under load in one view: its stretches by their stress, and the worst place. */
export const ShapeStrokes = memo(function ShapeStrokes(props: ShapeProps) {
  const { shape, face, lens, offset } = props;
  const members = useMemo(
    () =>
      [...shape.members]
        .sort((a, b) => nearness(a, face) - nearness(b, face))
        .map((member) =>
          member.map(({ level, ends }) => ({
            level,
            spots: hullOf(ends.flat().map((p) => spotOf(face, p))),
          })),
        ),
    [shape, face],
  );
  const place = (s: Spot) => onScreen(lens, { u: s.u + offset.u, v: s.v + offset.v });
  const pathOf = (spots: Spot[]) =>
    `M${spots
      .map((s) => {
        const { x, y } = place(s);
        return `${x.toFixed(1)} ${y.toFixed(1)}`;
      })
      .join("L")}Z`;
  const worst = place(spotOf(face, shape.worst));
  return (
    <g className="frame-shape">
      {members.map((member, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: members keep their order.
        <g key={`${i}`}>
          <path className="around" d={member.map(({ spots }) => pathOf(spots)).join("")} />
          {member.map(({ level, spots }, k) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: stretches have no names of their own.
            <path key={`${k}`} className={`stress-${level}`} d={pathOf(spots)} />
          ))}
        </g>
      ))}
      <WorstMark x={worst.x} y={worst.y} />
    </g>
  );
});

/** A ring with four ticks: where the frame is stressed most. */
export function WorstMark({ x, y }: { x: number; y: number }) {
  const ticks = "M-17 0H-8M8 0H17M0 -17V-8M0 8V17";
  return (
    <g className="worst-mark" transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <g className="under">
        <circle r="8" />
        <path d={ticks} />
      </g>
      <circle r="8" />
      <path d={ticks} />
    </g>
  );
}
