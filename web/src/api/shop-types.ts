// What the shop's server answers, as docs/openapi.json gives it.
import type { Diagnostic, Json, Path, Report, Scene, Units, Verdict } from "./types";

export interface ShopBuild {
  id: string;
  name: string;
  file: string;
  notice: string;
  etag: string;
  /** ISO 8601. */
  changed: string;
  verdicts: Record<Verdict, number> | null;
  faults: number;
  archived: boolean;
}

export interface Shop {
  folder: string;
  lan: boolean;
  builds: ShopBuild[];
}

export interface Question {
  id: string;
  label: string;
  doc: string;
  kind: "quantity" | "word" | "text";
  dimension: string;
  choices: { value: string; label: string }[];
  usual: string | null;
  needed: boolean;
}

export interface BuildAnswer {
  etag: string;
  entry: number;
  file: string;
  document: Json;
  units: Units;
  can_undo: boolean;
  can_redo: boolean;
  fault: null | { diagnostics: Diagnostic[] };
}

/** After anything that has changed the build. */
export interface ChangeAnswer {
  etag: string;
  entry: number;
  document: Json;
  report: Report;
  scene: Scene;
  merged: boolean;
  can_undo: boolean;
  can_redo: boolean;
  /** Of a renamed, copied or mirrored thing: where it is now. */
  path?: Path;
}

export interface Conflict {
  path: Path;
  base?: Json;
  theirs?: Json;
  yours?: Json;
}

export interface Dependant {
  path: Path;
  label: string;
}

export type Change =
  | { kind: "rename" | "copy"; path: Path; to: string }
  | { kind: "mirror"; path: Path }
  | { kind: "remove"; path: Path; with_dependants: boolean };

export interface HistoryEntry {
  entry: number;
  parent: number | null;
  when: string;
  who: string;
  kind: "start" | "edit" | "outside" | "restore";
  what: string;
  version: string | null;
  on_path: boolean;
}

export interface History {
  head: number;
  entries: HistoryEntry[];
}

export interface Reading {
  path: Path;
  label: string;
  now: string;
  plus_minus: string;
  moves: { finding: string; sentence: string; by: string }[];
}

export interface ComparedSide {
  label: string;
  report: Report;
  scene: Scene;
}

export interface Comparison {
  a: ComparedSide;
  b: ComparedSide;
  inputs: { path: Path; label: string; a: string; b: string }[];
  words: string[];
}

export interface Understood {
  si: number;
  text: string;
  written: string;
  also: string;
}

export interface ErrorBody {
  error: string;
  diagnostics?: Diagnostic[];
  conflicts?: Conflict[];
  dependants?: Dependant[];
  etag?: string;
}
