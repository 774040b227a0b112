/** A time as the shop says it: "today, 10:32", "24 Nov, 10:32", "24 Nov 2025". */
export function whenText(iso: string, now = new Date()): string {
  const when = new Date(iso);
  if (Number.isNaN(when.getTime())) return iso;
  const clock = when.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  const day = (d: Date) => d.toDateString();
  if (day(when) === day(now)) return `today, ${clock}`;
  const yesterday = new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1);
  if (day(when) === day(yesterday)) return `yesterday, ${clock}`;
  const date = when.toLocaleDateString("en-GB", { day: "numeric", month: "short" });
  return when.getFullYear() === now.getFullYear()
    ? `${date}, ${clock}`
    : `${date} ${when.getFullYear()}`;
}
