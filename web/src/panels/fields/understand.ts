import { useEffect, useState } from "react";
import { client, Refusal } from "../../api/client";
import { newestWins } from "../../api/queue";
import type { Understood } from "../../api/shop-types";
import { getState } from "../../api/store";
import type { Units } from "../../api/types";

const kStill_ms = 90;
const kMost = 500;

/** Answers by what was asked; null: it does not read. */
const known = new Map<string, Understood | null>();

/** What the program makes of a text; null: it does not read; undefined: no answer. */
async function ask(text: string, dimension: string): Promise<Understood | null | undefined> {
  const metric = getState().answers?.units.metric ?? false;
  const key = `${dimension} ${metric} ${text}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  try {
    const answer = await client.understand(text, dimension, metric);
    if (known.size > kMost) known.clear();
    known.set(key, answer);
    return answer;
  } catch (error) {
    if (!(error instanceof Refusal)) return undefined;
    known.set(key, null);
    return null;
  }
}

/** The text with the build's own unit where none was typed. */
export function withUnit(text: string, dimension: string, units: Units): string {
  const unit = units.per_si[dimension]?.unit;
  return unit && /[\d¼-¾⅐-⅞]$/.test(text) ? `${text} ${unit}` : text;
}

/** What goes into the file for what was typed. */
export async function writtenFor(
  text: string,
  dimension: string,
  units: Units | null,
): Promise<string> {
  const understood = await ask(text, dimension);
  return understood?.written ?? (units ? withUnit(text, dimension, units) : text);
}

/** How what is being typed is understood, while it is typed. */
export function useEcho(draft: string | null, dimension: string): Understood | null {
  const [echo, setEcho] = useState<{ text: string; understood: Understood | null } | null>(null);
  const [listen] = useState(() =>
    newestWins<string>(async (text) => {
      const understood = await ask(text, dimension);
      setEcho({ text, understood: understood ?? null });
    }),
  );
  const text = draft?.trim() ?? "";
  useEffect(() => {
    if (text === "") return;
    const timer = setTimeout(() => listen(text), kStill_ms);
    return () => clearTimeout(timer);
  }, [text, listen]);
  return text !== "" && echo?.text === text ? echo.understood : null;
}
