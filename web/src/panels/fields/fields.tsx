import { memo, useId } from "react";
import { edit } from "../../api/actions";
import { at, join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Json, Path } from "../../api/types";
import { capital, wordsOf } from "../../format/text";
import { knownOf } from "./known";
import { QuantityField, Why } from "./quantity-field";
import { type Member, membersOf } from "./schema";

interface FieldsProps {
  path: Path;
  without?: string[];
  /** How deep things within the thing are laid open. */
  depth?: number;
}

interface Placed {
  path: Path;
  member: Member;
}

/** The fields of one thing in the build file, as its schema tells them. */
export function Fields({ path, without = [], depth = 2 }: FieldsProps) {
  const schema = useAnswers((a) => a.schema);
  const own: Placed[] = [];
  const groups: Placed[] = [];
  const spread: Placed[] = [];
  for (const member of membersOf(schema, path)) {
    if (without.includes(member.key)) continue;
    const here = join(path, member.key);
    if (kSpread.includes(member.kind.kind)) spread.push({ path: here, member });
    else if (member.kind.kind !== "thing") own.push({ path: here, member });
    // Where a thing is needs no heading of its own: its three numbers come first.
    else if (member.key === "at") {
      own.unshift(...membersOf(schema, here).map((m) => ({ path: join(here, m.key), member: m })));
    } else groups.push({ path: here, member });
  }
  // Names and choices stand under the numbers.
  const isNumeric = own.some(({ member }) => member.kind.kind === "quantity");
  const fields = own.length > 0 && (
    <div className="fields">
      {own.map((one) => (
        <Field key={one.path} {...one} />
      ))}
    </div>
  );
  return (
    <>
      {isNumeric && fields}
      {depth > 0 && groups.map((one) => <Group key={one.path} {...one} depth={depth - 1} />)}
      {!isNumeric && fields}
      {depth > 0 && spread.map((one) => <Several key={one.path} {...one} depth={depth - 1} />)}
    </>
  );
}

const kSpread = ["list", "map", "references"];

/** Several of a kind within a thing: a rail's points, the tanks' fills, who is aboard. */
function Several({ path, member, depth }: Placed & { depth: number }) {
  const given = useAnswers((a) => at(a.document, path));
  if (member.kind.kind === "references") {
    return <ReferencesField path={path} member={member} target={member.kind.target} />;
  }
  const keys = typeof given === "object" && given !== null ? Object.keys(given) : [];
  return keys.map((key, i) => {
    const name =
      member.kind.kind === "list"
        ? `${wordsOf(member.key).replace(/s$/, "")} ${i + 1}`
        : wordsOf(key);
    return (
      <section key={key} className="group several" aria-label={name}>
        <h5>{name}</h5>
        <Fields path={join(path, key)} depth={depth} />
      </section>
    );
  });
}

/** Which of the build's things belong here, such as the loads that are aboard. */
function ReferencesField({ path, member, target }: Placed & { target: string }) {
  const given = useAnswers((a) => at(a.document, path));
  const choices = useChoices(target);
  const chosen = Array.isArray(given) ? given.map(String) : [];
  const toggle = (id: string) =>
    edit([
      {
        path,
        value: chosen.includes(id) ? chosen.filter((c) => c !== id) : [...chosen, id],
      },
    ]);
  return (
    <fieldset className="references">
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
    </fieldset>
  );
}

/** A thing within a thing, such as a link's end: open if it is given, else behind its name. */
function Group({ path, member, depth }: Placed & { depth: number }) {
  const given = useAnswers((a) => at(a.document, path));
  const isGiven = given !== undefined && given !== null;
  return (
    <details className={`group${isGiven ? " given" : ""}`} open={isGiven}>
      <summary>
        {wordsOf(member.key)}
        <span className="doc">
          {member.doc}
          {!isGiven && " Not given."}
        </span>
      </summary>
      <Fields path={path} depth={depth} />
    </details>
  );
}

