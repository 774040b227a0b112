import type { MockUpStep } from "../../api/types";
import { Stacked } from "../common/figures";

/** The order of the mock-up; at a hold point nothing goes on before what it names is measured. */
export function MockUp({ steps }: { steps: MockUpStep[] }) {
  if (steps.length === 0) return null;
  return (
    <section className="mock-up" aria-label="Mock-up, in order">
      <h3>Mock-up, in order</h3>
      <ol>
        {steps.map(({ label, detail, hold }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a step may come twice.
          <li key={`${i} ${label}`}>
            <span className="step-number">{i + 1}</span>
            <div>
              <strong>
                <Stacked text={label} />
              </strong>
              {detail !== "" && (
                <p>
                  <Stacked text={detail} />
                </p>
              )}
              {hold !== "" && (
                <p className="hold">
                  <HoldMark />
                  <span>
                    <strong>Hold point.</strong> <Stacked text={hold} />
                  </span>
                </p>
              )}
            </div>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Two bars in a frame: wait here. */
function HoldMark() {
  return (
    <svg width="26" height="26" viewBox="-13 -13 26 26" aria-hidden="true">
      <rect x="-11" y="-11" width="22" height="22" />
      <path d="M-3.5 -6V6M3.5 -6V6" />
    </svg>
  );
}
