import { at } from "../../api/pointer";
import { getState, useAnswers, useStore } from "../../api/store";
import { editShown } from "../../api/trial";
import type { Json, Path } from "../../api/types";
import { editsFor } from "./schema";

/** The value a field shows: what is on its way, else what stands. */
export function useShown(path: Path): Json | undefined {
  const pending = useStore((s) => s.pending[path]);
  const stands = useAnswers((a) => at(a.document, path));
  return pending === undefined ? stands : (pending ?? undefined);
}

/** Puts a value in the build, or takes it out. */
export function enter(path: Path, value: Json | undefined): void {
  const { answers } = getState();
  if (!answers) return;
  if (value === undefined) editShown([{ path, remove: true }]);
  else editShown(editsFor(answers.schema, answers.document, path, value));
}
