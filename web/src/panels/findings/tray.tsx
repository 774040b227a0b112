import { memo, useEffect, useRef } from "react";
import { choose, openFinding } from "../../api/choose";
import { setState, useAnswers, useStore } from "../../api/store";
import type { Finding, Verdict } from "../../api/types";
import { Figures, Stacked } from "../common/figures";
import { kVerdictWords, Mark, type MarkKind } from "../common/mark";
import { scrollIntoSight } from "../common/scroll";
import { Working } from "./working";

const kVerdicts: Verdict[] = ["stop", "look", "good"];
const kPull_px = 16;
/** Height of the tray's own heading, under which nothing is seen. */
const kHead_px = 49;

/** The tray's edge: a count a verdict. A tap or a pull opens it. */
export function TrayHandle() {
  const verdicts = useAnswers((a) => a.report.verdicts);
  const missing = useAnswers((a) => a.report.missing.length);
  const open = useStore((s) => s.trayOpen);
  const start = useRef<{ x: number; y: number } | null>(null);
  const counts: { kind: MarkKind; count: number }[] = [
    ...kVerdicts.map((kind) => ({ kind, count: verdicts[kind] })),
    ...(missing > 0 ? [{ kind: "unknown" as const, count: missing }] : []),
  ];
  return (
    <button
      type="button"
      className="tray-handle"
      aria-expanded={open}
      aria-controls="tray"
      onPointerDown={(event) => {
        start.current = { x: event.clientX, y: event.clientY };
      }}
      onPointerUp={(event) => {
        const from = start.current;
        if (!from) return;
        const pulled = Math.max(from.x - event.clientX, from.y - event.clientY);
        if (pulled > kPull_px) setState({ trayOpen: true });
        if (pulled < -kPull_px) setState({ trayOpen: false });
      }}
      onClick={(event) => {
        const from = start.current;
        const far = from ? Math.hypot(event.clientX - from.x, event.clientY - from.y) : 0;
        start.current = null;
        if (event.detail === 0 || far <= kPull_px) setState({ trayOpen: !open });
      }}
    >
      <span className="tray-title">Findings</span>
      {counts.map(({ kind, count }) => (
        <span key={kind} className={`tray-count ${kind}${count === 0 ? " none" : ""}`}>
          <Mark kind={kind} size={20} />
          {count}
        </span>
      ))}
    </button>
  );
}

/** Every finding, worst and surest first. */
export function Tray() {
  const findings = useAnswers((a) => a.report.findings);
  const opened = useStore((s) => s.finding);
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (opened === null) return;
    const item = list.current?.querySelector(`[data-finding="${CSS.escape(opened)}"]`);
    if (item) scrollIntoSight(item, kHead_px);
  }, [opened]);
  return (
    <aside id="tray" className="tray" aria-label="Findings" ref={list}>
      <header>
        <h2>Findings</h2>
        <button
          type="button"
          className="quiet"
          onClick={() => setState({ trayOpen: false, finding: null })}
        >
          Close
        </button>
      </header>
      {findings.length === 0 && (
        <p className="empty">Nothing has been checked yet. What is missing stands on each sheet.</p>
      )}
      {kVerdicts.map((verdict) => (
        <Group
          key={verdict}
          verdict={verdict}
          findings={findings.filter((f) => f.verdict === verdict)}
          opened={opened}
        />
      ))}
    </aside>
  );
}

/** The findings of one verdict; what is good need not be read, and is folded. */
function Group(props: { verdict: Verdict; findings: Finding[]; opened: string | null }) {
  const { verdict, findings, opened } = props;
  if (findings.length === 0) return null;
  const title = (
    <h3>
      {kVerdictWords[verdict]} <span className="how-many">{findings.length}</span>
    </h3>
  );
  const items = findings.map((finding) => (
    <FindingItem key={finding.id} finding={finding} open={finding.id === opened} />
  ));
  if (verdict !== "good") {
    return (
      <section aria-label={kVerdictWords[verdict]}>
        {title}
        {items}
      </section>
    );
  }
  return (
    <details className="good-ones" open={findings.some((f) => f.id === opened) || undefined}>
      <summary>{title}</summary>
      {items}
    </details>
  );
}

const FindingItem = memo(function FindingItem({
  finding,
  open,
}: {
  finding: Finding;
  open: boolean;
}) {
  const id = `finding-${finding.id}`;
  return (
    <article
      className={`finding ${finding.verdict}${open ? " open" : ""}`}
      data-finding={finding.id}
      data-work={finding.work}
    >
      <button
        type="button"
        className="finding-head"
        aria-expanded={open}
        aria-controls={id}
        onClick={() => openFinding(open ? null : finding.id)}
      >
        <Mark kind={finding.verdict} />
        <span className="finding-words">
          <strong>{finding.subject}</strong>
          <span>
            <Stacked text={finding.sentence} />
          </span>
        </span>
      </button>
      {open && (
        <div id={id} className="finding-body">
          {(finding.value || finding.limit) && (
            <dl className="against">
              {finding.value && (
                <div>
                  <dt>Value</dt>
                  <dd>
                    <Figures value={finding.value} />
                  </dd>
                </div>
              )}
              {finding.limit && (
                <div>
                  <dt>Limit</dt>
                  <dd>
                    <Figures value={finding.limit} />
                  </dd>
                </div>
              )}
            </dl>
          )}
          {finding.advice !== "" && (
            <p className="advice">
              <Stacked text={finding.advice} />
            </p>
          )}
          <Working finding={finding} />
          {finding.path !== "" && (
            <button type="button" onClick={() => choose(finding.path)}>
              Go to it
            </button>
          )}
        </div>
      )}
    </article>
  );
});
