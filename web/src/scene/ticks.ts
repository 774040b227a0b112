import type { Units } from "../api/types";
import { stationText } from "../format/quantity";

export interface Tick {
  station_m: number;
  /** Empty for a small one. */
  label: string;
}

// Rungs of the tape, in its own unit: what is labelled, and how it is divided.
const kInches: [number, number][] = [
  [1, 4],
  [3, 3],
  [6, 6],
  [12, 12],
  [24, 4],
  [48, 4],
  [120, 10],
];
const kMillimetres: [number, number][] = [
  [100, 10],
  [200, 10],
  [500, 5],
  [1000, 10],
  [2000, 4],
  [5000, 5],
];
const kLeastApart_px = 46;
const kLeastSmall_px = 5;

/** Station ticks between two stations, as dense as the scale has room for. */
export function ticksFor(from_m: number, to_m: number, pixels_per_m: number, units: Units): Tick[] {
  const per_m = units.per_si.length?.factor ?? 1000;
  const rungs = units.metric ? kMillimetres : kInches;
  const room = (step: number) => (step / per_m) * pixels_per_m;
  const rung = rungs.find(([step]) => room(step) >= kLeastApart_px) ?? rungs.at(-1);
  if (!rung) return [];
  const [step, wanted] = rung;
  const divisions = room(step) / wanted >= kLeastSmall_px ? wanted : 1;
  const small = step / divisions;
  const first = Math.ceil((from_m * per_m) / small);
  const last = Math.floor((to_m * per_m) / small);
  const ticks: Tick[] = [];
  for (let i = first; i <= last && ticks.length < 2000; i++) {
    const station_m = (i * small) / per_m;
    ticks.push({ station_m, label: i % divisions === 0 ? stationText(station_m, units) : "" });
  }
  return ticks;
}
