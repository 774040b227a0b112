import { type ChangeEvent, useEffect, useId, useState } from "react";
import { goTo, hashOf } from "../../api/address";
import { client, Refusal } from "../../api/client";
import { readShop } from "../../api/session";
import type { ShopBuild } from "../../api/shop-types";
import { setState, useStore } from "../../api/store";
import type { Json } from "../../api/types";
import { wordsFor } from "../../api/words";
import { whenText } from "../../format/when";
import { Mark } from "../common/mark";
import { ShopStrip } from "./shop-strip";

const kEvery_ms = 15_000;

/** The builds of the shop, each with its picture and how it stands. */
export function ShopScreen() {
  const shop = useStore((s) => s.shop);
  useEffect(() => {
    document.title = "Shop – Rigwright";
    const timer = setInterval(() => void readShop(), kEvery_ms);
    return () => clearInterval(timer);
  }, []);
  const builds = shop?.builds ?? [];
  const open = builds.filter((b) => !b.archived);
  const away = builds.filter((b) => b.archived);
  return (
    <div className="shop">
      <ShopStrip title={shop?.folder ?? ""} />
      <main className="shop-floor">
        {shop?.single ? (
          <p className="empty">
            This one file is open, by itself. Serve its folder to see the shop.
          </p>
        ) : (
          <div className="shop-keys">
            <button type="button" className="main-key" onClick={() => goTo({ page: "start" })}>
              New build
            </button>
            <ImportKey />
          </div>
        )}
        {open.length === 0 && !shop?.single && (
          <p className="empty">
            No builds here yet. Start one from a dozen plain questions, or bring in a file.
          </p>
        )}
        <ul className="cards">
          {open.map((b) => (
            <Card key={b.id} build={b} single={shop?.single ?? false} />
          ))}
        </ul>
        {away.length > 0 && (
          <details className="archive">
            <summary>{`Archive, ${away.length}`}</summary>
            <ul className="cards">
              {away.map((b) => (
                <Card key={b.id} build={b} single={shop?.single ?? false} />
              ))}
            </ul>
          </details>
        )}
      </main>
    </div>
  );
}

async function start(body: Json): Promise<void> {
  try {
    const { id } = await client.start(body);
    await readShop();
    goTo({ page: "bench", build: id, variant: null });
  } catch (error) {
    const told = error instanceof Refusal ? (error.body.diagnostics ?? []) : [];
    const words = told.slice(0, 3).map((d) => `${d.message} ${d.remedy}`);
    setState({ trouble: words.join(" ") || wordsFor(error) });
  }
}

function ImportKey() {
  const id = useId();
  const bring = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    event.target.value = "";
    if (!file) return;
    const name = file.name.replace(/(\.rig)?\.json$/i, "");
    await start({ name, text: await file.text() });
  };
  return (
    <>
      <input
        id={id}
        className="sr-only file-input"
        type="file"
        accept=".json,application/json"
        onChange={(event) => void bring(event)}
      />
      <label className="key" htmlFor={id}>
        Import a file
      </label>
    </>
  );
}

function Card({ build, single }: { build: ShopBuild; single: boolean }) {
  const { id, name, etag, verdicts, archived } = build;
  const picture = `api/builds/${encodeURIComponent(id)}/picture.svg?of=${encodeURIComponent(etag)}`;
  const [copying, setCopying] = useState(false);
  const shelve = async () => {
    try {
      setState({ shop: await client.archive(id, !archived) });
    } catch (error) {
      setState({ trouble: wordsFor(error) });
    }
  };
  const title = name || build.file;
  const body = (
    <>
      <span className="card-picture">
        <img src={picture} alt="" loading="lazy" />
      </span>
      <span className="card-words">
        <strong>{title}</strong>
        {build.notice !== "" && <span className="notice">{build.notice}</span>}
        <span className="card-state">
          {verdicts ? (
            (["stop", "look", "good"] as const).map((kind) => (
              <span key={kind} className={verdicts[kind] === 0 ? "none" : ""}>
                <Mark kind={kind} size={18} /> {verdicts[kind]}
              </span>
            ))
          ) : (
            <span className="no-read">
              <Mark kind="unknown" size={18} />{" "}
              {build.faults === 1 ? "One fault in the file" : `${build.faults} faults in the file`}
            </span>
          )}
        </span>
        <span className="when">Changed {whenText(build.changed)}</span>
      </span>
    </>
  );
  return (
    <li className="card">
      {archived ? (
        <div className="card-face">{body}</div>
      ) : (
        <a className="card-face" href={hashOf({ page: "bench", build: id, variant: null })}>
          {body}
        </a>
      )}
      <div className="key-row">
        {!archived && !single && (
          <button
            type="button"
            className="quiet"
            aria-expanded={copying}
            aria-label={`Copy ${title}`}
            onClick={() => setCopying(!copying)}
          >
            Copy
          </button>
        )}
        <a
          className="quiet key"
          href={`api/builds/${encodeURIComponent(id)}/file`}
          download={build.file}
          aria-label={`Export ${title}`}
        >
          Export
        </a>
        {!single && (
          <button
            type="button"
            className="quiet"
            aria-label={`${archived ? "Bring back" : "Archive"} ${title}`}
            onClick={() => void shelve()}
          >
            {archived ? "Bring back" : "Archive"}
          </button>
        )}
      </div>
      {copying && <CopyIt id={id} first={`${title}, copy`} />}
    </li>
  );
}

function CopyIt({ id, first }: { id: string; first: string }) {
  const field = useId();
  return (
    <form
      className="name-it"
      onSubmit={(event) => {
        event.preventDefault();
        const name = String(new FormData(event.currentTarget).get("name") ?? "").trim();
        if (name !== "") void start({ name, copy_of: id });
      }}
    >
      <label htmlFor={field}>What is the copy called?</label>
      <div className="add-one">
        {/* biome-ignore lint/a11y/noAutofocus: it opens at the builder's own tap, to be typed in. */}
        <input id={field} name="name" autoComplete="off" defaultValue={first} autoFocus />
        <button type="submit">Copy</button>
      </div>
    </form>
  );
}
