import { type RefObject, useEffect, useState } from "react";

const kNear = "200px";

/** Whether an element lies in sight, or nearly so. */
export function useInSight(target: RefObject<Element | null>): boolean {
  const [inSight, setInSight] = useState(false);
  useEffect(() => {
    if (!target.current) return;
    const watcher = new IntersectionObserver(
      (entries) => setInSight(entries.some((e) => e.isIntersecting)),
      { rootMargin: kNear },
    );
    watcher.observe(target.current);
    return () => watcher.disconnect();
  }, [target]);
  return inSight;
}
