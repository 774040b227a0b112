import { useId } from "react";
import { at, join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Path } from "../../api/types";
import { capital, wordsOf } from "../../format/text";
import { ClashBox } from "./clash-box";
import { enter, useShown } from "./entered";
import { ShortText } from "./provenance";
import { Why } from "./quantity-field";
import type { Member } from "./schema";

interface OneProps {
  path: Path;
  label: string;
  doc: string;
}

/** Below an entry: why it was not taken, or what another screen made of it. */
function After({ path, id }: { path: Path; id: string }) {
  const refused = useStore((s) => s.refused[path]);
  return (
    <>
      {refused && <Why id={`${id}-why`} diagnostics={refused.diagnostics} />}
      <ClashBox path={path} />
    </>
  );
}

export function FlagField({ path, label, doc }: OneProps) {
  const value = useShown(path);
  const id = useId();
  return (
    <div className="field flag">
      <label title={doc}>
        <input
          type="checkbox"
          checked={value === true}
          data-path={path}
          onChange={(event) => enter(path, event.target.checked)}
        />
        <span>{label}</span>
      </label>
      <After path={path} id={id} />
    </div>
  );
}

export function ChoiceField(
  props: OneProps & {
    choices: { value: string | number; text: string }[];
    /** What it is when it is left out. */
    usual?: string | null;
  },
) {
  const { path, label, doc, choices, usual } = props;
  const value = useShown(path);
  const id = useId();
  const refused = useStore((s) => s.refused[path] !== undefined);
  return (
    <div className={`field choice${refused ? " refused" : ""}`}>
      <label htmlFor={id} title={doc}>
        {label}
      </label>
      <select
        id={id}
        value={value === undefined || value === null ? "" : String(value)}
        data-path={path}
        onChange={(event) =>
          enter(path, choices.find((c) => String(c.value) === event.target.value)?.value)
        }
      >
        <option value="">
          {usual ? `not given: ${wordsOf(usual).toLowerCase()}` : "not given"}
        </option>
        {choices.map((c) => (
          <option key={c.value} value={c.value}>
            {c.text}
          </option>
        ))}
      </select>
      <After path={path} id={id} />
    </div>
  );
}

export function ReferenceField(props: OneProps & { target: string }) {
  const { target, ...one } = props;
  return <ChoiceField {...one} choices={useChoices(target)} />;
}

/** The build's things of a kind, by what the shop calls them.
 * @param target  The way to them, such as "masses" or "frame/rails"; "a|b" for either of two. */
export function useChoices(
  target: string,
  isOne: (path: Path) => boolean = () => true,
): { value: string; text: string }[] {
  const document = useAnswers((a) => a.document);
  return target.split("|").flatMap((way) => {
    const holder = way === "" ? "" : `/${way}`;
    const things = at(document, holder);
    const ids = typeof things === "object" && things !== null ? Object.keys(things) : [];
    return ids
      .filter((id) => isOne(join(holder, id)))
      .map((id) => {
        const label = at(things, join("", id, "label"));
        return { value: id, text: typeof label === "string" ? capital(label) : wordsOf(id) };
      });
  });
}

/** Which of the build's things belong here, such as the loads that are aboard. */
export function ReferencesField(props: { path: Path; member: Member; target: string }) {
  const { path, member, target } = props;
  const given = useShown(path);
  const document = useAnswers((a) => a.document);
  const id = useId();
  // Aboard in a load state can be what can be left behind: the rest always is.
  const isLoad = path.startsWith("/load_states/");
  const choices = useChoices(
    target,
    (one) => !isLoad || at(document, join(one, "optional_load")) === true,
  );
  const chosen = Array.isArray(given) ? given.map(String) : [];
  const toggle = (one: string) =>
    enter(path, chosen.includes(one) ? chosen.filter((c) => c !== one) : [...chosen, one]);
  return (
    <fieldset className="references" data-path={path}>
      <legend>
        {wordsOf(member.key)} <span className="doc">{member.doc}</span>
      </legend>
      {choices.map((choice) => (
        <label key={choice.value} className="check">
          <input
            type="checkbox"
            checked={chosen.includes(choice.value)}
            onChange={() => toggle(choice.value)}
          />
          <span>{choice.text}</span>
        </label>
      ))}
      {choices.length === 0 && (
        <p className="doc">
          {isLoad
            ? "Nothing yet: tick “Optional load” at a mass that can be left behind."
            : "There is none yet to choose from."}
        </p>
      )}
      <After path={path} id={id} />
    </fieldset>
  );
}

export function TextField({ path, label, doc }: OneProps) {
  const value = useShown(path);
  const id = useId();
  const refused = useStore((s) => s.refused[path]);
  const text = refused?.text ?? (typeof value === "string" ? value : "");
  return (
    <div className={`field text${refused ? " refused" : ""}`} title={doc}>
      <ShortText
        label={label}
        value={text}
        path={path}
        onKeep={(next) => enter(path, next === "" ? undefined : next)}
      />
      <After path={path} id={id} />
    </div>
  );
}
