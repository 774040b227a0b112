import { useRef } from "react";
import { look, useIsFrameShown } from "../api/frame-look";
import { setState, useAnswers, useDerived, useStore, type View } from "../api/store";
import { Grip } from "./grip";
import { Sheet, type SheetHandle } from "./sheet";
import { SpaceView } from "./space-view";
import { useSize } from "./use-size";

const kViews: { view: View; label: string; name: string }[] = [
  { view: "side", label: "Side", name: "Side view" },
  { view: "top", label: "Top", name: "Top and side view" },
  { view: "end", label: "End", name: "End and side view" },
  { view: "3d", label: "3D", name: "3D, in space" },
];
const kZoom = 1.35;

/** The truck on its floor line: always on the screen, and the way to pick things. */
export function Picture() {
  const view = useStore((s) => s.view);
  const axles = useDerived((a) => a.report.axles.map(({ id, end }) => ({ id, end })));
  const locked = useStore((s) => s.pose?.locked ?? null);
  const height_px = useStore((s) => s.pictureHeight_px);
  const loaded = useIsFrameShown();
  const onFrame = useStore((s) => s.work === "frame");
  const canLoad = useAnswers((a) => (a.report.frame?.cases.length ?? 0) > 0) && onFrame;
  const section = useRef<HTMLElement>(null);
  const size = useSize(section);
  const handle = useRef<SheetHandle | null>(null);
  return (
    <section
      className={`picture view-${view}`}
      aria-label="The truck"
      ref={section}
      style={height_px === null ? undefined : { flexBasis: height_px }}
    >
      {view === "3d" ? <SpaceView handle={handle} /> : <Sheet view={view} handle={handle} />}
      <fieldset className="picture-keys" aria-label="How it is looked at">
        {kViews.map(({ view: one, label, name }) => (
          <button
            key={one}
            type="button"
            aria-pressed={view === one}
            aria-label={name}
            onClick={() => setState({ view: one })}
          >
            {label}
          </button>
        ))}
      </fieldset>
      <fieldset className="picture-keys zoom" aria-label="Size">
        <button
          type="button"
          aria-label="Smaller"
          onClick={() => handle.current?.zoomBy(1 / kZoom)}
        >
          −
        </button>
        <button type="button" aria-label="Fit all of it" onClick={() => handle.current?.fit()}>
          Fit
        </button>
        <button type="button" aria-label="Larger" onClick={() => handle.current?.zoomBy(kZoom)}>
          +
        </button>
        {axles.map((a) => (
          <button
            key={a.id}
            type="button"
            aria-label={`Closer to the ${a.end}`}
            onClick={() => {
              handle.current?.lookAt(a.id);
              setState({ axle: a.id });
            }}
          >
            {a.end === "front" ? "Front" : "Rear"}
          </button>
        ))}
      </fieldset>
      {canLoad && (
        <button
          type="button"
          className="load-key"
          aria-pressed={loaded}
          onClick={() => look({ shown: !loaded })}
        >
          Under load
        </button>
      )}
      <Grip now_px={size.height} />
      {locked && (
        <p className="locked" role="status">
          {locked}
        </p>
      )}
    </section>
  );
}
