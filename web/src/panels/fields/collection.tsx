import { memo } from "react";
import { choose } from "../../api/actions";
import { at, join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Json, Path } from "../../api/types";
import { isEstimate, wordsOf } from "../../format/text";
import { Stacked } from "../common/figures";
import { knownOf } from "./known";

interface CollectionProps {
  /** Of a map of things by id, such as the links of an axle. */
  path: Path;
  title: string;
  /** Members of each thing that are shown in its line. */
  shows: string[];
}

/** The things of one kind: a line each, that opens the thing's fields. */
export function Collection({ path, title, shows }: CollectionProps) {
  const things = useAnswers((a) => at(a.document, path));
  const ids = typeof things === "object" && things !== null ? Object.keys(things) : [];
  if (ids.length === 0) return null;
  return (
    <section className="collection" aria-label={title}>
      <h4>{title}</h4>
      <ul>
        {ids.map((id) => (
          <Line key={id} path={join(path, id)} id={id} shows={shows} />
        ))}
      </ul>
    </section>
  );
}

const Line = memo(function Line({ path, id, shows }: { path: Path; id: string; shows: string[] }) {
  const thing = useAnswers((a) => at(a.document, path));
  const isChosen = useStore((s) => s.chosen?.path === path);
  const label = at(thing, "/label");
  const name = typeof label === "string" && label !== "" ? label : wordsOf(id);
  return (
    <li>
      <button type="button" className="line" aria-pressed={isChosen} onClick={() => choose(path)}>
        <span className="line-name">{name.charAt(0).toUpperCase() + name.slice(1)}</span>
        <span className="line-values">
          {shows.map((key) => (
            <Value key={key} value={at(thing, key.startsWith("/") ? key : `/${key}`)} />
          ))}
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
