import { type RefObject, useEffect, useMemo, useRef, useState } from "react";
import { choose, openNextOf } from "../api/choose";
import { isWithin } from "../api/pointer";
import { useAnswers, useStore, type View } from "../api/store";
import type { Vector } from "../api/types";
import { useChanged } from "../panels/common/changed";
import { useStateShown } from "../panels/common/state-shown";
import { Datums, Loads, loadsOf, Marks, spread, stationSpot } from "./annotations";
import { dragPoint } from "./drag-point";
import { FaceParts } from "./face-parts";
import { Floor, type Measured } from "./floor";
import { ForceArrows, useArrows } from "./force-arrows";
import {
  type Arrangement,
  arrange,
  type Dot,
  facesOf,
  type Lens,
  lensFor,
  onScreen,
  onSheet,
  pan,
  partsShown,
  type Size,
  union,
  zoom,
} from "./frame";
import { type Drag, useGestures } from "./gestures";
import { Handles, handleAt, handlesOf, type Moved } from "./handles";
import { belongsTo, boundsOf, inDrawingOrder, outlineKept } from "./outline";
import { holdAt, pick } from "./pick";
import { markedIn, placesOf } from "./places";
import { type Face, spotOf } from "./project";
import { ShapeStrokes } from "./shape-strokes";
import { dragAxle, inView, snap, walkParts } from "./sheet-hands";
import { useShape } from "./use-shape";
import { useSize } from "./use-size";
import { useUnchanged } from "./use-unchanged";

const kReach_px = 24;
const kMargin = { x: 24, top: 14, bottom: 56 };
/** Beside and above the side view the other views would lie under the keys. */
const kMarginBesides = { ...kMargin, top: 64 };

export interface SheetHandle {
  zoomBy: (factor: number) => void;
  fit: () => void;
  /** Closer to one axle. */
  lookAt: (axle: string) => void;
}

