import { keepScheme, useDark } from "./scheme";

/** Turns the page dark for the night, and light again. */
export function DarkKey() {
  const dark = useDark();
  return (
    <button type="button" aria-pressed={dark} onClick={() => keepScheme(dark ? "light" : "dark")}>
      Dark
    </button>
  );
}
