import { useEffect, useMemo } from "react";
import { client } from "./client";
import { at } from "./pointer";
import type { Comparison } from "./shop-types";
import { getState, setState, useAnswers, useStore } from "./store";
import type { Json } from "./types";
import { wordsFor } from "./words";

export interface Variant {
  id: string;
  label: string;
  /** How many values it changes. */
  count: number;
}

export function variantsOf(base: Json): Variant[] {
  const all = at(base, "/variants");
  if (typeof all !== "object" || all === null) return [];
  return Object.entries(all).map(([id, one]) => {
    const label = at(one, "/label");
    const changes = at(one, "/changes");
    const count = typeof changes === "object" && changes !== null ? Object.keys(changes).length : 0;
    return { id, label: typeof label === "string" && label !== "" ? label : id, count };
  });
}

/** Two variants that are looked at side by side; null: the build itself. */
export interface Sides {
  a: string | null;
  b: string | null;
}

/** Those that were picked, else the build and the variant that is open; null: there is no variant. */
export function useSides(): Sides | null {
  const first = useAnswers((a) => variantsOf(a.base)[0]?.id ?? null);
  const open = useStore((s) => s.place?.variant ?? null);
  const picked = useStore((s) => s.sides);
  return useMemo(
    () => (first === null ? null : (picked ?? { a: null, b: open ?? first })),
    [first, open, picked],
  );
}

/** Asks for the two, and again after every edit; forgets them when they are no longer looked at. */
export function useAskedComparison({ a, b }: Sides): Comparison | null {
  const etag = useAnswers((s) => s.etag);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew when the build is another.
  useEffect(() => {
    const { place } = getState();
    if (!place) return;
    let isOld = false;
    client.compare(place.build, a, b).then(
      (comparison) => {
        if (!isOld) setState({ comparison });
      },
      (error: unknown) => setState({ trouble: wordsFor(error) }),
    );
    return () => {
      isOld = true;
    };
  }, [a, b, etag]);
  useEffect(() => () => setState({ comparison: null }), []);
  return useStore((s) => s.comparison);
}
