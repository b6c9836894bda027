// The room an element has, followed as it changes.

import type { RefObject } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";

import type { Room } from "./box";

const EMPTY: Room = { width: 0, height: 0 };

export function useRoom(): [RefObject<HTMLDivElement | null>, Room] {
  const frame = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState<Room>(EMPTY);
  useLayoutEffect(() => {
    const element = frame.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(([entry]) => {
      const box = entry?.contentRect;
      if (box) setRoom({ width: Math.floor(box.width), height: Math.floor(box.height) });
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [frame, room];
}
