import { memo, useMemo } from "react";
import { type Lens, onScreen } from "./frame";
import type { FrameShape } from "./frame-shape";
import { type Face, hullOf, type Spot, spotOf } from "./project";

interface ShapeProps {
  shape: FrameShape;
  face: Face;
  lens: Lens;
  offset: Spot;
}

/** How far off a member is, the nearest last: what lies before what in a view. */
const kNear = { side: 1, top: 2, end: 0 } as const;

/** The frame under load in one view: its stretches by their stress, and the worst place. */
export const ShapeStrokes = memo(function ShapeStrokes(props: ShapeProps) {
  const { shape, face, lens, offset } = props;
  const areas = useMemo(() => {
    const near = ({ ends: [a] }: FrameShape["stretches"][number]) => a[0]?.[kNear[face]] ?? 0;
    return [...shape.stretches]
      .sort((a, b) => near(a) - near(b))
      .map(({ level, ends }) => ({
        level,
        spots: hullOf(ends.flat().map((p) => spotOf(face, p))),
      }));
  }, [shape, face]);
  const place = (s: Spot) => onScreen(lens, { u: s.u + offset.u, v: s.v + offset.v });
  const worst = place(spotOf(face, shape.worst));
  return (
    <g className="frame-shape">
      {areas.map(({ level, spots }, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: stretches have no names of their own.
          key={`${i}`}
          className={`stress-${level}`}
          d={`M${spots
            .map((s) => {
              const { x, y } = place(s);
              return `${x.toFixed(1)} ${y.toFixed(1)}`;
            })
            .join("L")}Z`}
        />
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
