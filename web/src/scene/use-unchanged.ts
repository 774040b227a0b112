import { useRef } from "react";
import { shareUnchanged } from "../api/share";

/** A value that is worked out anew, as the very same object for as long as it comes out the same. */
export function useUnchanged<T>(value: T): T {
  const kept = useRef(value);
  kept.current = shareUnchanged(kept.current, value);
  return kept.current;
}
