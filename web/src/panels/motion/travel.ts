import type { AxleReport, Report } from "../../api/types";

/** How far the motion bar moves an axle, SI. */
export interface Travel {
  droop_m: number;
  bump_m: number;
  roll_rad: number;
}

/** An axle's travel as the program tells it, or as far as its curves run. Null: it can't be moved. */
export function travelOf(axle: AxleReport): Travel | null {
  const told = axle.travel;
  if (told?.bump.si != null && told.droop.si != null) {
    return {
      droop_m: -Math.abs(told.droop.si),
      bump_m: told.bump.si,
      roll_rad: Math.abs(told.roll.si ?? 0),
    };
  }
  const ends = (dimension: string) => {
    const x = axle.curves.filter((c) => c.x_dimension === dimension).flatMap((c) => c.x);
    return x.length > 0 ? { low: Math.min(...x), high: Math.max(...x) } : null;
  };
  const bump = ends("length");
  const roll = ends("angle");
  if (!bump) return null;
  return { droop_m: bump.low, bump_m: bump.high, roll_rad: Math.max(0, roll?.high ?? 0) };
}

/** An axle that can be moved. */
export interface Moved {
  id: string;
  label: string;
  travel: Travel;
}

/** The axles that the motion bar moves: the one picked, or all. */
export function movedAxles(report: Report, moves: string | null): Moved[] {
  return report.axles.flatMap((a) => {
    const travel = moves === null || a.id === moves ? travelOf(a) : null;
    return travel ? [{ id: a.id, label: a.label, travel }] : [];
  });
}

/** The travel that every one of these axles has. */
export function commonTravel(axles: Moved[]): Travel | null {
  const all = axles.map(({ travel }) => travel);
  if (all.length === 0) return null;
  return {
    droop_m: Math.max(...all.map((t) => t.droop_m)),
    bump_m: Math.min(...all.map((t) => t.bump_m)),
    roll_rad: Math.min(...all.map((t) => t.roll_rad)),
  };
}

export function clampTo(low: number, high: number, value: number): number {
  return Math.min(high, Math.max(low, value));
}
