import { type FormEvent, useEffect, useId, useState } from "react";
import { client } from "../../api/client";
import { begin } from "../../api/session";
import { wordsFor } from "../../api/words";
import { capital } from "../../format/text";

/** Asks for the code that the program shows, once for each screen. */
export function DoorScreen() {
  const id = useId();
  const [why, setWhy] = useState("");
  const [minutes, setMinutes] = useState<number | null>(null);
  useEffect(() => {
    client.door().then(
      (door) => setMinutes(door.code_minutes),
      // Only a hint is missing then; giving the code tells what is the matter.
      () => setMinutes(null),
    );
  }, []);
  const pair = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const code = String(new FormData(event.currentTarget).get("code") ?? "").trim();
    try {
      await client.pair(code);
      await begin();
    } catch (error) {
      setWhy(capital(wordsFor(error)));
    }
  };
  return (
    <main className="door">
      <h1>Rigwright</h1>
      <form onSubmit={(event) => void pair(event)}>
        <label htmlFor={id}>
          The pairing code, as it stands on the machine where Rigwright runs
        </label>
        <div className="add-one">
          <input id={id} name="code" autoComplete="off" autoCapitalize="characters" required />
          <button type="submit">Come in</button>
        </div>
        {minutes !== null && (
          <p>A code is good once, and for {minutes} minutes; then another one stands there.</p>
        )}
        {why !== "" && (
          <p className="why" role="alert">
            {why}
          </p>
        )}
      </form>
    </main>
  );
}
