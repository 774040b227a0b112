import { type FormEvent, useId } from "react";
import { setState, useStore } from "../../api/store";
import { keepInitials } from "../../api/who";

/** Asked once on each screen, after its first entry. */
export function AskInitials() {
  const asked = useStore((s) => s.askInitials);
  const id = useId();
  if (!asked) return null;
  const keep = (text: string) => {
    keepInitials(text);
    setState({ askInitials: false });
  };
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    keep(String(new FormData(event.currentTarget).get("initials") ?? ""));
  };
  return (
    <form className="ask-initials" onSubmit={submit}>
      <label htmlFor={id}>Your initials, for the history</label>
      <input id={id} name="initials" autoComplete="off" autoCapitalize="characters" maxLength={5} />
      <button type="submit">Keep</button>
      <button type="button" className="quiet" onClick={() => keep("")}>
        Not on this screen
      </button>
    </form>
  );
}
