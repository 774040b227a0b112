import { type RefObject, useEffect, useRef } from "react";
import type { Dot } from "./frame";

/** What goes on under a finger that has begun to move. */
export interface Drag {
  move: (dot: Dot, from: Dot) => void;
  end?: () => void;
}

export interface Gestures {
  tap: (dot: Dot) => void;
  /** Called when a finger that went down at `dot` starts to move. */
  drag: (dot: Dot) => Drag;
  /** Two fingers or the wheel: about a place, and how far the fingers moved together. */
  zoom: (about: Dot, factor: number, dx: number, dy: number) => void;
}

const kStill_px = 7;
const kZoomPerWheel = 0.0015;

/** Fingers, mouse and wheel on an element, told apart into taps, drags and zooms. */
export function useGestures(target: RefObject<Element | null>, gestures: Gestures): void {
  const latest = useRef(gestures);
  latest.current = gestures;

  useEffect(() => {
    const element = target.current;
    if (!element) return;
    const fingers = new Map<number, Dot>();
    let start: Dot | null = null;
    let drag: Drag | null = null;
    let zooming = false;

    // Where it lies is read when fingers come, not for each movement: that would lay the page out anew.
    let box = element.getBoundingClientRect();
    const look = () => {
      box = element.getBoundingClientRect();
    };
    const dotOf = (event: MouseEvent): Dot => ({
      x: event.clientX - box.left,
      y: event.clientY - box.top,
    });
    const spreadOf = () => {
      const [a, b] = [...fingers.values()] as [Dot, Dot];
      return {
        middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
        apart: Math.max(10, Math.hypot(a.x - b.x, a.y - b.y)),
      };
    };
    const down = (event: PointerEvent) => {
      if (event.pointerType === "mouse" && event.button !== 0) return;
      look();
      fingers.set(event.pointerId, dotOf(event));
      if (fingers.size === 1) {
        start = dotOf(event);
        zooming = false;
      } else {
        drag?.end?.();
        drag = null;
        start = null;
        zooming = true;
      }
    };
    const moved = (event: PointerEvent) => {
      if (!fingers.has(event.pointerId)) return;
      const dot = dotOf(event);
      if (fingers.size >= 2) {
        const before = spreadOf();
        fingers.set(event.pointerId, dot);
        const after = spreadOf();
        latest.current.zoom(
          after.middle,
          after.apart / before.apart,
          after.middle.x - before.middle.x,
          after.middle.y - before.middle.y,
        );
        return;
      }
      fingers.set(event.pointerId, dot);
      if (!start) return;
      if (!drag && Math.hypot(dot.x - start.x, dot.y - start.y) > kStill_px) {
        drag = latest.current.drag(start);
        element.setPointerCapture(event.pointerId);
      }
      drag?.move(dot, start);
    };
    const up = (event: PointerEvent) => {
      if (!fingers.delete(event.pointerId)) return;
      if (drag) drag.end?.();
      else if (start && !zooming && event.type === "pointerup") latest.current.tap(start);
      drag = null;
      start = null;
    };
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      look();
      latest.current.zoom(dotOf(event), Math.exp(-event.deltaY * kZoomPerWheel), 0, 0);
    };
    const off = new AbortController();
    const { signal } = off;
    element.addEventListener("pointerdown", down as EventListener, { signal });
    element.addEventListener("pointermove", moved as EventListener, { signal });
    element.addEventListener("pointerup", up as EventListener, { signal });
    element.addEventListener("pointercancel", up as EventListener, { signal });
    element.addEventListener("wheel", wheel as EventListener, { signal, passive: false });
    return () => off.abort();
  }, [target]);
}
