import { change } from "../api/changes";
import { edit } from "../api/entries";
import { at, join } from "../api/pointer";
import type { Change } from "../api/shop-types";
import { getState, setState } from "../api/store";
import { editShown, endTrial, type Tried, tryOut } from "../api/trial";
import type { Path, Vector } from "../api/types";
import type { Drag } from "./gestures";
import { asDrawn, editsTo, lineMove, type Point } from "./points";
import { add } from "./project";

/** Where the value of a coordinate stands: under "value" where more is known about it. */
function valuePath(path: Path): Path {
  const value = at(getState().answers?.document, path);
  const isLong = typeof value === "object" && value !== null && "value" in value;
  return isLong ? join(path, "value") : path;
}

/** What changes when a hand moves a point by `d`; null: nothing. */
function changeBy(point: Point, d: Vector): Tried | null {
  const { answers, pose } = getState();
  if (!answers) return null;
  const drawn = asDrawn(pose?.bodies, point.body, d);
  if (point.holds === "line") return lineMove(point, drawn, answers.units);
  const edits = editsTo(point, add(point.q, drawn), answers.units, valuePath);
  return edits.length > 0 ? edits : null;
}

function make(what: Change): void {
  void change(what).then((where) => {
    if (where === null) endTrial();
  });
}

/** A hand moves a point: answered while it moves, kept when it is let go, as one change.
 * @param inSpace  How far the point moves, in V, for how far the hand has. */
export function dragPoint(
  point: Point,
  inSpace: (dx: number, dy: number) => Vector,
  shown: (d: Vector | null) => void,
): Drag {
  let tried: Tried | null = null;
  const onKey = (event: KeyboardEvent) => {
    if (event.key === "Escape") drop(false);
  };
  let isOver = false;
  const drop = (keeps: boolean) => {
    if (isOver) return;
    isOver = true;
    window.removeEventListener("keydown", onKey);
    shown(null);
    if (!keeps || tried === null) endTrial();
    else if (Array.isArray(tried)) edit(tried);
    else make(tried);
  };
  window.addEventListener("keydown", onKey);
  setState({ said: "Moving a point. Let go to keep it, Escape to leave it." });
  return {
    move: (now, from) => {
      if (isOver) return;
      const d = inSpace(now.x - from.x, now.y - from.y);
      shown(d);
      tried = changeBy(point, d);
      if (tried !== null) tryOut(tried);
    },
    end: () => drop(true),
  };
}

/** One step of a point by the keyboard. */
export function stepPoint(point: Point, d: Vector): void {
  const what = changeBy(point, d);
  if (Array.isArray(what)) editShown(what);
  else if (what !== null) make(what);
}
