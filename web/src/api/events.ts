import { routeOf, type Where } from "./client";
import type { HeadEvent } from "./shop-types";

export interface Listener {
  head: (event: HeadEvent) => void;
  /** Whether the program is being heard. */
  heard: (isHeard: boolean) => void;
  /** Heard again after a cut or an end: what happened in between was missed. */
  again: () => void;
}

/** The stream says something every 10 s; after this silence the network counts as gone. */
const kSilence_ms = 25_000;
const kAgain_ms = 1000;

/** Cuts a stream of server-sent events into whole ones; `rest` is what has not ended yet. */
export function eventsIn(text: string): {
  events: { event: string; data: string }[];
  rest: string;
} {
  const blocks = text.replaceAll("\r\n", "\n").split("\n\n");
  const rest = blocks.pop() ?? "";
  const events = blocks.flatMap((block) => {
    const lines = block.split("\n").filter((line) => line !== "" && !line.startsWith(":"));
    if (lines.length === 0) return [];
    const fieldsOf = (name: string) =>
      lines
        .filter((l) => l.startsWith(`${name}:`))
        .map((l) => l.slice(name.length + 1).trimStart());
    return [{ event: fieldsOf("event")[0] ?? "message", data: fieldsOf("data").join("\n") }];
  });
  return { events, rest };
}

/** Listens for other screens' edits until `stop` is called, and takes up again what was cut off.
 * Not an EventSource: that hides the comments by which a dead network is told from a quiet shop. */
export function listen(where: Where, listener: Listener): () => void {
  let stopped = false;
  let tries = 0;
  let cut = new AbortController();
  const once = async () => {
    cut = new AbortController();
    tries++;
    let watch = setTimeout(() => cut.abort(), kSilence_ms);
    try {
      const route = routeOf({ ...where, variant: null }, "/events");
      const response = await fetch(route, { cache: "no-store", signal: cut.signal });
      const reader = response.ok ? response.body?.getReader() : undefined;
      if (!reader) return;
      const decoder = new TextDecoder();
      let text = "";
      listener.heard(true);
      if (tries > 1) listener.again();
      for (;;) {
        const { done, value } = await reader.read();
        if (done || stopped) return;
        clearTimeout(watch);
        watch = setTimeout(() => cut.abort(), kSilence_ms);
        const { events, rest } = eventsIn(text + decoder.decode(value, { stream: true }));
        text = rest;
        for (const { event, data } of events) if (event === "head") listener.head(JSON.parse(data));
      }
    } catch {
      // Cut off or never reached: told below, and tried again.
    } finally {
      clearTimeout(watch);
    }
  };
  const on = async () => {
    while (!stopped) {
      await once();
      if (stopped) return;
      listener.heard(false);
      await new Promise((resolve) => setTimeout(resolve, kAgain_ms));
    }
  };
  void on();
  return () => {
    stopped = true;
    cut.abort();
  };
}
