import { useRef, useSyncExternalStore } from "react";
import type { Where } from "./client";
import type { Sides } from "./compare";
import type { FrameLook, KeptDrawing } from "./frame-look";
import type { Entry } from "./kept";
import { shareUnchanged } from "./share";
import type { Comparison, Shop } from "./shop-types";
import type {
  Diagnostic,
  Json,
  Path,
  Pose,
  PoseQuestion,
  Report,
  Scene,
  ToldWork,
  Units,
} from "./types";

export type Work = "weigh" | "frame" | "drivetrain" | "axles" | "compare" | "build" | "history";
export type Page = "opening" | "door" | "shop" | "start" | "bench";
export type View = "side" | "top" | "end" | "3d";
export type Scheme = "auto" | "light" | "dark";

/** What the builder has tapped: a thing in the build file, and which of its ends if one was. */
export interface Chosen {
  path: Path;
  end: Path | null;
  /** Grows with every tap, so that a second one on the same thing is heard too. */
  asked: number;
}

/** Everything from the program about one state of one build or variant. */
export interface Answers {
  etag: string;
  /** Number of the journal's entry that the file shows. */
  entry: number;
  file: string;
  document: Json;
  /** The build's own document where a variant is open, else the same. */
  base: Json;
  units: Units;
  report: Report;
  scene: Scene;
  schema: Json;
  canUndo: boolean;
  canRedo: boolean;
  /** Why the file does not read, if someone has changed it outside to something that doesn't. */
  fault: null | { diagnostics: Diagnostic[] };
}

/** A value that another screen has changed too. */
export interface Clash {
  entry: Entry;
  theirs: string;
  yours: string;
}

export interface State {
  page: Page;
  shop: Shop | null;
  place: Where | null;
  answers: Answers | null;
  /** What violet is measured from: the build as this page opened it, or the one a variant is laid over. */
  opened: Json;
  /** Words for the builder when something was refused that has no field. */
  trouble: string | null;
  /** The program does not answer: entries wait. */
  offline: boolean;
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
  frameLook: FrameLook;
  /** The last drawing of the frame that came. */
  frameDrawing: KeptDrawing | null;
  /** Id of the load of the drivetrain that is shown; null: the first. */
  driveLoad: string | null;
  /** Variants picked to be looked at side by side; null: none were. */
  sides: Sides | null;
  /** The two side by side, while they are looked at. */
  comparison: Comparison | null;
  /** As the builder has pulled it; null: as the screen suggests. */
  pictureHeight_px: number | null;
  helpOpen: boolean;
  scheme: Scheme;
  singleKeys: boolean;
  /** How many entries wait to be taken. */
  waiting: number;
  /** The work that a trial tells of while a hand moves something; what others tell is as it was before. */
  trying: ToldWork | null;
  /** Values on their way or tried out, by the path of their field; null: taken out. */
  pending: Record<Path, Json>;
  /** Why an entry was not taken, by the path of its field. */
  refused: Record<Path, { text: string; diagnostics: Diagnostic[] }>;
  clashes: Record<Path, Clash>;
  /** Whether the initials for the history are to be asked for. */
  askInitials: boolean;
  /** Spoken by screen readers when it changes. */
  said: string;
}

export const kDrawn: PoseQuestion = { state: null, heave: {}, roll: {} };

const initial: State = {
  page: "opening",
  shop: null,
  place: null,
  answers: null,
  opened: null,
  trouble: null,
  offline: false,
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
  frameLook: { shown: true, case: null, blend: 1 },
  frameDrawing: null,
  driveLoad: null,
  sides: null,
  comparison: null,
  pictureHeight_px: null,
  helpOpen: false,
  scheme: "auto",
  singleKeys: true,
  waiting: 0,
  trying: null,
  pending: {},
  refused: {},
  clashes: {},
  askInitials: false,
  said: "",
};

/** What belongs to one build and not to the next. */
export const kNoBuild: Partial<State> = {
  answers: null,
  opened: null,
  question: kDrawn,
  pose: null,
  steer_rad: 0,
  moves: null,
  work: "weigh",
  axle: null,
  chosen: null,
  finding: null,
  trayOpen: false,
  frameDrawing: null,
  driveLoad: null,
  sides: null,
  comparison: null,
  refused: {},
  clashes: {},
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

/** What is made of the answers; the component is drawn again only when it comes out otherwise. */
export function useDerived<T>(derive: (answers: Answers) => T): T {
  const kept = useRef<T | null>(null);
  return useAnswers((a) => {
    const shared = shareUnchanged(kept.current, derive(a));
    kept.current = shared;
    return shared;
  });
}
