import { memo, useEffect, useRef } from "react";
import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import { useAnswers } from "../../api/store";
import type { Curve, Numeric, Units } from "../../api/types";
import { inUnit, unitOf } from "../../format/quantity";
import { wordsOf } from "../../format/text";
import { Stacked } from "../common/figures";
import { useInSight } from "../common/in-sight";
import { useDark } from "../common/scheme";

const kHeight_px = 190;

interface CurveChartProps {
  curve: Curve;
  /** Where the motion bar stands, SI. */
  cursor: number;
  now: Numeric | undefined;
  onMove: (x: number) => void;
}

/** One curve over the travel, its limits shaded, its cursor where the truck stands. */
export const CurveChart = memo(function CurveChart({
  curve,
  cursor,
  now,
  onMove,
}: CurveChartProps) {
  const units = useAnswers((a) => a.units);
  const dark = useDark();
  const box = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const inSight = useInSight(box);
  const factor = inUnit(1, curve.x_dimension, units);
  const latest = useRef({ curve, cursor, onMove });
  latest.current = { curve, cursor, onMove };

  // Made when it first comes into sight; another curve is only other data to it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn anew when the scheme changes.
  useEffect(() => {
    const element = box.current;
    if (!element || !inSight) return;
    const made = new uPlot(
      optionsFor(() => latest.current.curve, units, element.clientWidth, {
        move: (x) => latest.current.onMove(x / factor),
        drawn: (u) => placeCursor(u, latest.current.cursor * factor),
      }),
      dataFor(latest.current.curve, units),
      element,
    );
    plot.current = made;
    const watcher = new ResizeObserver(() => {
      if (element.clientWidth > 0 && element.clientWidth !== made.width) {
        made.setSize({ width: element.clientWidth, height: kHeight_px });
      }
    });
    watcher.observe(element);
    return () => {
      watcher.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [units, dark, factor, inSight]);
  useEffect(() => {
    plot.current?.setData(dataFor(curve, units));
  }, [curve, units]);
  useEffect(() => {
    if (plot.current) placeCursor(plot.current, cursor * factor);
  }, [cursor, factor]);

  return (
    <figure className="curve">
      <figcaption>
        <span>{curve.label}</span>
        {now && (
          <output>
            <Stacked text={now.text} />
          </output>
        )}
      </figcaption>
      <div ref={box} className="curve-box" role="img" aria-label={inWords(curve, units)} />
      <p className="axis-words" aria-hidden="true">
        {wordsOf(curve.x_label)}, {unitOf(curve.x_dimension, units)}
        <span>
          {unitOf(curve.y_dimension, units)}
          {(curve.low !== null || curve.high !== null) && " · shaded: outside the limits"}
        </span>
      </p>
    </figure>
  );
});

function placeCursor(plot: uPlot, x: number): void {
  plot.root.style.setProperty("--cursor", `${plot.valToPos(x, "x").toFixed(1)}px`);
}

function dataFor(curve: Curve, units: Units): uPlot.AlignedData {
  return [
    curve.x.map((x) => inUnit(x, curve.x_dimension, units)),
    curve.y.map((y) => (y === null ? null : inUnit(y, curve.y_dimension, units))),
  ];
}

function colour(name: string): string {
  return getComputedStyle(document.documentElement).getPropertyValue(name).trim();
}

function optionsFor(
  curveNow: () => Curve,
  units: Units,
  width: number,
  on: { move: (x: number) => void; drawn: (plot: uPlot) => void },
): uPlot.Options {
  const limit = (which: "low" | "high") => {
    const curve = curveNow();
    const si = curve[which];
    return si === null ? null : inUnit(si, curve.y_dimension, units);
  };
  const axis = (size: number): uPlot.Axis => ({
    stroke: colour("--ink-soft"),
    font: "13px system-ui, sans-serif",
    size,
    grid: { stroke: colour("--line"), width: 1 },
    ticks: { show: false },
    values: (_, splits) => splits.map((v) => String(v).replace("-", "−")),
  });
  return {
    width,
    height: kHeight_px,
    legend: { show: false },
    padding: [10, 12, 0, 0],
    scales: {
      x: { time: false },
      y: {
        range: (_, least, most) => {
          const ends = [least, most, limit("low"), limit("high")].filter((e) => e !== null);
          const [a, b] = [Math.min(...ends), Math.max(...ends)];
          const room = (b - a || Math.abs(a) || 1) * 0.08;
          return [a - room, b + room];
        },
      },
    },
    axes: [axis(30), axis(52)],
    series: [{}, { stroke: colour("--ink"), width: 2, points: { show: false }, pxAlign: 0 }],
    cursor: { show: false, drag: { x: false, y: false } },
    hooks: {
      draw: [on.drawn],
      drawClear: [
        (u) => {
          const { left, top, width: w, height: h } = u.bbox;
          const [low, high] = [limit("low"), limit("high")];
          u.ctx.save();
          u.ctx.fillStyle = colour("--outside");
          if (high !== null)
            u.ctx.fillRect(left, top, w, Math.max(0, u.valToPos(high, "y", true) - top));
          if (low !== null) {
            const y = u.valToPos(low, "y", true);
            u.ctx.fillRect(left, y, w, Math.max(0, top + h - y));
          }
          u.ctx.strokeStyle = colour("--stop-ink");
          u.ctx.lineWidth = 1.5 * window.devicePixelRatio;
          u.ctx.setLineDash([6 * window.devicePixelRatio, 4 * window.devicePixelRatio]);
          for (const edge of [low, high]) {
            if (edge === null) continue;
            const y = u.valToPos(edge, "y", true);
            u.ctx.beginPath();
            u.ctx.moveTo(left, y);
            u.ctx.lineTo(left + w, y);
            u.ctx.stroke();
          }
          u.ctx.restore();
        },
      ],
      ready: [
        (u) => {
          const line = document.createElement("div");
          line.className = "curve-cursor";
          u.over.append(line);
          const follow = (event: PointerEvent) => {
            const box = u.over.getBoundingClientRect();
            on.move(u.posToVal(event.clientX - box.left, "x"));
          };
          u.over.addEventListener("pointerdown", (event) => {
            u.over.setPointerCapture(event.pointerId);
            follow(event);
          });
          u.over.addEventListener("pointermove", (event) => {
            if (u.over.hasPointerCapture(event.pointerId)) follow(event);
          });
        },
      ],
    },
  };
}

/** The curve for those who can't see it: its ends, its extremes and its limits. */
function inWords(curve: Curve, units: Units): string {
  const { unit } = { unit: unitOf(curve.y_dimension, units) };
  const figure = (y: number | null | undefined) =>
    y === null || y === undefined
      ? "not known"
      : `${Number(inUnit(y, curve.y_dimension, units).toPrecision(3))} ${unit}`;
  const known = curve.y.filter((y) => y !== null);
  const limits = [
    curve.low === null ? "" : ` No less than ${figure(curve.low)}.`,
    curve.high === null ? "" : ` No more than ${figure(curve.high)}.`,
  ].join("");
  return `${curve.label} over ${curve.x_label}: from ${figure(curve.y[0])} to ${figure(
    curve.y.at(-1),
  )}, least ${figure(Math.min(...known))}, greatest ${figure(Math.max(...known))}.${limits}`;
}
