import { type FormEvent, memo, useId, useState } from "react";
import { change, copyThing, takeOut } from "../../api/changes";
import { choose } from "../../api/choose";
import { at, keysOf, parentOf } from "../../api/pointer";
import type { Dependant } from "../../api/shop-types";
import { setState, useAnswers } from "../../api/store";
import type { Path } from "../../api/types";
import { idFrom } from "./known";

type Asking = { what: "copy" | "rename" } | { what: "remove"; dependants: Dependant[] } | null;

/** What can be done with a whole thing: copy, rename, mirror, take out. Questions open in place. */
export const ThingKeys = memo(function ThingKeys({ path, name }: { path: Path; name: string }) {
  const [asking, setAsking] = useState<Asking>(null);
  const hasSides = path.startsWith("/masses/") || keysOf(path).length === 4;
  const mirror = async () => {
    const now = await change({ kind: "mirror", path });
    if (now !== null) choose(now);
  };
  const remove = async (withDependants: boolean) => {
    const dependants = await takeOut(path, withDependants);
    if (dependants) setAsking({ what: "remove", dependants });
    else setState({ chosen: null });
  };
  const key = (what: "copy" | "rename", label: string) => (
    <button
      type="button"
      aria-expanded={asking?.what === what}
      onClick={() => setAsking(asking?.what === what ? null : { what })}
    >
      {label}
    </button>
  );
  return (
    <div className="thing-keys">
      <div className="key-row">
        {key("copy", "Copy")}
        {key("rename", "Rename")}
        {hasSides && (
          <button type="button" onClick={() => void mirror()}>
            Mirror
          </button>
        )}
        <button type="button" onClick={() => void remove(false)}>
          Take out
        </button>
      </div>
      {asking?.what === "copy" && (
        <NameIt
          path={path}
          label="What is the copy called?"
          first={`${name}, copy`}
          doIt="Make the copy"
          onName={async (id, label) => {
            const now = await copyThing(path, id, label);
            if (now === null) return;
            setAsking(null);
            choose(now);
          }}
        />
      )}
      {asking?.what === "rename" && (
        <NameIt
          path={path}
          label="The word that other places in the build call it by; they follow"
          first={keysOf(path).at(-1) ?? ""}
          doIt="Rename"
          onName={async (id) => {
            const now = await change({ kind: "rename", path, to: id });
            if (now === null) return;
            setAsking(null);
            choose(now);
          }}
        />
      )}
      {asking?.what === "remove" && (
        <div className="depends" role="alert">
          <p>These depend on it:</p>
          <ul>
            {asking.dependants.map((d) => (
              <li key={d.path}>
                <button type="button" className="quiet" onClick={() => choose(d.path)}>
                  {d.label}
                </button>
              </li>
            ))}
          </ul>
          <div className="key-row">
            <button type="button" onClick={() => void remove(true)}>
              Take these out too
            </button>
            <button type="button" className="quiet" onClick={() => setAsking(null)}>
              Leave it in
            </button>
          </div>
        </div>
      )}
    </div>
  );
});

function NameIt(props: {
  path: Path;
  label: string;
  first: string;
  doIt: string;
  onName: (id: string, label: string) => Promise<void>;
}) {
  const { path, label, first, doIt, onName } = props;
  const siblings = useAnswers((a) => at(a.document, parentOf(path)));
  const id = useId();
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const text = String(new FormData(event.currentTarget).get("name") ?? "").trim();
    const taken = typeof siblings === "object" && siblings !== null ? Object.keys(siblings) : [];
    const key = idFrom(text, taken);
    if (key !== null) void onName(key, text);
  };
  return (
    <form className="name-it" onSubmit={submit}>
      <label htmlFor={id}>{label}</label>
      <div className="add-one">
        {/* biome-ignore lint/a11y/noAutofocus: it opens at the builder's own tap, to be typed in. */}
        <input id={id} name="name" type="text" autoComplete="off" defaultValue={first} autoFocus />
        <button type="submit">{doIt}</button>
      </div>
    </form>
  );
}
