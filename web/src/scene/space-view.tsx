import { type KeyboardEvent, type RefObject, useEffect, useMemo, useReducer, useRef } from "react";
import { choose, openNextOf } from "../api/choose";
import { isWithin, thingOf } from "../api/pointer";
import { move } from "../api/pose";
import { getState, useAnswers, useStore } from "../api/store";
import { useChanged } from "../panels/common/changed";
import { useDark } from "../panels/common/scheme";
import { useStateShown } from "../panels/common/state-shown";
import { clampTo, travelOf } from "../panels/motion/travel";
import { Marks, spread } from "./annotations";
import { dragPoint } from "./drag-point";
import { ForceArrows, useArrows } from "./force-arrows";
import { partsShown } from "./frame";
import { type Drag, useGestures } from "./gestures";
import { outlineKept } from "./outline";
import { markedIn, placesOf } from "./places";
import { pointsOfAll } from "./points";
import { carry, poseOf } from "./project";
import { WorstMark } from "./shape-strokes";
import type { SheetHandle } from "./sheet";
import { makeSpace, type Space } from "./space";
import type { Colours } from "./space-floor";
import { useShape } from "./use-shape";
import { useSize } from "./use-size";

const kReach_px = 24;

function coloursNow(weighing: boolean): Colours {
  const style = getComputedStyle(document.documentElement);
  const read = (name: string) => style.getPropertyValue(name).trim();
  return {
    ground: read("--paper"),
    ink: read("--ink"),
    faint: read("--line"),
    steel: read("--steel"),
    rubber: read("--rubber"),
    chosen: read("--chalk"),
    changed: read("--violet"),
    mass: read("--mass"),
    massEdge: read(weighing ? "--edge" : "--line"),
    stress: [0, 1, 2, 3, 4].map((level) => read(`--stress-${level}`)),
  };
}

