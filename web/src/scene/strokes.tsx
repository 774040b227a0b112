import { memo } from "react";
import type { Stroke } from "./draw-part";
import { type Lens, onScreen } from "./frame";
import type { Outline } from "./outline";
import type { Spot } from "./project";

const kLeastBand_px = 5;
const kEdge_px = 3;

function pathOf(lens: Lens, offset: Spot, spots: Spot[], closed: boolean): string {
  const dots = spots.map((s) => {
    const d = onScreen(lens, { u: s.u + offset.u, v: s.v + offset.v });
    return `${d.x.toFixed(1)} ${d.y.toFixed(1)}`;
  });
  return `M${dots.join("L")}${closed ? "Z" : ""}`;
}

function StrokeShape({ stroke, lens, offset }: { stroke: Stroke; lens: Lens; offset: Spot }) {
  switch (stroke.form) {
    case "area":
      return <path className={stroke.look} d={pathOf(lens, offset, stroke.spots, true)} />;
    case "line":
      return (
        <path className={`open ${stroke.look}`} d={pathOf(lens, offset, stroke.spots, false)} />
      );
    case "band": {
      const d = pathOf(lens, offset, stroke.spots, false);
      const width = Math.max(kLeastBand_px, stroke.width * lens.scale);
      const cap = stroke.butt ? "butt" : "round";
      return (
        <>
          <path
            className={`band ${stroke.look}`}
            d={d}
            style={{ strokeWidth: width, strokeLinecap: cap }}
          />
          <path
            className={`core ${stroke.look}`}
            d={d}
            style={{ strokeWidth: Math.max(1, width - kEdge_px), strokeLinecap: cap }}
          />
        </>
      );
    }
    case "dot": {
      const { x, y } = onScreen(lens, {
        u: stroke.spot.u + offset.u,
        v: stroke.spot.v + offset.v,
      });
      if (stroke.look === "cg") return <BalancePoint x={x} y={y} />;
      return (
        <circle className={stroke.look} cx={x} cy={y} r={Math.max(2, stroke.radius * lens.scale)} />
      );
    }
  }
}

/** The usual sign of a centre of gravity: a circle in four quarters, two of them black. */
function BalancePoint({ x, y }: { x: number; y: number }) {
  const r = 10;
  return (
    <g className="cg" transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <circle className="cg-ground" r={r} />
      <path
        className="cg-quarter"
        d={`M0 0V${-r}A${r} ${r} 0 0 1 ${r} 0ZM0 0V${r}A${r} ${r} 0 0 1 ${-r} 0Z`}
      />
      <circle className="cg-edge" r={r} />
    </g>
  );
}

interface PartShapeProps {
  outline: Outline;
  lens: Lens;
  offset: Spot;
  tone: string;
  chosen: boolean;
  /** In the order of the Tab and arrow keys. */
  reachable: boolean;
  /** Where the Tab key enters while nothing is chosen. */
  first: boolean;
}

/** One part of the truck in one view; a button for the keyboard and the screen reader. */
export const PartShape = memo(function PartShape(props: PartShapeProps) {
  const { outline, lens, offset, tone, chosen, reachable, first } = props;
  const strokes = outline.strokes.map((stroke, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a part's strokes keep their order.
    <StrokeShape key={`${i}`} stroke={stroke} lens={lens} offset={offset} />
  ));
  const className = `part ${outline.part.kind} ${tone}${chosen ? " chosen" : ""}`;
  if (!reachable) return <g className={className}>{strokes}</g>;
  return (
    // biome-ignore lint/a11y/useSemanticElements: an SVG shape cannot be an HTML button.
    <g
      className={className}
      role="button"
      aria-label={outline.label}
      aria-pressed={chosen}
      tabIndex={chosen || first ? 0 : -1}
      data-key={outline.key}
      data-path={outline.part.path}
    >
      {strokes}
    </g>
  );
});
