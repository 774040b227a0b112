import { useEffect } from "react";
import { client } from "./client";
import { getState, setState, useAnswers, useStore } from "./store";
import type { FrameDrawing, FrameReport } from "./types";

/** How the frame under load is looked at. */
export interface FrameLook {
  shown: boolean;
  /** Id of the load case; null: that of the worst place. */
  case: string | null;
  /** From 0, as it came, to 1, as planned. */
  blend: number;
}

/** A drawing as the program gave it, and what it was asked about. */
export interface KeptDrawing {
  build: string;
  variant: string | null;
  etag: string;
  drawing: FrameDrawing;
}

export function look(change: Partial<FrameLook>): void {
  setState({ frameLook: { ...getState().frameLook, ...change } });
}

/** The case that is shown: the chosen one if there is one, else that of the worst place. */
export function caseShown(frame: FrameReport | null, chosen: string | null): string | null {
  if (!frame) return null;
  const known = (id: string | undefined) => frame.cases.find((c) => c.id === id)?.id;
  return known(chosen ?? undefined) ?? known(frame.worst[0]?.case) ?? frame.cases[0]?.id ?? null;
}

/** Whether the frame is drawn under load now: on its own work only. */
export function useIsFrameShown(): boolean {
  const asked = useStore((s) => s.work === "frame" && s.frameLook.shown);
  const any = useAnswers((a) => (a.report.frame?.cases.length ?? 0) > 0);
  return asked && any;
}

/** The frame's drawing, as far as it is there; null in the other works and while it is off. */
export function useFrameDrawing(): FrameDrawing | null {
  const shown = useIsFrameShown();
  const kept = useStore((s) => s.frameDrawing);
  const place = useStore((s) => s.place);
  if (!shown || kept?.build !== place?.build || kept?.variant !== place?.variant) return null;
  return kept?.drawing ?? null;
}

/** Asks for the drawing of the case that is shown, and again after every edit. */
export function useAskedDrawing(): void {
  const shown = useIsFrameShown();
  const place = useStore((s) => s.place);
  const chosen = useStore((s) => s.frameLook.case);
  const etag = useAnswers((a) => a.etag);
  const id = useAnswers((a) => caseShown(a.report.frame, chosen));
  useEffect(() => {
    if (!shown || !place || id === null) return;
    const kept = getState().frameDrawing;
    const here = kept?.build === place.build && kept.variant === place.variant;
    if (here && kept.etag === etag && kept.drawing.case === id) return;
    let wanted = true;
    client.frameDrawing(place, id).then(
      ({ etag: of, drawing }) => {
        if (wanted) setState({ frameDrawing: { ...place, etag: of, drawing } });
      },
      // The truck is drawn without it; the next edit asks again.
      () => wanted && setState({ frameDrawing: null }),
    );
    return () => {
      wanted = false;
    };
  }, [shown, place, id, etag]);
}
