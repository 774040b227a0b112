import { useMemo, useRef } from "react";
import { isWithin, thingOf } from "../../api/pointer";
import type { ComparedSide, Comparison } from "../../api/shop-types";
import type { Path } from "../../api/types";
import { arrange, type Bounds, lensFor, onScreen, partsShown, union } from "../../scene/frame";
import { inDrawingOrder, outlineOf } from "../../scene/outline";
import { PartShape } from "../../scene/strokes";
import { useSize } from "../../scene/use-size";
import { MarkShape } from "../common/mark";

const kMargin = { x: 10, top: 8, bottom: 10 };
const kAsDrawn = { face: "side", bodies: undefined, steer_rad: 0 } as const;

/** Two trucks in elevation, to one scale and on one floor line. */
export function StillPictures({ comparison }: { comparison: Comparison }) {
  const { a, b, inputs } = comparison;
  const bounds = useMemo(
    () => union([arrange(a.scene).bounds.side, arrange(b.scene).bounds.side]),
    [a.scene, b.scene],
  );
  const changed = inputs.map((i) => i.path);
  return (
    <div className="stills">
      <Still side={a} bounds={bounds} changed={[]} />
      <Still side={b} bounds={bounds} changed={changed} />
    </div>
  );
}

function Still(props: { side: ComparedSide; bounds: Bounds; changed: Path[] }) {
  const { side, bounds, changed } = props;
  const svg = useRef<SVGSVGElement>(null);
  const size = useSize(svg);
  const lens = lensFor(bounds, size, kMargin);
  const ride = side.report.states[0]?.id ?? null;
  const outlines = useMemo(
    () => inDrawingOrder(partsShown(side.scene, ride)).map((p, i) => outlineOf(p, i, kAsDrawn)),
    [side.scene, ride],
  );
  const floorY = onScreen(lens, { u: 0, v: -side.scene.floor_z }).y;
  const isChanged = (path: Path) =>
    changed.some((c) => isWithin(c, path) && thingOf(c) === thingOf(path));
  const { stop, look, good } = side.report.verdicts;
  return (
    <figure className="still">
      <figcaption>
        <strong>{side.label}</strong>
        <span className="still-marks">
          {(
            [
              ["stop", stop],
              ["look", look],
              ["good", good],
            ] as const
          ).map(([kind, count]) => (
            <span key={kind}>
              <svg width="20" height="20" viewBox="-10 -10 20 20" role="img" aria-label={kind}>
                <MarkShape kind={kind} size={16} />
              </svg>{" "}
              {count}
            </span>
          ))}
        </span>
      </figcaption>
      <svg ref={svg} className="still-drawing quiet-masses" role="img" aria-label={side.label}>
        <line className="floor-line" x1="0" x2={size.width} y1={floorY} y2={floorY} />
        {outlines.map((outline) => (
          <PartShape
            key={outline.key}
            outline={outline}
            lens={lens}
            offset={{ u: 0, v: 0 }}
            tone={isChanged(outline.part.path) ? "changed" : ""}
            chosen={false}
            reachable={false}
            first={false}
          />
        ))}
      </svg>
    </figure>
  );
}