/** The same picture looked at in space. */
export function SpaceView({ handle }: { handle: RefObject<SheetHandle | null> }) {
  const scene = useAnswers((a) => a.scene);
  const units = useAnswers((a) => a.units);
  const findings = useAnswers((a) => a.report.findings);
  const bodies = useStore((s) => s.pose?.bodies);
  const steer_rad = useStore((s) => s.steer_rad);
  const chosen = useStore((s) => s.chosen);
  const opened = useStore((s) => s.finding);
  const stateShown = useStateShown();
  const changed = useChanged();
  const dark = useDark();
  const work = useStore((s) => s.work);
  const weighing = work === "weigh";
  const canvas = useRef<HTMLCanvasElement>(null);
  const space = useRef<Space | null>(null);
  const size = useSize(canvas);
  const [, redraw] = useReducer((n: number) => n + 1, 0);

  useEffect(() => {
    if (!canvas.current) return;
    const made = makeSpace(canvas.current, coloursNow(false));
    space.current = made;
    handle.current = {
      zoomBy: (factor) => {
        made.zoom(factor, 0, 0);
        redraw();
      },
      fit: () => {
        made.home();
        redraw();
      },
      lookAt: (axle) => {
        made.lookAt(axle);
        redraw();
      },
    };
    return () => {
      made.dispose();
      space.current = null;
    };
  }, [handle]);
  useEffect(() => {
    space.current?.setSize(size);
    redraw();
  }, [size]);
  useEffect(() => {
    const step_m = units.metric ? 0.5 : 12 / (units.per_si.length?.factor ?? 39.37);
    space.current?.setScene(scene, partsShown(scene, stateShown?.id ?? null), step_m);
    redraw();
  }, [scene, units, stateShown?.id]);
  useEffect(() => {
    space.current?.setPose(bodies, steer_rad);
    redraw();
  }, [bodies, steer_rad]);
  useEffect(() => {
    space.current?.setTones({
      chosen: chosen?.path ?? null,
      isChanged: (path) => changed.some((c) => isWithin(c, path) && thingOf(c) === thingOf(path)),
      work,
    });
  }, [chosen, changed, work]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the colours follow the scheme.
  useEffect(() => {
    space.current?.setColours(coloursNow(weighing));
  }, [dark, weighing]);

  const bent = useShape();
  useEffect(() => {
    space.current?.setShape(bent?.shape ?? null, bent?.unbent ?? []);
  }, [bent]);
  const arrows = useArrows();
  const worst = bent && space.current?.whereIsPoint(bent.shape.worst);

  const places = useMemo(() => {
    const outlines = scene.parts.map((p, i) =>
      outlineKept(p, i, { face: "side", bodies, steer_rad }),
    );
    return placesOf(outlines, markedIn(work, findings, opened));
  }, [scene, bodies, steer_rad, work, findings, opened]);
  const shown = spread(
    places.flatMap((place) => {
      const dot = space.current?.whereIs(place.path);
      return dot ? [{ place, ...dot }] : [];
    }),
    size.width,
  );

  /** The chosen part's points, to be taken hold of. */
  const holds = pointsOfAll(
    scene.parts.filter((p) => p.path === chosen?.path && p.kind !== "cg"),
  ).flatMap((point) => {
    const at = carry(poseOf(bodies, point.body), point.q);
    const dot = space.current?.whereIsPoint(at);
    return dot ? [{ point, at, dot }] : [];
  });

  useGestures(canvas, {
    tap: (dot) => {
      const mark = shown.find((s) => Math.hypot(s.markX - dot.x, s.markY - dot.y) <= kReach_px);
      if (mark) {
        openNextOf(mark.place.findings.map((f) => f.id));
        return;
      }
      const part = space.current?.pick(dot);
      if (part) choose(part.path);
    },
    drag: (dot) => {
      const held = holds.find((h) => Math.hypot(h.dot.x - dot.x, h.dot.y - dot.y) <= kReach_px);
      if (held) {
        const moveOf = (dx: number, dy: number) =>
          space.current?.moveOf(held.at, dx, dy) ?? ([0, 0, 0] as const);
        return dragPoint(held.point, moveOf, () => undefined);
      }
      const part = space.current?.pick(dot);
      if (part?.kind === "tyre") return dragWheel(part.body, part.centre[1]);
      let last = dot;
      return {
        move: (now) => {
          space.current?.orbit(now.x - last.x, now.y - last.y);
          last = now;
          requestAnimationFrame(redraw);
        },
      };
    },
    zoom: (_about, factor, dx, dy) => {
      space.current?.zoom(factor, dx, dy);
      requestAnimationFrame(redraw);
    },
  });

  const onKeyDown = (event: KeyboardEvent) => {
    const turn = {
      ArrowLeft: [-12, 0],
      ArrowRight: [12, 0],
      ArrowUp: [0, 12],
      ArrowDown: [0, -12],
    }[event.key];
    if (!turn) return;
    event.preventDefault();
    space.current?.orbit(turn[0] ?? 0, turn[1] ?? 0);
    requestAnimationFrame(redraw);
  };

  return (
    <>
      <div
        className="space"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys turn what is in it.
        tabIndex={0}
        aria-label="The truck in space. Arrow keys turn it; the side view has every part for the keyboard."
        onKeyDown={onKeyDown}
      >
        <canvas ref={canvas} />
      </div>
      <svg className="space-marks" aria-hidden="true">
        {worst && <WorstMark x={worst.x} y={worst.y} />}
        <ForceArrows
          arrows={arrows}
          place={(p) => space.current?.whereIsPoint(p) ?? null}
          marks={shown.map((s) => ({ x: s.markX, y: s.markY }))}
        />
        <Marks shown={shown} opened={opened} />
        {holds.map(({ point, dot }) => (
          <circle
            key={`${point.path} ${point.mirrored}`}
            className="handle-ring"
            cx={dot.x}
            cy={dot.y}
            r="9"
          />
        ))}
      </svg>
    </>
  );
}

const kRise_m_per_px = 0.0015;

/** A finger on a wheel lifts that wheel. */
function dragWheel(body: string, wheel_y: number): Drag {
  const { answers, question } = getState();
  const axle = answers?.report.axles.find((a) => a.id === body);
  const travel = axle ? travelOf(axle) : null;
  if (!travel) return { move: () => undefined };
  const heave0 = question.heave?.[body] ?? 0;
  const roll0 = question.roll?.[body] ?? 0;
  return {
    move: (now, from) => {
      const up_m = (from.y - now.y) * kRise_m_per_px;
      move(
        { [body]: clampTo(travel.droop_m, travel.bump_m, heave0 + up_m / 2) },
        { [body]: clampTo(-travel.roll_rad, travel.roll_rad, roll0 + up_m / (2 * wheel_y)) },
      );
    },
  };
}
