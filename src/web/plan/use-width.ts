import { useEffect, useRef, useState, type RefObject } from "react";

/** The width the plates may take, measured again when the window changes. */
export function useWidth(): readonly [RefObject<HTMLElement | null>, number] {
  const ref = useRef<HTMLElement>(null);
  const [width, setWidth] = useState(900);
  useEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const observer = new ResizeObserver(([seen]) => {
      if (seen && seen.contentRect.width > 0) setWidth(Math.floor(seen.contentRect.width));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, width];
}
