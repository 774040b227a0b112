import { useAnswers, useStore } from "../../api/store";

/** How this screen stands with the program and the file: nothing, when all is well. */
export function Standing() {
  const offline = useStore((s) => s.offline);
  const waiting = useStore((s) => s.waiting);
  const fault = useAnswers((a) => a.fault);
  const entries =
    waiting === 0
      ? "What you enter is kept on this screen and sent when it is back."
      : waiting === 1
        ? "One entry is kept on this screen and sent when it is back."
        : `${waiting} entries are kept on this screen and sent when it is back.`;
  return (
    <>
      {offline && (
        <p className="offline" role="status">
          <strong>The program is not answering.</strong> {entries}
        </p>
      )}
      {fault && (
        <div className="offline" role="alert">
          <strong>The file was changed outside and does not read now.</strong> Shown is the last
          good one; nothing is written over it until it reads.
          <ul>
            {fault.diagnostics.slice(0, 5).map((d) => (
              <li key={d.code + d.path}>
                {d.line !== undefined && `Line ${d.line}: `}
                {d.message} {d.remedy}
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}
