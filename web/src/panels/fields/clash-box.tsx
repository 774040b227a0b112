import { settleClash } from "../../api/entries";
import { useStore } from "../../api/store";
import type { Path } from "../../api/types";
import { Stacked } from "../common/figures";

/** Two screens changed the same value: theirs and yours, one tap for either. */
export function ClashBox({ path }: { path: Path }) {
  const clash = useStore((s) => s.clashes[path]);
  if (!clash) return null;
  return (
    <div className="clash" role="alert">
      <p>Another screen changed this too.</p>
      <button type="button" onClick={() => settleClash(path, "theirs")}>
        <span className="whose">Theirs</span> <Stacked text={clash.theirs} />
      </button>
      <button type="button" onClick={() => settleClash(path, "yours")}>
        <span className="whose">Yours</span> <Stacked text={clash.yours} />
      </button>
    </div>
  );
}