/** The truck to scale on its floor line: side, and top or end unfolded from it. */
export function Sheet({ view, handle }: { view: View; handle: RefObject<SheetHandle | null> }) {
  const scene = useAnswers((a) => a.scene);
  const units = useAnswers((a) => a.units);
  const findings = useAnswers((a) => a.report.findings);
  const bodies = useStore((s) => s.pose?.bodies);
  const steer_rad = useStore((s) => s.steer_rad);
  const chosen = useStore((s) => s.chosen);
  const opened = useStore((s) => s.finding);
  const work = useStore((s) => s.work);
  const stateShown = useStateShown();
  const changed = useChanged();

  const svg = useRef<SVGSVGElement>(null);
  const size = useSize(svg);
  const faces = facesOf(view);
  const [dragged, setDragged] = useState<Dragged | null>(null);
  const arrangedNow = useUnchanged(useMemo(() => arrange(scene), [scene]));
  // The sheet lies still under the hand that moves a point on it.
  const arrangement = dragged?.arrangement ?? arrangedNow;
  const fitted = useMemo(
    () =>
      lensFor(
        union(facesOf(view).map((f) => arrangement.bounds[f])),
        size,
        view === "side" ? kMargin : kMarginBesides,
      ),
    [arrangement, view, size],
  );
  const [own, setOwn] = useState<{ lens: Lens; view: View } | null>(null);
  const lens = dragged?.lens ?? (own?.view === view ? own.lens : fitted);
  const [measured, setMeasured] = useState<Measured | null>(null);

  const outlines = useMemo(() => {
    const parts = partsShown(scene, stateShown?.id ?? null);
    const draw = (face: Face) =>
      inDrawingOrder(parts, face).map((p, i) => outlineKept(p, i, { face, bodies, steer_rad }));
    return {
      side: draw("side"),
      top: view === "top" ? draw("top") : [],
      end: view === "end" ? draw("end") : [],
    };
  }, [scene, bodies, steer_rad, view, stateShown?.id]);

  const shape = useShape()?.shape;

  const arrows = useArrows();

  const places = useMemo(
    () => placesOf(outlines.side, markedIn(work, findings, opened)),
    [outlines.side, findings, opened, work],
  );
  const shownPlaces = useMemo(() => {
    const placed = places.map((place) => ({ place, ...onScreen(lens, place.spot) }));
    return spread(placed, size.width);
  }, [places, lens, size.width]);
  const floorY = onScreen(lens, { u: 0, v: -scene.floor_z }).y;

  const placeIn = (face: Face, p: Vector) => {
    const spot = spotOf(face, p);
    const o = arrangement.offsets[face];
    return onScreen(lens, { u: spot.u + o.u, v: spot.v + o.v });
  };

  const handles = handlesOf(
    scene.parts.filter((p) => p.path === chosen?.path && p.kind !== "cg"),
    { faces, bodies, moved: dragged, placeIn },
  );

  useEffect(() => {
    handle.current = {
      zoomBy: (factor) => setOwn({ lens: zoom(lens, middleOf(size), factor), view }),
      fit: () => setOwn(null),
      lookAt: (axle) => {
        const bounds = boundsOf(outlines.side.filter((o) => belongsTo(o, axle)));
        if (bounds) setOwn({ lens: lensFor(bounds, size, kMargin), view });
      },
    };
  }, [handle, lens, size, view, outlines]);

  /** The view under a place on the screen, and the place in that view's own coordinates. */
  const faceAt = (dot: Dot) => {
    const spot = onSheet(lens, dot);
    const face = faces.find((f) => {
      const b = arrangement.bounds[f];
      return (
        spot.u >= b.u0 - 0.2 && spot.u <= b.u1 + 0.2 && spot.v >= b.v0 - 0.2 && spot.v <= b.v1 + 0.2
      );
    });
    const o = arrangement.offsets[face ?? "side"];
    return { face: face ?? "side", spot: { u: spot.u - o.u, v: spot.v - o.v } };
  };
  useGestures(svg, {
    tap: (dot) => {
      const mark = shownPlaces.find(
        (s) => Math.hypot(s.markX - dot.x, s.markY - dot.y) <= kReach_px,
      );
      if (mark) {
        openNextOf(mark.place.findings.map((f) => f.id));
        return;
      }
      if (dot.y > floorY + 2) {
        setMeasured(null);
        return;
      }
      const { face, spot } = faceAt(dot);
      const picked = pick(outlines[face], spot, kReach_px / lens.scale);
      if (picked) choose(picked.outline.part.path, picked.end);
    },
    drag: (dot): Drag => {
      const held = handleAt(handles, dot);
      if (held) {
        const { point, face: seen } = held;
        const { scale } = lens;
        return dragPoint(
          point,
          (dx, dy) => inView(seen, dx / scale, dy / scale),
          (d) => setDragged(d && { point, d, lens, arrangement }),
        );
      }
      if (dot.y > floorY + 2) {
        const stationOf = (d: Dot) => snap(onSheet(lens, d).u, outlines.side, lens.scale);
        return {
          move: (now, from) => setMeasured({ from_m: stationOf(from), to_m: stationOf(now) }),
        };
      }
      const { face, spot } = faceAt(dot);
      const part = face === "top" ? undefined : holdAt(outlines[face], spot)?.part;
      if (part?.kind === "tyre" || part?.kind === "axle") {
        return dragAxle(
          part.body,
          face === "end" && part.kind === "tyre" ? part.centre[1] : null,
          lens,
        );
      }
      let last = dot;
      return {
        move: (now) => {
          setOwn((before) => ({
            lens: pan(before?.view === view ? before.lens : fitted, now.x - last.x, now.y - last.y),
            view,
          }));
          last = now;
        },
      };
    },
    zoom: (about, factor, dx, dy) =>
      setOwn((before) => {
        const from = before?.view === view ? before.lens : fitted;
        return { lens: pan(zoom(from, about, factor), dx, dy), view };
      }),
  });

  const isMeasuring = measured !== null;
  const loads = useMemo(() => {
    if (work !== "weigh" || !stateShown || isMeasuring) return [];
    return loadsOf(stateShown, scene, lens, arrangement);
  }, [work, stateShown, isMeasuring, scene, lens, arrangement]);
  const loadsAt = useMemo(() => loads.map((l) => l.x), [loads]);
  const chosenOutline = chosen && outlines.side.find((o) => o.part.path === chosen.path);
  const chosenEnd =
    chosenOutline?.ends.find((e) => isWithin(chosen?.end ?? "", e.path)) ?? chosenOutline?.ends[0];

  /** Where the texts of the arrows can't stand. */
  const taken = shownPlaces.map((s) => ({ x: s.markX, y: s.markY }));
  if (chosenEnd) taken.push(stationSpot(chosenEnd.at, lens, size));

  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is a group of its parts, not a fieldset.
    <svg
      ref={svg}
      className={`sheet-drawing${shape ? " loaded" : ""}`}
      role="group"
      aria-label="The truck from its left side, front to the left. Arrow keys go from part to part, Enter opens one."
      onKeyDown={(event) => walkParts(event, svg.current)}
    >
      <Floor
        lens={lens}
        size={size}
        units={units}
        measured={measured}
        taken={loadsAt}
        onMeasure={setMeasured}
      />
      <line
        className="datum-line"
        x1={onScreen(lens, { u: 0, v: 0 }).x}
        x2={onScreen(lens, { u: 0, v: 0 }).x}
        y1={Math.max(4, onScreen(lens, { u: 0, v: -scene.extent.top_z }).y)}
        y2={floorY}
      />
      {faces.map((face) => (
        <g key={face} className={`face ${face}`}>
          <FaceParts
            outlines={outlines[face]}
            lens={lens}
            offset={arrangement.offsets[face]}
            chosen={chosen?.path ?? null}
            changed={changed}
            work={work}
            reachable={face === "side"}
          />
          {shape && (
            <ShapeStrokes
              shape={shape}
              face={face}
              lens={lens}
              offset={arrangement.offsets[face]}
            />
          )}
          <ForceArrows arrows={arrows} place={(p) => placeIn(face, p)} marks={taken} />
        </g>
      ))}
      <Loads loads={loads} y={floorY} />
      <Handles handles={handles} units={units} />
      {!dragged && <Marks shown={shownPlaces} opened={opened} />}
      {chosenEnd && (
        <Datums
          at={chosenEnd.at}
          lens={lens}
          size={size}
          arrangement={arrangement}
          faces={faces}
          units={units}
        />
      )}
    </svg>
  );
}

/** A point under the hand, and how the sheet lay when it took hold. */
interface Dragged extends Moved {
  lens: Lens;
  arrangement: Arrangement;
}

function middleOf(size: Size): Dot {
  return { x: size.width / 2, y: size.height / 2 };
}
