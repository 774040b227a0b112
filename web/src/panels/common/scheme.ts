import { useLayoutEffect, useSyncExternalStore } from "react";
import { type Scheme, setState, useStore } from "../../api/store";

const night = window.matchMedia("(prefers-color-scheme: dark)");
const kKept = "rigwright.scheme";

function watchNight(listener: () => void): () => void {
  night.addEventListener("change", listener);
  return () => night.removeEventListener("change", listener);
}

/** Whether the page is dark now: as the builder has said, else as the device is. */
export function useDark(): boolean {
  const scheme = useStore((s) => s.scheme);
  const isNight = useSyncExternalStore(watchNight, () => night.matches);
  return scheme === "auto" ? isNight : scheme === "dark";
}

/** Puts the scheme on the document, for the style sheet. */
export function useSchemeOnPage(): void {
  const dark = useDark();
  useLayoutEffect(() => {
    document.documentElement.dataset.scheme = dark ? "dark" : "light";
  }, [dark]);
}

export function keepScheme(scheme: Scheme): void {
  localStorage.setItem(kKept, scheme);
  setState({ scheme });
}

export function keptScheme(): Scheme {
  const kept = localStorage.getItem(kKept);
  return kept === "light" || kept === "dark" ? kept : "auto";
}
