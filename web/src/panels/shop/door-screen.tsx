import { type FormEvent, useId, useState } from "react";
import { client, Refusal } from "../../api/client";
import { begin } from "../../api/session";
import { wordsFor } from "../../api/words";

/** Asks for the code that the program shows, once for each screen. */
export function DoorScreen() {
  const id = useId();
  const [why, setWhy] = useState("");
  const pair = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const code = String(new FormData(event.currentTarget).get("code") ?? "").trim();
    try {
      await client.pair(code);
      await begin();
    } catch (error) {
      const isWrong = error instanceof Refusal && error.status === 403;
      setWhy(isWrong ? "That is not the code. Look again where Rigwright runs." : wordsFor(error));
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
        {why !== "" && (
          <p className="why" role="alert">
            {why}
          </p>
        )}
      </form>
    </main>
  );
}
