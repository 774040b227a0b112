let last: Promise<unknown> = Promise.resolve();

/** One change to the build at a time, in the order they were asked for. */
export function inTurn<T>(run: () => Promise<T>): Promise<T> {
  const turn = last.then(run);
  last = turn.catch(() => undefined);
  return turn;
}
