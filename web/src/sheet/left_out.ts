// Names that found no room in a drawing: the slip tells them, as no label may be lost.

import { computed, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";

const byView = signal<Readonly<Record<string, readonly string[]>>>({});

/** Every such name once. */
export const leftOut = computed<readonly string[]>(() => [...new Set(Object.values(byView.value).flat())]);

/** Keeps which names a view has no room for, as long as it is drawn. */
export function useLeftOut(view: string, names: readonly string[]): void {
  const all = names.join("\n");
  useEffect(() => {
    byView.value = { ...byView.value, [view]: names };
    return () => {
      byView.value = { ...byView.value, [view]: [] };
    };
  }, [view, all]);
}
