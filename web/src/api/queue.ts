/**
 * Sends one question at a time, or `most` at once; while so many are on their way only the newest of
 * those that follow is kept. `send` must handle its own failures.
 */
export function newestWins<Q>(
  send: (question: Q) => Promise<void>,
  most = 1,
): (question: Q) => void {
  let busy = 0;
  let waiting: { question: Q } | null = null;
  const run = async (question: Q) => {
    busy++;
    await send(question);
    busy--;
    const next = waiting;
    waiting = null;
    if (next) void run(next.question);
  };
  return (question) => {
    if (busy >= most) waiting = { question };
    else void run(question);
  };
}
