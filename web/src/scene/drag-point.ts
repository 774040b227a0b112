import { edit } from "../api/entries";
import { at, join } from "../api/pointer";
import { getState, setState } from "../api/store";
import { editShown, endTrial, tryOut } from "../api/trial";
import type { Edit, Path, Vector } from "../api/types";
import type { Drag } from "./gestures";
import { asDrawn, editsTo, type Point } from "./points";
import { add } from "./project";

/** Where the value of a coordinate stands: under "value" where more is known about it. */
function valuePath(path: Path): Path {
  const value = at(getState().answers?.document, path);
  const isLong = typeof value === "object" && value !== null && "value" in value;
  return isLong ? join(path, "value") : path;
}

function editsBy(point: Point, d: Vector): Edit[] {
  const { answers, pose } = getState();
  if (!answers) return [];
  const moved = add(point.q, asDrawn(pose?.bodies, point.body, d));
  return editsTo(point, moved, answers.units, valuePath);
}

/** A hand moves a point: answered while it moves, kept when it is let go, as one change.
 * @param inSpace  How far the point moves, in V, for how far the hand has. */
export function dragPoint(
  point: Point,
  inSpace: (dx: number, dy: number) => Vector,
  shown: (d: Vector | null) => void,
): Drag {
  let edits: Edit[] = [];
  const onKey = (event: KeyboardEvent) => {
    if (event.key === "Escape") drop(false);
  };
  let isOver = false;
  const drop = (keeps: boolean) => {
    if (isOver) return;
    isOver = true;
    window.removeEventListener("keydown", onKey);
    shown(null);
    if (keeps && edits.length > 0) {
      edit(edits);
    } else endTrial();
  };
  window.addEventListener("keydown", onKey);
  setState({ said: "Moving a point. Let go to keep it, Escape to leave it." });
  return {
    move: (now, from) => {
      if (isOver) return;
      const d = inSpace(now.x - from.x, now.y - from.y);
      shown(d);
      edits = editsBy(point, d);
      if (edits.length > 0) tryOut(edits);
    },
    end: () => drop(true),
  };
}

/** One step of a point by the keyboard. */
export function stepPoint(point: Point, d: Vector): void {
  const edits = editsBy(point, d);
  if (edits.length > 0) editShown(edits);
}
