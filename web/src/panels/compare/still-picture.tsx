import { type MouseEvent, useMemo, useRef } from "react";
import { choose } from "../../api/choose";
import type { ComparedSide, Comparison } from "../../api/shop-types";
import { useStore } from "../../api/store";
import type { Path } from "../../api/types";
import { FaceParts } from "../../scene/face-parts";
import {
  arrange,
  type Bounds,
  lensFor,
  onScreen,
  onSheet,
  partsShown,
  union,
} from "../../scene/frame";
import { inDrawingOrder, outlineOf } from "../../scene/outline";
import { pick } from "../../scene/pick";
import { walkParts } from "../../scene/sheet-hands";
import { useSize } from "../../scene/use-size";
import { MarkShape } from "../common/mark";

const kReach_px = 24;
const kNowhere = { u: 0, v: 0 };
const kMargin = { x: 10, top: 8, bottom: 10 };
const kAsDrawn = { face: "side", bodies: undefined, steer_rad: 0 } as const;

/** Where the one truck stands on other works: the two in elevation, to one scale. */
export function StillPictures() {
  const comparison = useStore((s) => s.comparison);
  return (
    <section className="stills" aria-label="The two side by side" aria-busy={comparison === null}>
      {comparison && <Stills {...comparison} />}
    </section>
  );
}

function Stills({ a, b, inputs }: Comparison) {
  const bounds = useMemo(
    () => union([arrange(a.scene).bounds.side, arrange(b.scene).bounds.side]),
    [a.scene, b.scene],
  );
  const changed = inputs.map((i) => i.path);
  return (
    <>
      <Still side={a} bounds={bounds} changed={[]} />
      <Still side={b} bounds={bounds} changed={changed} />
    </>
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
  const tap = ({ clientX, clientY }: MouseEvent) => {
    const box = svg.current?.getBoundingClientRect();
    if (!box) return;
    const spot = onSheet(lens, { x: clientX - box.left, y: clientY - box.top });
    const picked = pick(outlines, spot, kReach_px / lens.scale);
    if (picked) choose(picked.outline.part.path, picked.end);
  };
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
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing is a group of its parts, not a fieldset. */}
      <svg
        ref={svg}
        className="still-drawing"
        role="group"
        aria-label={`${side.label}, from its left side. Arrow keys go from part to part, Enter opens one.`}
        onClick={(event) => tap(event)}
        onKeyDown={(event) => walkParts(event, svg.current)}
      >
        <line className="floor-line" x1="0" x2={size.width} y1={floorY} y2={floorY} />
        <g className="face side">
          <FaceParts
            outlines={outlines}
            lens={lens}
            offset={kNowhere}
            chosen={null}
            changed={changed}
            work="compare"
            reachable={true}
          />
        </g>
      </svg>
    </figure>
  );
}
