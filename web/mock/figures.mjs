// Numbers as the program tells them, from what a shop would say.
export const n = (si, text) => ({ si, text });
export const inch = (value, text) => n(value * 0.0254, text ?? `${value} in`);
export const deg = (value) => n((value * Math.PI) / 180, `${value.toFixed(1)}°`.replace("-", "−"));
export const lb = (value) => n(value * 0.4536, `${value.toLocaleString("en-US")} lb`);
export const lbf = (value) =>
  n(value * 4.448, `${value.toLocaleString("en-US").replace("-", "−")} lbf`);
export const per = (value) => n(value / 100, `${value} %`.replace("-", "−"));
