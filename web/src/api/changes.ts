import { client, NoAnswer, Refusal, type Where } from "./client";
import { entriesTaken } from "./entries";
import { join, parentOf } from "./pointer";
import { refresh, takeAnswer } from "./session";
import type { Change, ChangeAnswer, Dependant } from "./shop-types";
import { getState, setState } from "./store";
import { inTurn } from "./turns";
import type { Operation, Path } from "./types";
import { wordsFor } from "./words";

/** Changes asked for and not answered yet. */
let asked = 0;

/** Asks for a change that the program makes by itself, after everything entered has been taken. */
async function ask(
  send: (where: Where, etag: string) => Promise<ChangeAnswer>,
): Promise<ChangeAnswer | null> {
  asked++;
  try {
    return await askInTurn(send);
  } finally {
    asked--;
  }
}

async function askInTurn(
  send: (where: Where, etag: string) => Promise<ChangeAnswer>,
): Promise<ChangeAnswer | null> {
  if (!(await entriesTaken())) {
    setState({ trouble: "The program is not answering. Try that again when it is back." });
    return null;
  }
  return inTurn(async () => {
    const { answers, place } = getState();
    if (!answers || !place) return null;
    try {
      const answer = await send(place, answers.etag);
      takeAnswer(answer);
      return answer;
    } catch (error) {
      if (error instanceof NoAnswer) setState({ offline: true });
      if (error instanceof Refusal && error.status === 412) {
        await refresh();
        setState({ trouble: "Another screen was first. Look at what it did, then try again." });
        return null;
      }
      if (error instanceof Refusal && error.body.dependants) throw error;
      if (error instanceof Refusal && error.status === 409) return null;
      setState({ trouble: faultsOf(error) });
      return null;
    }
  });
}

function faultsOf(error: unknown): string {
  const said = error instanceof Refusal ? (error.body.diagnostics ?? []) : [];
  return said.map((d) => `${d.message} ${d.remedy}`).join(" ") || wordsFor(error);
}

export function undoLast(): void {
  const { answers, waiting } = getState();
  if (answers?.canUndo || waiting > 0 || asked > 0) void ask(client.undo);
}

export function redoLast(): void {
  if (getState().answers?.canRedo || asked > 0) void ask(client.redo);
}

/** Makes the build again as it was at an entry of its history. */
export function goBackTo(entry: number): Promise<ChangeAnswer | null> {
  return ask((where, etag) => client.restore(where, etag, entry));
}

/** Copies a thing beside itself with a label of its own, in one entry: where the copy is; null: it
 * could not be done. */
export async function copyThing(path: Path, to: string, label: string): Promise<Path | null> {
  const copy = join(parentOf(path), to);
  const patch: Operation[] = [
    { op: "copy", from: path, path: copy },
    { op: "add", path: join(copy, "label"), value: label },
  ];
  return (await ask((where, etag) => client.patch(where, etag, patch))) ? copy : null;
}

/** A change that the program makes by itself: where what it was about is now; null: it could not be
 * done. */
export async function change(what: Change): Promise<Path | null> {
  const answer = await ask((where, etag) => client.change(where, etag, what));
  return answer ? (answer.path ?? ("path" in what ? what.path : "")) : null;
}

/** Takes a thing out. What depends on it, when that was not to be taken too. */
export async function takeOut(path: Path, withDependants: boolean): Promise<Dependant[] | null> {
  try {
    const kind = "remove" as const;
    await ask((where, etag) =>
      client.change(where, etag, { kind, path, with_dependants: withDependants }),
    );
    return null;
  } catch (error) {
    if (error instanceof Refusal && error.body.dependants) return error.body.dependants;
    throw error;
  }
}
