import { useSyncExternalStore } from "react";
import type {
  Diagnostic,
  Edit,
  Json,
  Path,
  Pose,
  PoseQuestion,
  Report,
  Scene,
  Units,
} from "./types";

export type Work = "weigh" | "axles";
export type View = "side" | "top" | "end" | "3d";
export type Scheme = "auto" | "light" | "dark";

/** What the builder has tapped: a thing in the build file, and which of its ends if one was. */
export interface Chosen {
  path: Path;
  end: Path | null;
  /** Grows with every tap, so that a second one on the same thing is heard too. */
  asked: number;
}

/** Everything from the program, all of one revision. */
export interface Answers {
  revision: number;
  file: string;
  document: Json;
  units: Units;
  report: Report;
  scene: Scene;
  schema: Json;
}

export interface State {
  answers: Answers | null;
  /** The document as it was when this page opened it. */
  opened: Json;
  /** Words for the builder while the program can't be reached or has refused. */
  trouble: string | null;
  question: PoseQuestion;
  pose: Pose | null;
  /** Angle of the steered wheels in the picture only. */
  steer_rad: number;
  /** Which axles the motion bar moves; null: all. */
  moves: string | null;
  work: Work;
  axle: string | null;
  chosen: Chosen | null;
  finding: string | null;
  trayOpen: boolean;
  view: View;
  /** As the builder has pulled it; null: as the screen suggests. */
  pictureHeight_px: number | null;
  helpOpen: boolean;
  scheme: Scheme;
  singleKeys: boolean;
  /** Entries on their way, by the path of their field. */
  pending: Record<Path, string>;
  /** Why an entry was not taken, by the path of its field. */
  refused: Record<Path, { text: string; diagnostics: Diagnostic[] }>;
  undo: Edit[][];
  /** Spoken by screen readers when it changes. */
  said: string;
}

export const kDrawn: PoseQuestion = { state: null, heave: {}, roll: {} };

const initial: State = {
  answers: null,
  opened: null,
  trouble: null,
  question: kDrawn,
  pose: null,
  steer_rad: 0,
  moves: null,
  work: "weigh",
  axle: null,
  chosen: null,
  finding: null,
  trayOpen: false,
  view: "side",
  pictureHeight_px: null,
  helpOpen: false,
  scheme: "auto",
  singleKeys: true,
  pending: {},
  refused: {},
  undo: [],
  said: "",
};

let state = initial;
const listeners = new Set<() => void>();

export function getState(): State {
  return state;
}

export function setState(change: Partial<State>): void {
  state = { ...state, ...change };
  for (const listener of listeners) listener();
}

export function resetState(): void {
  setState(initial);
}

export function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** A part of the state; the component is drawn again only when that part is another object. */
export function useStore<T>(select: (state: State) => T): T {
  return useSyncExternalStore(subscribe, () => select(state));
}

/** The answers, for components that are shown only once there are some. */
export function useAnswers<T>(select: (answers: Answers) => T): T {
  return useStore((s) => {
    if (!s.answers) throw new Error("The build has not been read yet.");
    return select(s.answers);
  });
}
