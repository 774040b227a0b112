import { useMemo } from "react";
import { changedPaths } from "../../api/changed";
import { useAnswers, useStore } from "../../api/store";
import type { Path } from "../../api/types";

/** Paths of the values that have been changed since this page opened the build. */
export function useChanged(): Path[] {
  const opened = useStore((s) => s.opened);
  const document = useAnswers((a) => a.document);
  return useMemo(() => changedPaths(opened, document), [opened, document]);
}
