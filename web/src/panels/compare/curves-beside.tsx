import type { Comparison } from "../../api/shop-types";
import { useAnswers } from "../../api/store";
import type { Curve, Report, Units } from "../../api/types";
import { inUnit, unitOf } from "../../format/quantity";
import { wordsOf } from "../../format/text";
import { ticksBetween } from "./ticks-between";

const kBox = { width: 360, height: 190, left: 46, right: 8, top: 8, bottom: 24 };
const kMost = 12;

interface Pair {
  key: string;
  label: string;
  a: Curve;
  b: Curve;
}

function pairsOf(a: Report, b: Report): Pair[] {
  return a.axles.flatMap((axle) => {
    const other = b.axles.find((x) => x.id === axle.id);
    return axle.curves.flatMap((curve) => {
      const match = other?.curves.find((c) => c.id === curve.id);
      const differs = match && JSON.stringify(match.y) !== JSON.stringify(curve.y);
      const label = `${axle.label}: ${curve.label.toLowerCase()}`;
      return differs ? [{ key: `${axle.id} ${curve.id}`, label, a: curve, b: match }] : [];
    });
  });
}

/** The curves that are not alike, laid over each other: the first dashed, the second in violet. */
export function Curves({ comparison }: { comparison: Comparison }) {
  const units = useAnswers((s) => s.units);
  const pairs = pairsOf(comparison.a.report, comparison.b.report).slice(0, kMost);
  if (pairs.length === 0) return null;
  return (
    <section aria-label="Curves that differ">
      <h4>Curves that differ</h4>
      <p className="pair-key">
        <span className="pair-a">{comparison.a.label}</span>
        <span className="pair-b">{comparison.b.label}</span>
      </p>
      <div className="curve-grid">
        {pairs.map((pair) => (
          <PairChart key={pair.key} pair={pair} units={units} />
        ))}
      </div>
    </section>
  );
}

function PairChart({ pair, units }: { pair: Pair; units: Units }) {
  const { a, b, label } = pair;
  const points = (curve: Curve) =>
    curve.x.flatMap((x, i) => {
      const y = curve.y[i];
      return y === null || y === undefined
        ? []
        : [{ x: inUnit(x, a.x_dimension, units), y: inUnit(y, a.y_dimension, units) }];
    });
  const [one, other] = [points(a), points(b)];
  const all = [...one, ...other];
  if (all.length < 2) return null;
  const ends = (of: (p: { x: number; y: number }) => number) => {
    const values = all.map(of);
    return { least: Math.min(...values), most: Math.max(...values) };
  };
  const [xs, ys] = [ends((p) => p.x), ends((p) => p.y)];
  const room = (ys.most - ys.least || 1) * 0.08;
  const xOf = (x: number) =>
    kBox.left +
    ((x - xs.least) / (xs.most - xs.least || 1)) * (kBox.width - kBox.left - kBox.right);
  const yOf = (y: number) =>
    kBox.top +
    ((ys.most + room - y) / (ys.most - ys.least + 2 * room)) *
      (kBox.height - kBox.top - kBox.bottom);
  const line = (list: { x: number; y: number }[]) =>
    list.map((p) => `${xOf(p.x).toFixed(1)},${yOf(p.y).toFixed(1)}`).join(" ");
  const text = (value: number) => String(value).replace("-", "−");
  return (
    <figure className="curve">
      <figcaption>
        <span>{label}</span>
      </figcaption>
      <svg
        className="pair-chart"
        viewBox={`0 0 ${kBox.width} ${kBox.height}`}
        role="img"
        aria-label={`${label}, both`}
      >
        {ticksBetween(ys.least - room, ys.most + room).map((t) => (
          <g key={t}>
            <line
              className="grid"
              x1={kBox.left}
              x2={kBox.width - kBox.right}
              y1={yOf(t)}
              y2={yOf(t)}
            />
            <text x={kBox.left - 6} y={yOf(t) + 4} textAnchor="end">
              {text(t)}
            </text>
          </g>
        ))}
        {ticksBetween(xs.least, xs.most).map((t) => (
          <g key={t}>
            <line
              className="grid"
              y1={kBox.top}
              y2={kBox.height - kBox.bottom}
              x1={xOf(t)}
              x2={xOf(t)}
            />
            <text x={xOf(t)} y={kBox.height - 6} textAnchor="middle">
              {text(t)}
            </text>
          </g>
        ))}
        <polyline className="pair-a" points={line(one)} />
        <polyline className="pair-b" points={line(other)} />
      </svg>
      <p className="axis-words" aria-hidden="true">
        {wordsOf(a.x_label)}, {unitOf(a.x_dimension, units)}
        <span>{unitOf(a.y_dimension, units)}</span>
      </p>
    </figure>
  );
}
