/**
 * Sends one question at a time; while one is on its way only the newest of those that follow is kept.
 * `send` must handle its own failures.
 */
export function newestWins<Q>(send: (question: Q) => Promise<void>): (question: Q) => void {
  let busy = false;
  let waiting: { question: Q } | null = null;
  const run = async (question: Q) => {
    busy = true;
    await send(question);
    busy = false;
    const next = waiting;
    waiting = null;
    if (next) void run(next.question);
  };
  return (question) => {
    if (busy) waiting = { question };
    else void run(question);
  };
}