const Field = memo(function Field({ path, member }: Placed) {
  const value = useAnswers((a) => at(a.document, path));
  const opened = useStore((s) => at(s.opened, path));
  const before = knownOf(opened).text;
  const was = before === knownOf(value).text ? null : before;
  const label = wordsOf(member.key);
  switch (member.kind.kind) {
    case "quantity":
      return (
        <QuantityField
          path={path}
          label={label}
          doc={member.doc}
          dimension={member.kind.dimension}
          value={value}
          was={was}
        />
      );
    case "flag":
      return (
        <div className="field flag">
          <label title={member.doc}>
            <input
              type="checkbox"
              checked={value === true}
              data-path={path}
              onChange={(event) => edit([{ path, value: event.target.checked }])}
            />
            <span>{label}</span>
          </label>
        </div>
      );
    case "word":
    case "count":
      return (
        <ChoiceField
          path={path}
          label={label}
          doc={member.doc}
          value={value}
          choices={member.kind.choices.map((c) => ({ value: c, text: wordsOf(String(c)) }))}
        />
      );
    case "reference":
      return (
        <ReferenceField
          path={path}
          label={label}
          doc={member.doc}
          value={value}
          target={member.kind.target}
        />
      );
    case "text":
      return <TextField path={path} label={label} doc={member.doc} value={value} />;
    default:
      return null;
  }
});

interface OneProps {
  path: Path;
  label: string;
  doc: string;
  value: Json | undefined;
}

function ChoiceField(props: OneProps & { choices: { value: string | number; text: string }[] }) {
  const { path, label, doc, value, choices } = props;
  const id = useId();
  const refused = useStore((s) => s.refused[path]);
  return (
    <div className={`field choice${refused ? " refused" : ""}`}>
      <label htmlFor={id} title={doc}>
        {label}
      </label>
      <select
        id={id}
        value={value === undefined || value === null ? "" : String(value)}
        data-path={path}
        onChange={(event) => {
          const one = choices.find((c) => String(c.value) === event.target.value);
          edit([one ? { path, value: one.value } : { path, remove: true }]);
        }}
      >
        <option value="">not given</option>
        {choices.map((c) => (
          <option key={c.value} value={c.value}>
            {c.text}
          </option>
        ))}
      </select>
      {refused && <Why id={`${id}-why`} diagnostics={refused.diagnostics} />}
    </div>
  );
}

function ReferenceField(props: OneProps & { target: string }) {
  const { target, ...one } = props;
  return <ChoiceField {...one} choices={useChoices(target)} />;
}

/** The build's things of a kind, by what the shop calls them. Of the masses, those that can be left
 * behind: the others are always aboard. */
function useChoices(target: string): { value: string; text: string }[] {
  const things = useAnswers((a) => at(a.document, join("", target)));
  const ids = typeof things === "object" && things !== null ? Object.keys(things) : [];
  return ids
    .filter((id) => target !== "masses" || at(things, join("", id, "optional_load")) === true)
    .map((id) => {
      const label = at(things, join("", id, "label"));
      return { value: id, text: typeof label === "string" ? capital(label) : wordsOf(id) };
    });
}

function TextField({ path, label, doc, value }: OneProps) {
  const id = useId();
  const refused = useStore((s) => s.refused[path]);
  const text = typeof value === "string" ? value : "";
  const commit = (next: string) => {
    if (next.trim() !== text) {
      edit([next.trim() === "" ? { path, remove: true } : { path, value: next.trim() }]);
    }
  };
  return (
    <div className={`field text${refused ? " refused" : ""}`}>
      <label htmlFor={id} title={doc}>
        {label}
      </label>
      <input
        id={id}
        // Another text from the program starts the field anew.
        key={text}
        type="text"
        autoComplete="off"
        defaultValue={text}
        data-path={path}
        onBlur={(event) => commit(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") commit(event.currentTarget.value);
        }}
      />
      {refused && <Why id={`${id}-why`} diagnostics={refused.diagnostics} />}
    </div>
  );
}
