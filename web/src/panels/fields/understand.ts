import { useEffect, useState } from "react";
import { client, Refusal } from "../../api/client";
import { newestWins } from "../../api/queue";
import type { Understood } from "../../api/shop-types";
import { getState } from "../../api/store";
import type { Units } from "../../api/types";

const kStill_ms = 90;
const kPatience_ms = 400;
const kMost = 500;

/** Answers by what was asked; null: it does not read. */
const known = new Map<string, Understood | null>();

/** What the program makes of a text; null: it does not read; undefined: no answer. */
async function ask(
  text: string,
  dimension: string,
  metric: boolean,
): Promise<Understood | null | undefined> {
  const key = `${dimension} ${keyOf(text, metric)}`;
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
  if (!unit || !/[\d¼-¾⅐-⅞]$/.test(text)) return text;
  // "4.56:1" has its unit.
  return unit.startsWith(":") ? text + (text.includes(":") ? "" : unit) : `${text} ${unit}`;
}

/** What goes into the file for what was typed. It must not wait long: until it is known, the entry is
 * kept nowhere. */
export async function writtenFor(text: string, dimension: string, units: Units): Promise<string> {
  const alone = withUnit(text, dimension, units);
  if (getState().offline) return alone;
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, kPatience_ms));
  const understood = await Promise.race([ask(text, dimension, units.metric), late]);
  return understood?.written ?? alone;
}

/** How what is being typed is understood, while it is typed. */
export function useEcho(
  draft: string | null,
  dimension: string,
  metric: boolean,
): Understood | null {
  const [echo, setEcho] = useState<{ asked: string; understood: Understood | null } | null>(null);
  const [listen] = useState(() =>
    newestWins<{ text: string; metric: boolean }>(async (asked) => {
      const understood = await ask(asked.text, dimension, asked.metric);
      setEcho({ asked: keyOf(asked.text, asked.metric), understood: understood ?? null });
    }),
  );
  const text = draft?.trim() ?? "";
  useEffect(() => {
    if (text === "") return;
    const timer = setTimeout(() => listen({ text, metric }), kStill_ms);
    return () => clearTimeout(timer);
  }, [text, metric, listen]);
  return text !== "" && echo?.asked === keyOf(text, metric) ? echo.understood : null;
}

function keyOf(text: string, metric: boolean): string {
  return `${metric} ${text}`;
}
