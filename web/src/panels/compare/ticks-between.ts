const kAbout = 5;

/** Round numbers between two ends, about five of them. */
export function ticksBetween(least: number, most: number): number[] {
  const span = most - least;
  if (!(span > 0)) return [];
  const rough = span / kAbout;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((s) => s * power >= rough) ?? 10) * power;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(least / step - 1e-9);
  const last = Math.floor(most / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toFixed(decimals)),
  );
}
