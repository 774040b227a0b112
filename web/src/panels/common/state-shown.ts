import { at } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { StateReport } from "../../api/types";

/** The load state whose numbers are shown: the one the truck stands in, else the ride state. */
export function useStateShown(): StateReport | null {
  const asked = useStore((s) => s.question.state);
  const states = useAnswers((a) => a.report.states);
  const ride = useAnswers((a) => at(a.document, "/ride_state"));
  return (
    states.find((s) => s.id === asked) ?? states.find((s) => s.id === ride) ?? states[0] ?? null
  );
}
