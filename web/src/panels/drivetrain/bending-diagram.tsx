import { memo, useRef } from "react";
import { useAnswers } from "../../api/store";
import type { DriveCase, DriveLoad, Units } from "../../api/types";
import { inUnit, unitOf } from "../../format/quantity";
import { capital } from "../../format/text";
import { useSize } from "../../scene/use-size";
import { ticksBetween } from "../compare/ticks-between";

const kPlot_px = 150;
const kTop_px = 14;
const kLeft_px = 56;
const kRight_px = 12;
const kLine_px = 18;
const kChar_px = 7.6;

/** How the cases are bent from front to rear, drawn on the side that is pulled. */
export const BendingDiagram = memo(function BendingDiagram(props: {
  load: DriveLoad;
  cases: DriveCase[];
}) {
  const { load, cases } = props;
  const units = useAnswers((a) => a.units);
  const svg = useRef<SVGSVGElement>(null);
  const { width } = useSize(svg);
  const moments = load.diagram.map((d) => inUnit(d.moment, "torque", units));
  // What lies further back is further to the right, as on the truck.
  const stations = load.diagram.map((d) => -d.p[0]);
  const faces = facesOf(cases);
  const [from, to] = [Math.min(...stations, ...faces), Math.max(...stations, ...faces)];
  const [least, most] = [Math.min(0, ...moments), Math.max(0, ...moments)];
  const inner = width - kLeft_px - kRight_px;
  const xOf = (station: number) => kLeft_px + ((station - from) / (to - from || 1)) * inner;
  const yOf = (moment: number) => kTop_px + ((moment - least) / (most - least || 1)) * kPlot_px;
  const names = namesOf(cases, xOf, width);
  const rows = Math.max(1, ...names.map((n) => n.row + 1));
  const height = kTop_px + kPlot_px + 12 + rows * kLine_px;
  const dots = moments.map((m, i) => `${xOf(stations[i] ?? 0).toFixed(1)} ${yOf(m).toFixed(1)}`);
  const zero = yOf(0).toFixed(1);
  const area = `M${xOf(stations[0] ?? 0).toFixed(1)} ${zero}L${dots.join("L")}L${xOf(
    stations.at(-1) ?? 0,
  ).toFixed(1)} ${zero}Z`;
  const bottom = kTop_px + kPlot_px;
  return (
    <figure className="bending">
      <figcaption>
        Bending along the cases, {unitOf("torque", units)}
        <span className="soft">
          {" "}
          Drawn on the pulled side: below the line the underside is pulled. Its own scale for this
          load.
        </span>
      </figcaption>
      <svg ref={svg} height={height} role="img" aria-label={inWords(load, units)}>
        {ticksBetween(least, most).map((tick) => (
          <g key={tick}>
            <line
              className="grid"
              x1={kLeft_px}
              x2={width - kRight_px}
              y1={yOf(tick)}
              y2={yOf(tick)}
            />
            <text className="tick" x={kLeft_px - 8} y={yOf(tick) + 4.5}>
              {tick.toLocaleString("en-US").replace("-", "−")}
            </text>
          </g>
        ))}
        {faces.map((station) => (
          <line
            key={station}
            className="face-line"
            x1={xOf(station)}
            x2={xOf(station)}
            y1={kTop_px}
            y2={bottom + 6}
          />
        ))}
        <path className="moment" d={area} />
        <line className="zero" x1={kLeft_px} x2={width - kRight_px} y1={zero} y2={zero} />
        {load.mounts.map(({ label, path, p }) => (
          <path
            key={`${path} ${label}`}
            className="support"
            transform={`translate(${xOf(-p[0]).toFixed(1)} ${zero})`}
            d="M0 0L-7 12H7Z"
          />
        ))}
        {names.map(({ text, x, row }) => (
          <text key={text + x} x={x} y={bottom + 18 + row * kLine_px}>
            {text}
          </text>
        ))}
      </svg>
    </figure>
  );
});

/** Stations of the cases' faces, each once. */
function facesOf(cases: DriveCase[]): number[] {
  return [...new Set(cases.flatMap(({ a, b }) => [-a[0], -b[0]]).map((s) => Number(s.toFixed(4))))];
}

/** The cases' names under their middles; a row lower where they would touch. */
function namesOf(cases: DriveCase[], xOf: (station: number) => number, width: number) {
  const ends: number[] = [];
  return cases.map(({ label, a, b }) => {
    const text = capital(label);
    const half = (text.length * kChar_px) / 2;
    const middle = (xOf(-a[0]) + xOf(-b[0])) / 2;
    const x = Math.min(width - half, Math.max(half, middle));
    const free = ends.findIndex((end) => end < x - half - 6);
    const row = free < 0 ? ends.length : free;
    ends[row] = x + half;
    return { text, x, row };
  });
}

/** The diagram for those who can't see it. */
function inWords(load: DriveLoad, units: Units): string {
  const figure = (si: number) =>
    `${Number(inUnit(si, "torque", units).toPrecision(3))} ${unitOf("torque", units)}`;
  const moments = load.diagram.map((d) => d.moment);
  return `Bending along the cases, ${load.label}: least ${figure(
    Math.min(...moments),
  )}, greatest ${figure(Math.max(...moments))}.`;
}
