import type { Json } from "../src/api/types";

export interface MockState {
  revision: number;
  document: Json;
}

export function makeState(): MockState;
export function answer(
  state: MockState,
  method: string,
  route: string,
  body: unknown,
): [number, unknown];
