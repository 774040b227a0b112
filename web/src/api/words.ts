import { NoAnswer, Refusal } from "./client";
import type { Json } from "./types";

export function wordsFor(error: unknown): string {
  if (error instanceof NoAnswer || error instanceof Refusal) return error.message;
  return "This page has made a mistake of its own. Load it again; nothing typed is lost.";
}

export function textOf(value: Json): string {
  return typeof value === "string" ? value : JSON.stringify(value);
}
