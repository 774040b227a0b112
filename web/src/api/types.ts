// The page's words for what the program answers, made from its published description (openapi.ts).
import type { components } from "./openapi";

type Schemas = components["schemas"];

export type Verdict = Schemas["Verdict"];
/** A place in the chassis datum axes V: x forward, y left, z up; metres. */
export type Vector = readonly [number, number, number];
/** JSON pointer into the build file. */
export type Path = Schemas["Path"];
/** A value with its ready text; `si` null: not known. */
export type Numeric = Schemas["Number"];
export type Diagnostic = Schemas["Diagnostic"];
export type Units = Schemas["Units"];
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** One entry as the page makes it; `patchFor` makes an operation of it. */
export type Edit = { path: Path; value: Json } | { path: Path; remove: true };

/** One operation of a JSON Patch (RFC 6902), of the kinds that the page makes. */
export type Operation =
  | { op: "add" | "replace"; path: Path; value: Json }
  | { op: "copy"; from: Path; path: Path }
  | { op: "remove"; path: Path };

export type StateReport = Schemas["StateReport"];
export type Row = Schemas["Row"];
export type Curve = Schemas["Curve"];
export type Seat = Schemas["Seat"];
export type AxleReport = Schemas["AxleReport"];
export type WorkingStep = Schemas["WorkingStep"];
export type Finding = Schemas["Finding"];
export type ArticulationCase = Schemas["ArticulationCase"];
export type FrameReport = Schemas["FrameReport"];
export type FrameState = Schemas["FrameState"];
export type StageCut = Schemas["StageCut"];
export type StageChange = Schemas["StageChange"];
export type FixedPoint = Schemas["FixedPoint"];
export type StressPlace = Schemas["StressPlace"];
export type DriveCase = Schemas["DriveCase"];
export type DriveLoad = Schemas["DriveLoad"];
export type MountLoad = Schemas["MountLoad"];
export type FlangeLoad = Schemas["FlangeLoad"];
export type DriveMode = Schemas["DriveMode"];
export type ShaftReport = Schemas["ShaftReport"];
export type ShaftUnderLoad = Schemas["ShaftUnderLoad"];
export type ShaftMap = Schemas["ShaftMap"];
export type GapReport = Schemas["GapReport"];
export type GearReport = Schemas["GearReport"];
export type LiftReport = Schemas["LiftReport"];
export type MockUpStep = Schemas["MockUpStep"];
export type DrivetrainReport = Schemas["DrivetrainReport"];
export type Report = Schemas["Report"];
/** The works that the program tells of. */
export type ToldWork = Schemas["Work"];
export type Trial = Schemas["Trial"];

/** Lists as they come, but not to be changed: an answer is laid over the last one. */
type Kept<T> = T extends number[]
  ? Vector
  : T extends (infer U)[]
    ? Kept<U>[]
    : T extends object
      ? { [K in keyof T]: Kept<T[K]> }
      : T;

export type FrameDrawing = Kept<Schemas["FrameDrawing"]>;
export type FrameSection = Schemas["FrameSection"];

export type EndPoint = Kept<Schemas["EndPoint"]>;
export type Part = Kept<Schemas["Part"]>;
export type Scene = Omit<Schemas["Scene"], "parts"> & { parts: Part[] };
export type BodyPose = { R: [Vector, Vector, Vector]; p: Vector };
export type PoseQuestion = Schemas["PoseQuestion"] & { state: string | null };
export type Pose = Omit<Schemas["Pose"], "bodies"> & { bodies: Record<string, BodyPose> };

export interface PoseAnswer {
  etag: string;
  pose: Pose;
}
