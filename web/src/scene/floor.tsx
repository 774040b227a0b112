import { type KeyboardEvent, memo } from "react";
import type { Units } from "../api/types";
import { lengthText } from "../format/quantity";
import { type Lens, onScreen, type Size } from "./frame";
import { ticksFor } from "./ticks";

/** Stations a measurement on the floor line runs between. */
export interface Measured {
  from_m: number;
  to_m: number;
}

const kTaken_px = 24;

interface FloorProps {
  lens: Lens;
  size: Size;
  units: Units;
  measured: Measured | null;
  /** Places along it that are taken by something else, pixels. */
  taken: number[];
  onMeasure: (measured: Measured | null) => void;
}

/** The floor line with its station ticks and the measurement laid along it. */
export const Floor = memo(function Floor(props: FloorProps) {
  const { lens, size, units, measured, taken, onMeasure } = props;
  const y = onScreen(lens, { u: 0, v: 0 }).y;
  const xOf = (station_m: number) => onScreen(lens, { u: station_m, v: 0 }).x;
  const ticks = ticksFor(lens.u, lens.u + size.width / lens.scale, lens.scale, units);
  const step_m = (units.metric ? 1 : 1 / 16) / (units.per_si.length?.factor ?? 1000);

  const onKeyDown = (event: KeyboardEvent) => {
    const direction = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (event.key === "Escape") onMeasure(null);
    if (direction === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const by = direction * step_m * (event.ctrlKey ? 1 : 16);
    const now = measured ?? { from_m: 0, to_m: 0 };
    onMeasure(
      event.shiftKey ? { ...now, from_m: now.from_m + by } : { ...now, to_m: now.to_m + by },
    );
  };

  const length = measured ? lengthText(Math.abs(measured.to_m - measured.from_m), units) : "";
  return (
    <g
      className="floor"
      role="slider"
      tabIndex={0}
      aria-label="Measure along the floor line"
      aria-valuenow={measured ? Math.round((measured.to_m - measured.from_m) * 1000) : 0}
      aria-valuetext={measured ? length : "nothing measured"}
      onKeyDown={onKeyDown}
    >
      <rect
        className="floor-ground"
        x="0"
        y={y}
        width={size.width}
        height={Math.max(0, size.height - y)}
      />
      <line className="floor-line" x1="0" x2={size.width} y1={y} y2={y} />
      {ticks.map((t) => (
        <line
          key={t.station_m.toFixed(5)}
          className={t.label ? "tick" : "tick small"}
          x1={xOf(t.station_m)}
          x2={xOf(t.station_m)}
          y1={y}
          y2={y + (t.label ? 10 : 5)}
        />
      ))}
      {ticks.map(
        (t) =>
          t.label &&
          xOf(t.station_m) > kTaken_px &&
          xOf(t.station_m) < size.width - kTaken_px &&
          !taken.some((x) => Math.abs(x - xOf(t.station_m)) < kTaken_px) && (
            <text
              key={t.station_m.toFixed(5)}
              className="tick-label"
              x={xOf(t.station_m)}
              y={y + 24}
            >
              {t.label}
            </text>
          ),
      )}
      {measured && (
        <g className="dimension">
          <line x1={xOf(measured.from_m)} x2={xOf(measured.from_m)} y1={y - 6} y2={y + 48} />
          <line x1={xOf(measured.to_m)} x2={xOf(measured.to_m)} y1={y - 6} y2={y + 48} />
          <line
            className="arrows"
            x1={xOf(measured.from_m)}
            x2={xOf(measured.to_m)}
            y1={y + 40}
            y2={y + 40}
          />
          <text x={(xOf(measured.from_m) + xOf(measured.to_m)) / 2} y={y + 36}>
            {length}
          </text>
        </g>
      )}
    </g>
  );
});
