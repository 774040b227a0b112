import { createContext, type ReactNode, useContext, useMemo, useRef, useState } from "react";
import { scrollIntoSight } from "../common/scroll";

interface KeypadHold {
  /** Whether quantities are entered by the keys on the page. */
  isTouch: boolean;
  open: (input: HTMLInputElement | null, dimension: string) => void;
  close: (input: HTMLInputElement | null) => void;
}

const KeypadContext = createContext<KeypadHold>({
  isTouch: false,
  open: () => undefined,
  close: () => undefined,
});

export function useKeypad(): KeypadHold {
  return useContext(KeypadContext);
}

const kUnits: Record<string, string[]> = {
  length: ["in", "′", "″", "mm"],
  mass: ["lb", "kg"],
  force: ["lbf", "N"],
  angle: ["deg"],
  stiffness: ["lbf/in", "N/mm"],
  damping: ["lbf*s/in", "N*s/m"],
  angular_stiffness: ["lb-ft/deg", "N*m/deg"],
  volume: ["gal", "L"],
  density: ["lb/gal", "kg/L"],
  stress: ["ksi", "psi", "MPa"],
  ratio: ["%"],
};
const kEighths = ["1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];
const kSixteenths = ["1/16", "3/16", "5/16", "7/16", "9/16", "11/16", "13/16", "15/16"];

interface Target {
  input: HTMLInputElement;
  dimension: string;
}

/** Puts the keypad at the foot of the page while a quantity is being entered by touch. */
export function KeypadProvider({ children }: { children: ReactNode }) {
  const [target, setTarget] = useState<Target | null>(null);
  const isTouch = useMemo(() => window.matchMedia("(pointer: coarse)").matches, []);
  const letters = useRef(false);
  const hold = useMemo<KeypadHold>(
    () => ({
      isTouch,
      open: (input, dimension) => {
        if (!isTouch || !input) return;
        setTarget({ input, dimension });
        requestAnimationFrame(() => {
          // A first key takes the place of all of it; another tap sets the caret.
          input.select();
          scrollIntoSight(input, 12);
        });
      },
      close: (input) => {
        if (letters.current) return;
        setTarget((now) => (now?.input === input ? null : now));
      },
    }),
    [isTouch],
  );
  const toLetters = () => {
    if (!target) return;
    letters.current = true;
    target.input.inputMode = "text";
    target.input.blur();
    target.input.focus();
    letters.current = false;
    setTarget(null);
  };
  return (
    <KeypadContext value={hold}>
      {children}
      {target && <Keypad target={target} onLetters={toLetters} />}
    </KeypadContext>
  );
}

/** Types into the input as a keyboard would, so that it hears of it. */
function type(input: HTMLInputElement, text: string, remove = 0): void {
  const start = input.selectionStart ?? input.value.length;
  const end = input.selectionEnd ?? start;
  const from = start === end ? Math.max(0, start - remove) : start;
  const value = input.value.slice(0, from) + text + input.value.slice(end);
  const setter = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set;
  setter?.call(input, value);
  input.dispatchEvent(new Event("input", { bubbles: true }));
  const caret = from + text.length;
  input.setSelectionRange(caret, caret);
}

function Keypad({ target, onLetters }: { target: Target; onLetters: () => void }) {
  const { input, dimension } = target;
  const spaced = (text: string) => {
    const before = input.value.slice(0, input.selectionStart ?? input.value.length);
    return /\d$/.test(before) ? ` ${text}` : text;
  };
  const units = kUnits[dimension] ?? [];
  const unitText = (unit: string) => (unit === "′" || unit === "″" ? unit : spaced(unit));
  const key = (label: string, press: () => void, look = "", name = label) => (
    <button
      key={name}
      type="button"
      className={`pad-key ${look}`}
      aria-label={name}
      // The field keeps the caret.
      onPointerDown={(event) => event.preventDefault()}
      onClick={press}
    >
      {label}
    </button>
  );
  return (
    <fieldset className="keypad" aria-label="Keys for quantities">
      <div className="pad-digits">
        {["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "−"].map((d) =>
          key(d, () => type(input, d === "−" ? "-" : d)),
        )}
      </div>
      {dimension === "length" && (
        <div className="pad-fractions">
          {[...kEighths, ...kSixteenths].map((f) =>
            key(f, () => type(input, spaced(f)), "pad-fraction"),
          )}
        </div>
      )}
      <div className="pad-units">
        {units.map((u) => key(u, () => type(input, unitText(u)), "pad-unit"))}
        {key("space", () => type(input, " "))}
        {key("/", () => type(input, "/"))}
        {key("⌫", () => type(input, "", 1), "", "rub out")}
        {key("abc", onLetters, "", "letters")}
        {key("Enter", () => input.blur(), "pad-enter")}
      </div>
    </fieldset>
  );
}
