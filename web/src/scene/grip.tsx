import { type KeyboardEvent, memo, type PointerEvent, useRef } from "react";
import { setState } from "../api/store";

const kLeast_px = 160;
const kStep_px = 24;

/** How much of the screen the picture has; what it leaves is the sheet's. */
export const Grip = memo(function Grip({ now_px }: { now_px: number }) {
  const start = useRef<{ y: number; height: number } | null>(null);
  const set = (height: number) => {
    const most = window.innerHeight * 0.7;
    setState({ pictureHeight_px: Math.round(Math.min(most, Math.max(kLeast_px, height))) });
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    set(now_px + by * kStep_px);
  };
  const onPointerDown = (event: PointerEvent) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    start.current = { y: event.clientY, height: now_px };
  };
  return (
    <div
      className="grip"
      role="slider"
      aria-label="Height of the picture"
      aria-orientation="vertical"
      aria-valuenow={Math.round(now_px)}
      aria-valuemin={kLeast_px}
      aria-valuemax={Math.round(window.innerHeight * 0.7)}
      tabIndex={0}
      onKeyDown={onKeyDown}
      onPointerDown={onPointerDown}
      onPointerMove={(event) => {
        if (start.current) set(start.current.height + event.clientY - start.current.y);
      }}
      onPointerUp={() => {
        start.current = null;
      }}
      onDoubleClick={() => setState({ pictureHeight_px: null })}
    />
  );
});
