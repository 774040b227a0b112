import type { Json } from "../src/api/types";

export interface MockState {
  builds: { id: string; head: number; entries: { entry: number; document: Json }[] }[];
}

export function makeState(): MockState;
export function answer(
  state: MockState,
  method: string,
  url: string,
  body: unknown,
  headers?: Record<string, string>,
): [number, unknown];
