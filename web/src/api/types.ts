// The page's interface to the program, as docs/api.md gives it.

export type Verdict = "good" | "look" | "stop";
/** A place in the chassis datum axes V: x forward, y left, z up; metres. */
export type Vector = readonly [number, number, number];
/** JSON pointer into the build file. */
export type Path = string;

/** A value with its ready text; `si` null: not known. */
export interface Numeric {
  si: number | null;
  text: string;
}

export interface Diagnostic {
  code: string;
  path: Path;
  line?: number;
  column?: number;
  message: string;
  remedy: string;
}

export interface UnitOf {
  unit: string;
  factor: number;
}

export interface Units {
  metric: boolean;
  fraction_of_inch: number;
  per_si: Record<string, UnitOf>;
}

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** One entry as the page makes it; `patchFor` makes an operation of it. */
export type Edit = { path: Path; value: Json } | { path: Path; remove: true };

/** One operation of a JSON Patch (RFC 6902). */
export type Operation =
  | { op: "add" | "replace"; path: Path; value: Json }
  | { op: "remove"; path: Path };

export interface PoseAnswer {
  pose: Pose;
}

export interface AxleLoad {
  axle: string;
  left: Numeric;
  right: Numeric;
  total: Numeric;
  rating: Numeric | null;
  verdict: Verdict | null;
}

export interface Corner {
  axle: string;
  side: "left" | "right";
  height_error: Numeric;
  load: Numeric;
}

export interface StateReport {
  id: string;
  label: string;
  total: Numeric;
  plus_minus: Numeric;
  cg: { station: Numeric; offset: Numeric; height: Numeric };
  p_VoCm: Vector;
  sprung: Numeric;
  unsprung: { axle: string; mass: Numeric }[];
  loads: AxleLoad[];
  stability: {
    factor: Numeric;
    tilt: Numeric;
    side_slope: Numeric;
    up_grade: Numeric;
    down_grade: Numeric;
  };
  settled: null | { heave: Numeric; roll: Numeric; pitch: Numeric; corners: Corner[] };
}

export interface Row {
  id: string;
  label: string;
  value: Numeric;
  verdict: Verdict | null;
  low: Numeric | null;
  high: Numeric | null;
  finding: string | null;
  explain: string;
  working?: WorkingStep[];
}

export interface Curve {
  id: string;
  label: string;
  x_label: string;
  x: number[];
  y: (number | null)[];
  x_dimension: string;
  y_dimension: string;
  low: number | null;
  high: number | null;
}

export interface Seat {
  name: string;
  path: Path;
  load: Numeric;
  free: Numeric;
  loaded: Numeric;
  drawn: Numeric;
  tack: Numeric;
  below_free: Numeric;
  move: Numeric;
  bump_left: Numeric;
  frequency: Numeric;
  sentence: string;
}

export interface LinkReport {
  name: string;
  path: Path;
  force: Numeric;
  swing_frame: Numeric;
  swing_axle: Numeric;
  limit: Numeric | null;
}

export interface AxleReport {
  id: string;
  label: string;
  end: "front" | "rear";
  /** Ends of the motion bar's sliders for this axle. */
  travel?: { bump: Numeric; droop: Numeric; roll: Numeric };
  rows: Row[];
  curves: Curve[];
  seats: Seat[];
  links: LinkReport[];
  locks: { heave: Numeric; roll: Numeric; message: string }[];
}

export interface WorkingStep {
  formula: string;
  with_values: string;
  source: string;
  input_paths: Path[];
}

export interface Finding {
  id: string;
  verdict: Verdict;
  work: string;
  subject: string;
  sentence: string;
  value: Numeric | null;
  limit: Numeric | null;
  basis: string;
  advice: string;
  assumption: string;
  path: Path;
  working: WorkingStep[];
}

export interface ArticulationCase {
  distance: Numeric;
  height: Numeric;
  index: Numeric;
  first_lifted: string;
  loads: { axle: string; left: Numeric; right: Numeric }[];
}

export interface Missing {
  path: Path;
  what: string;
  needed: string;
}

export interface Report {
  name: string;
  notice: string;
  verdicts: Record<Verdict, number>;
  summary: Record<string, string[]>;
  diagnostics: Diagnostic[];
  missing: Missing[];
  states: StateReport[];
  axles: AxleReport[];
  articulation: { ramp: ArticulationCase | null; cross: ArticulationCase | null };
  findings: Finding[];
}

export interface EndPoint {
  body: string;
  p: Vector;
  path: Path;
}

interface Named {
  /** Tells the sides of a mirrored thing apart: "lower.left". */
  name?: string;
  path: Path;
  label: string;
}

export type Part =
  | (Named & { kind: "rail"; body: string; points: Vector[]; depth: number; width: number })
  | (Named & { kind: "bar"; a: EndPoint; b: EndPoint; radius: number })
  | (Named & { kind: "arm"; apex: EndPoint; feet: EndPoint[]; radius: number })
  | (Named & { kind: "coil" | "shock" | "stop"; a: EndPoint; b: EndPoint; radius: number })
  | (Named & { kind: "leaf"; a: EndPoint; seat: EndPoint; b: EndPoint })
  | (Named & { kind: "axle"; body: string; a: Vector; b: Vector; radius: number })
  | (Named & {
      kind: "tyre";
      body: string;
      centre: Vector;
      axis: Vector;
      radius: number;
      width: number;
      steered: boolean;
    })
  | (Named & { kind: "box"; body: string; centre: Vector; size: Vector; mass: Numeric })
  | (Named & {
      kind: "cylinder";
      body: string;
      centre: Vector;
      axis: Vector;
      length: number;
      radius: number;
      mass: Numeric;
    })
  | (Named & { kind: "ball"; body: string; centre: Vector; mass: Numeric })
  /** The balance point of the load state at `path`. */
  | (Named & { kind: "cg"; state: string; body: string; centre: Vector });

export interface Scene {
  extent: { front_x: number; rear_x: number; top_z: number };
  floor_z: number;
  front_axle_x: number;
  bodies: string[];
  parts: Part[];
}

export interface BodyPose {
  R: [Vector, Vector, Vector];
  p: Vector;
}

export interface PoseQuestion {
  state: string | null;
  settled?: boolean;
  heave?: Record<string, number>;
  roll?: Record<string, number>;
}

export interface Pose {
  bodies: Record<string, BodyPose>;
  numbers: Record<string, { id: string; label: string; value: Numeric }[]>;
  locked: string | null;
}
