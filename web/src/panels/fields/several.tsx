import { type FormEvent, useId } from "react";
import { edit } from "../../api/entries";
import { at, join } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import type { Path } from "../../api/types";
import { wordsOf } from "../../format/text";
import { enter } from "./entered";
import { Fields } from "./fields";
import { idFrom } from "./known";
import { useChoices } from "./plain-fields";
import { type Member, requiredAt } from "./schema";

interface SeveralProps {
  path: Path;
  member: Member;
  depth: number;
}

/** Several of a kind within a thing: a rail's points, the tanks' fills. */
export function Several({ path, member, depth }: SeveralProps) {
  const given = useAnswers((a) => at(a.document, path));
  const keys = typeof given === "object" && given !== null ? Object.keys(given) : [];
  const isList = member.kind.kind === "list";
  const one = "one" in member.kind ? wordsOf(member.kind.one) : "";
  return (
    <section className="group several" aria-label={wordsOf(member.key)} data-path={path}>
      <h5>
        {wordsOf(member.key)} <span className="doc">{member.doc}</span>
      </h5>
      {keys.map((key, i) => {
        const name = isList ? `${one} ${i + 1}` : wordsOf(key);
        return (
          <section key={key} className="one-of" aria-label={name}>
            <header>
              <h6>{name}</h6>
              <button
                type="button"
                className="quiet"
                onClick={() => edit([{ path: join(path, key), remove: true }])}
              >
                Take out
              </button>
            </header>
            <Fields path={join(path, key)} depth={depth} />
          </section>
        );
      })}
      {isList ? (
        <AddToList path={path} one={one} count={keys.length} />
      ) : member.kind.kind === "map" && member.kind.names === null ? (
        <AddByName path={path} one={one} taken={keys} />
      ) : (
        <AddToMap path={path} member={member} taken={keys} />
      )}
    </section>
  );
}

function AddToList({ path, one, count }: { path: Path; one: string; count: number }) {
  const schema = useAnswers((a) => a.schema);
  const add = () =>
    count === 0
      ? enter(path, [requiredAt(schema, join(path, 0))])
      : enter(join(path, count), requiredAt(schema, join(path, count)));
  return (
    <button type="button" onClick={add}>
      {`Add ${one.toLowerCase()} ${count + 1}`}
    </button>
  );
}

/** Puts in another under a name of its own, such as a stretch of a rail. */
function AddByName({ path, one, taken }: { path: Path; one: string; taken: string[] }) {
  const schema = useAnswers((a) => a.schema);
  const id = useId();
  const add = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const key = idFrom(String(new FormData(form).get("name") ?? "").trim(), taken);
    if (key === null) return;
    const here = join(path, key);
    enter(here, requiredAt(schema, here));
    form.reset();
  };
  return (
    <form className="add-one" onSubmit={add}>
      <label htmlFor={id} className="sr-only">{`Name of another ${one.toLowerCase()}`}</label>
      <input
        id={id}
        name="name"
        type="text"
        autoComplete="off"
        placeholder="Another one: its name"
      />
      <button type="submit">Add</button>
    </form>
  );
}

/** Puts in another by the id of the thing it is about. */
function AddToMap({ path, member, taken }: { path: Path; member: Member; taken: string[] }) {
  const id = useId();
  const document = useAnswers((a) => a.document);
  const names = member.kind.kind === "map" ? member.kind.names : null;
  // A fill is of a tank.
  const choices = useChoices(
    names ?? "",
    (one) => names !== "masses" || at(document, join(one, "fluid")) !== undefined,
  ).filter((c) => !taken.includes(c.value));
  if (choices.length === 0) return null;
  return (
    <div className="field choice add-to">
      <label htmlFor={id}>Add one for</label>
      <select id={id} value="" onChange={(event) => enter(join(path, event.target.value), {})}>
        <option value="">choose</option>
        {choices.map((c) => (
          <option key={c.value} value={c.value}>
            {c.text}
          </option>
        ))}
      </select>
    </div>
  );
}
