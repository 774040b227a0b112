import { memo } from "react";
import { at, join } from "../../api/pointer";
import { useAnswers, useStore } from "../../api/store";
import type { Path } from "../../api/types";
import { wordsOf } from "../../format/text";
import { knownOf } from "./known";
import { ChoiceField, FlagField, ReferenceField, ReferencesField, TextField } from "./plain-fields";
import { QuantityField } from "./quantity-field";
import { type Member, membersOf, membersShown } from "./schema";
import { Several } from "./several";

const kDeepest = 3;

interface FieldsProps {
  path: Path;
  without?: string[];
  /** Of its members these alone. */
  only?: string[];
  /** How deep things within the thing are laid open. */
  depth?: number;
}

export interface Placed {
  path: Path;
  member: Member;
}

/** The fields of one thing in the build file, as its schema tells them. */
export const Fields = memo(function Fields(props: FieldsProps) {
  const { path, without, only, depth = kDeepest } = props;
  const schema = useAnswers((a) => a.schema);
  const thing = useAnswers((a) => at(a.document, path));
  const own: Placed[] = [];
  const groups: Placed[] = [];
  const spread: Placed[] = [];
  for (const member of membersShown(schema, path, thing)) {
    if (without?.includes(member.key) || (only && !only.includes(member.key))) continue;
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
      {depth > 0 &&
        spread.map((one) =>
          one.member.kind.kind === "references" ? (
            <ReferencesField key={one.path} {...one} target={one.member.kind.target} />
          ) : (
            <Several key={one.path} {...one} depth={depth - 1} />
          ),
        )}
    </>
  );
});

const kSpread = ["list", "map", "references"];

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
      return <FlagField path={path} label={label} doc={member.doc} />;
    case "word":
    case "count":
      return (
        <ChoiceField
          path={path}
          label={label}
          doc={member.doc}
          choices={member.kind.choices.map((c) => ({ value: c, text: wordsOf(String(c)) }))}
          usual={member.kind.kind === "word" ? member.kind.usual : null}
        />
      );
    case "reference":
      return (
        <ReferenceField path={path} label={label} doc={member.doc} target={member.kind.target} />
      );
    case "text":
      return <TextField path={path} label={label} doc={member.doc} />;
    default:
      return null;
  }
});
