import type { Scene, StateReport, Units, Vector } from "../api/types";
import { lengthText } from "../format/quantity";
import { MarkShape } from "../panels/common/mark";
import { type Arrangement, type Dot, type Lens, onScreen, type Size } from "./frame";
import type { Place } from "./places";
import { type Face, spotOf } from "./project";

/** Height on the screen of a point's station dimension. */
function levelOf(lens: Lens, at: Vector): number {
  return Math.max(18, onScreen(lens, spotOf("side", at)).y - 34);
}

/** Where the text of a point's station stands. */
export function stationSpot(at: Vector, lens: Lens, size: Size): Dot {
  const middle = onScreen(lens, { u: -at[0] / 2, v: 0 }).x;
  return { x: clamp(middle, 60, size.width - 60), y: levelOf(lens, at) - 6 };
}

/** The three datum dimensions of a chosen point, and the lines that lead it from view to view. */
export function Datums(props: {
  at: Vector;
  lens: Lens;
  size: Size;
  arrangement: Arrangement;
  faces: Face[];
  units: Units;
}) {
  const { at, lens, size, arrangement, faces, units } = props;
  const side = onScreen(lens, spotOf("side", at));
  const front = onScreen(lens, { u: 0, v: 0 });
  const shown = (face: Face) => {
    const s = spotOf(face, at);
    const o = arrangement.offsets[face];
    return onScreen(lens, { u: s.u + o.u, v: s.v + o.v });
  };
  const level = levelOf(lens, at);
  const station = stationSpot(at, lens, size);
  return (
    <g className="dimension">
      {faces.includes("top") && (
        <>
          <line className="lead" x1={side.x} x2={side.x} y1={side.y} y2={shown("top").y} />
          <circle className="spot" cx={shown("top").x} cy={shown("top").y} r="5" />
        </>
      )}
      {faces.includes("end") && (
        <>
          <line className="lead" x1={side.x} x2={shown("end").x} y1={side.y} y2={side.y} />
          <circle className="spot" cx={shown("end").x} cy={shown("end").y} r="5" />
        </>
      )}
      <line x1={side.x} x2={side.x} y1={level - 5} y2={front.y} />
      <line className="arrows" x1={front.x} x2={side.x} y1={level} y2={level} />
      <text x={station.x} y={station.y}>
        {lengthText(-at[0], units)}
      </text>
      <text
        className="beside"
        x={side.x + 8}
        y={Math.min((side.y + front.y) / 2 + 4, front.y - 28)}
      >
        {`${lengthText(at[2], units)} up`}
        <tspan x={side.x + 8} dy="18">
          {offsetText(at[1], units)}
        </tspan>
      </text>
      <circle className="spot" cx={side.x} cy={side.y} r="5" />
    </g>
  );
}

function offsetText(y: number, units: Units): string {
  if (y === 0) return "on the centreline";
  return `${lengthText(Math.abs(y), units)} ${y > 0 ? "left" : "right"}`;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/** What each axle puts on the floor, and where on the screen. */
export function loadsOf(state: StateReport, scene: Scene, lens: Lens, arrangement: Arrangement) {
  return state.loads.flatMap((load) => {
    const axle = scene.parts.find((p) => p.kind === "axle" && p.body === load.axle);
    if (axle?.kind !== "axle") return [];
    const u = -axle.a[0] + arrangement.offsets.side.u;
    return [{ x: onScreen(lens, { u, v: 0 }).x, text: load.total.text }];
  });
}

/** The loads on the floor, in the colour of forces. */
export function Loads(props: { loads: { x: number; text: string }[]; y: number }) {
  return (
    <g className="loads">
      {props.loads.map(({ x, text }) => (
        <g key={text + x} transform={`translate(${x.toFixed(1)} ${props.y.toFixed(1)})`}>
          <path d="M0 30V6M-5 14L0 4L5 14" />
          <text y="46">{text}</text>
        </g>
      ))}
    </g>
  );
}

export interface ShownPlace {
  place: Place;
  x: number;
  y: number;
  markX: number;
  markY: number;
}

const kApart_px = 44;
const kAbove_px = 58;
/** From the edges of the picture: a mark and how many there are. */
const kEdge_px = 26;
const kTop_px = 18;

/**
 * Marks stand above what they are about, moved apart where they would cover each other: to the nearest room beside, or a row
 * higher where the picture has none. What is out of the picture has its mark there too.
 */
export function spread(
  places: { place: Place; x: number; y: number }[],
  width: number,
): ShownPlace[] {
  const shown: ShownPlace[] = [];
  for (const { place, x, y } of [...places].sort((a, b) => a.x - b.x)) {
    const isFree = (at: { markX: number; markY: number }) =>
      shown.every(
        (s) =>
          Math.abs(s.markX - at.markX) >= kApart_px || Math.abs(s.markY - at.markY) >= kApart_px,
      );
    const isIn = x >= 0 && x <= width;
    const markX = isIn ? clamp(x, kEdge_px, width - kEdge_px) : x;
    const above = { markX, markY: Math.max(kTop_px, y - kAbove_px) };
    const free = isFree(above) || !isIn ? above : roomAround(above, width).find(isFree);
    shown.push({ place, x, y, ...(free ?? above) });
  }
  return shown;
}

/** Places for a mark inside the picture, the nearest to where it would be first, row by row upwards. */
function roomAround(at: { markX: number; markY: number }, width: number) {
  const room: { markX: number; markY: number }[] = [];
  for (let markY = at.markY; markY >= kTop_px; markY -= kApart_px) {
    for (let off = 0; off < width; off += kApart_px) {
      for (const markX of [at.markX + off, at.markX - off]) {
        if (markX >= kEdge_px && markX <= width - kEdge_px) room.push({ markX, markY });
      }
    }
  }
  return room;
}

export function Marks({ shown, opened }: { shown: ShownPlace[]; opened: string | null }) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus; the tray has it all.
    <g className="places" aria-hidden="true">
      {shown.map(({ place, x, y, markX, markY }) => {
        const isOpen = place.findings.some((f) => f.id === opened);
        return (
          <g
            key={place.findings[0]?.id}
            className={`place ${place.verdict}${isOpen ? " opened" : ""}`}
          >
            <line className="leader" x1={x} y1={y} x2={markX} y2={markY} />
            <circle className="leader-foot" cx={x} cy={y} r="2.5" />
            <g transform={`translate(${markX.toFixed(1)} ${markY.toFixed(1)})`}>
              <circle className="halo" r={isOpen ? 19 : 15} />
              <MarkShape kind={place.verdict} size={20} />
              {place.findings.length > 1 && (
                <text className="count" x="16" y="-6">
                  {place.findings.length}
                </text>
              )}
            </g>
          </g>
        );
      })}
    </g>
  );
}
