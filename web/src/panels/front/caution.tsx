import { useState } from "react";

const kKept = "rigwright.caution-read";

/** Stands once, on the front. It folds to its first line once it has been read. */
export function Caution() {
  const [read, setRead] = useState(() => localStorage.getItem(kKept) === "yes");
  const keep = (value: boolean) => {
    localStorage.setItem(kKept, value ? "yes" : "no");
    setRead(value);
  };
  return (
    <section className={`caution${read ? " read" : ""}`} aria-label="Caution">
      <p>
        <strong>Steering, brakes, suspension and frame failures kill.</strong>{" "}
        {!read && (
          <>
            This is an aid to a competent builder. Have the work designed, welded and inspected by
            people qualified for it, to the local code and inspection. Numbers are no better than
            the measurements.
          </>
        )}
      </p>
      <button type="button" className="quiet" aria-expanded={!read} onClick={() => keep(!read)}>
        {read ? "Read it all" : "Read and understood"}
      </button>
    </section>
  );
}
