import { type RefObject, useLayoutEffect, useState } from "react";
import type { Size } from "./frame";

/** The size of an element as it is laid out, followed as it changes. */
export function useSize(target: RefObject<Element | null>): Size {
  const [size, setSize] = useState<Size>({ width: 900, height: 300 });
  useLayoutEffect(() => {
    const element = target.current;
    if (!element) return;
    const read = () => {
      const { width, height } = element.getBoundingClientRect();
      if (width > 0 && height > 0) {
        setSize((before) =>
          before.width === width && before.height === height ? before : { width, height },
        );
      }
    };
    read();
    const watcher = new ResizeObserver(read);
    watcher.observe(element);
    return () => watcher.disconnect();
  }, [target]);
  return size;
}
