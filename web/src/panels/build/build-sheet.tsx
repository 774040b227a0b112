import { editBase } from "../../api/entries";
import { setState, useAnswers, useStore } from "../../api/store";
import { keepInitials, whoIsHere } from "../../api/who";
import { ClashBox } from "../fields/clash-box";
import { Fields } from "../fields/fields";
import { ShortText } from "../fields/provenance";

/** What the build is called, how its answers are written, and where its file is. */
export function BuildSheet() {
  const file = useAnswers((a) => a.file);
  const id = useStore((s) => s.place?.build ?? "");
  const inVariant = useStore((s) => s.place?.variant !== null);
  return (
    <>
      <section className="inputs-block" aria-label="The build">
        <h3>The build</h3>
        <Fields path="" only={["name", "notice"]} />
        <h4>How answers are written</h4>
        <Fields path="/units" />
      </section>
      <section className="inputs-block" aria-label="This screen">
        <h3>This screen</h3>
        <div className="fields">
          <div className="field text">
            <ShortText
              label="Your initials, for the history"
              value={whoIsHere() ?? ""}
              onKeep={(text) => {
                keepInitials(text);
                setState({ askInitials: false });
              }}
            />
          </div>
        </div>
      </section>
      <section className="inputs-block" aria-label="The file">
        <h3>The file</h3>
        <div className="key-row">
          <a className="key" href={`api/builds/${encodeURIComponent(id)}/file`} download={file}>
            {`Export ${file}`}
          </a>
          <button type="button" onClick={() => setState({ work: "history", chosen: null })}>
            History
          </button>
        </div>
        {inVariant && (
          <button
            type="button"
            className="quiet"
            onClick={() => setState({ work: "compare", chosen: null })}
          >
            A variant of it is open
          </button>
        )}
      </section>
    </>
  );
}

/** A variant's name, kept in the build itself. */
export function VariantName({ path, label }: { path: string; label: string }) {
  return (
    <div className="field text">
      <ShortText
        label="What it is called"
        value={label}
        onKeep={(text) => editBase([{ path, value: text }])}
      />
      <ClashBox path={path} />
    </div>
  );
}
