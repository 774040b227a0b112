import { useMemo } from "react";
import { useFrameDrawing } from "../api/frame-look";
import { useStore } from "../api/store";
import type { Vector } from "../api/types";
import { type FrameShape, shapeOf, unbentLines } from "./frame-shape";

/** The frame under load as it is shown now, and its members unbent; null: the frame's own parts are. */
export function useShape(): { shape: FrameShape; unbent: [Vector, Vector][] } | null {
  const drawing = useFrameDrawing();
  const blend = useStore((s) => s.frameLook.blend);
  const bodies = useStore((s) => s.pose?.bodies);
  // What the load makes of a frame that a hand is moving is told when it is let go.
  const isMoving = useStore((s) => s.trying !== null);
  return useMemo(
    () =>
      drawing && !isMoving
        ? { shape: shapeOf(drawing, blend, bodies), unbent: unbentLines(drawing, blend, bodies) }
        : null,
    [drawing, blend, bodies, isMoving],
  );
}
