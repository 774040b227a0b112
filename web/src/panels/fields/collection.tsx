import { type FormEvent, memo, useId } from "react";
import { choose } from "../../api/choose";
import { edit } from "../../api/entries";
import { at, join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Json, Path } from "../../api/types";
import { capital, isEstimate, wordsOf } from "../../format/text";
import { Stacked } from "../common/figures";
import { idFrom, knownOf } from "./known";
import { kindAt, requiredAt } from "./schema";

interface CollectionProps {
  /** Of a map of things by id, such as the links of an axle. */
  path: Path;
  title: string;
  /** Members of each thing that are shown in its line. */
  shows: string[];
  /** Of the things these alone. */
  isOne?: (thing: Json) => boolean;
  /** What a new one of them begins with. */
  begin?: { [key: string]: Json };
}

/** The things of one kind: a line each, that opens the thing's fields. */
export function Collection({ path, title, shows, isOne, begin }: CollectionProps) {
  const things = useAnswers((a) => at(a.document, path));
  const all = typeof things === "object" && things !== null ? Object.entries(things) : [];
  const ids = all.filter(([, thing]) => isOne?.(thing) ?? true).map(([id]) => id);
  return (
    <section className="collection" aria-label={title}>
      <h4>{title}</h4>
      {ids.length > 0 && (
        <ul>
          {ids.map((id) => (
            <Line key={id} path={join(path, id)} id={id} shows={shows} />
          ))}
        </ul>
      )}
      <AddOne path={path} title={title} like={Object.fromEntries(all)} begin={begin} />
    </section>
  );
}

/** Puts another one in by its name; its fields open at once. */
function AddOne(props: {
  path: Path;
  title: string;
  like: { [id: string]: Json };
  begin: { [key: string]: Json } | undefined;
}) {
  const { path, title, like, begin } = props;
  const schema = useAnswers((a) => a.schema);
  const id = useId();
  const add = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const label = String(new FormData(form).get("name") ?? "").trim();
    const key = idFrom(label, Object.keys(like));
    if (key === null) return;
    const here = join(path, key);
    const required = requiredAt(schema, here, Object.values(like));
    edit([{ path: here, value: { label, ...required, ...begin } }]);
    choose(here);
    form.reset();
  };
  return (
    <form className="add-one" onSubmit={add}>
      <label htmlFor={id} className="sr-only">{`Name of another one of: ${title}`}</label>
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

const Line = memo(function Line({ path, id, shows }: { path: Path; id: string; shows: string[] }) {
  const thing = useAnswers((a) => at(a.document, path));
  const schema = useAnswers((a) => a.schema);
  const isChosen = useStore((s) => s.chosen?.path === path);
  const label = at(thing, "/label");
  const name = typeof label === "string" && label !== "" ? label : wordsOf(id);
  return (
    <li>
      <button type="button" className="line" aria-pressed={isChosen} onClick={() => choose(path)}>
        <span className="line-name">{capital(name)}</span>
        <span className="line-values">
          {shows.map((key) => {
            const way = key.startsWith("/") ? key : `/${key}`;
            const value = at(thing, way);
            return kindAt(schema, `${path}${way}`)?.kind === "word" ? (
              typeof value === "string" && <span key={key}>{wordsOf(value).toLowerCase()}</span>
            ) : (
              <Value key={key} value={value} />
            );
          })}
        </span>
      </button>
    </li>
  );
});

function Value({ value }: { value: Json | undefined }) {
  if (value === undefined) return null;
  const known = knownOf(value);
  const guessed = known.from === "estimate" || isEstimate(known.text);
  return (
    <span className={guessed ? "estimate" : ""}>
      {guessed && !isEstimate(known.text) && "~"}
      <Stacked text={known.text} />
    </span>
  );
}
