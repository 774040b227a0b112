import { setState, useStore } from "../../api/store";
import { Mark } from "../common/mark";
import { kShortcuts } from "./shortcuts";

/** The marks, the ways of the hand, and every key, in one place. */
export function HelpSheet() {
  const singleKeys = useStore((s) => s.singleKeys);
  return (
    <section className="help" aria-label="Marks and keys">
      <header>
        <h2>Marks and keys</h2>
        <button type="button" className="quiet" onClick={() => setState({ helpOpen: false })}>
          Close
        </button>
      </header>
      <div className="help-columns">
        <div>
          <h3>Marks</h3>
          <ul className="legend">
            <li>
              <Mark kind="good" /> Good: inside the limit.
            </li>
            <li>
              <Mark kind="look" /> Look: inside but close, or an assumption decides it.
            </li>
            <li>
              <Mark kind="stop" /> Stop: outside the limit. Do not build it so.
            </li>
            <li>
              <Mark kind="unknown" /> Not known: something is still to be typed.
            </li>
            <li>
              <span className="estimate">~41 in</span> Estimated, not measured.
            </li>
            <li>
              <span className="violet-word">Violet</span> Changed since the build was opened, or in
              the variant that is open.
            </li>
          </ul>
          <h3>On the truck</h3>
          <ul>
            <li>Tap a part or one of its points: its numbers open below.</li>
            <li>
              Drag a ring of what was tapped: the point moves, to the sixteenth (1 mm). In space it
              moves in the plane you look at most squarely. Escape leaves it.
            </li>
            <li>Drag a wheel: its axle moves. In the end view and in space, that wheel alone.</li>
            <li>
              Drag along the floor line: measures. Points of the truck hold the end of the tape.
            </li>
            <li>Pull the two lines at the picture's lower right: more picture or more sheet.</li>
            <li>
              Two fingers or the wheel: larger and smaller. Drag beside the truck: moves the sheet.
            </li>
          </ul>
        </div>
        <div>
          <h3>Keys</h3>
          <label className="check">
            <input
              type="checkbox"
              checked={singleKeys}
              onChange={(event) => setState({ singleKeys: event.target.checked })}
            />
            <span>Single keys do something</span>
          </label>
          <dl className="keys">
            {kShortcuts.map((s) => (
              <div key={s.key}>
                <dt>
                  <kbd>{s.key}</kbd>
                </dt>
                <dd>{s.does}</dd>
              </div>
            ))}
            <div>
              <dt>
                <kbd>↑</kbd> <kbd>↓</kbd>
              </dt>
              <dd>
                In a quantity: a sixteenth (1 mm) more or less. On the truck: from part to part. On
                a ring: the point moves
              </dd>
            </div>
            <div>
              <dt>
                <kbd>Esc</kbd>
              </dt>
              <dd>In a field: back to what it was</dd>
            </div>
          </dl>
        </div>
      </div>
    </section>
  );
}
