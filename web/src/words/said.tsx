// A sentence whose trade words can be tapped, and the card that says what one means.

import { useEffect, useRef } from "preact/hooks";

import type { Meaning } from "./meanings";
import { pieces, told } from "./told";

export function Said({ text }: { text: string }) {
  return (
    <>
      {pieces(text).map((one, k) =>
        one.meaning === null ? one.text : <Word key={k} text={one.text} meaning={one.meaning} />,
      )}
    </>
  );
}

function Word({ text, meaning }: { text: string; meaning: Meaning }) {
  return (
    <button
      type="button"
      class="word"
      aria-expanded={told.value === meaning}
      onClick={() => (told.value = told.value === meaning ? null : meaning)}
    >
      {text}
    </button>
  );
}

/** What the word means that was tapped last, over the foot of the page. */
export function Told() {
  const now = told.value;
  const card = useRef<HTMLElement>(null);
  useEffect(() => {
    const leave = (event: KeyboardEvent): void => {
      if (event.key === "Escape") told.value = null;
    };
    addEventListener("keydown", leave);
    return () => removeEventListener("keydown", leave);
  }, []);
  if (now === null) return null;
  return (
    <aside class="meaning" role="note" aria-label="What it means" ref={card}>
      {now.thin !== undefined && (
        <svg viewBox="0 0 120 60" aria-hidden="true">
          <path class="pen pen-thin" d={now.thin} />
          <path class="pen pen-cut" d={now.heavy} />
        </svg>
      )}
      <p>
        <b>{now.word}</b> {now.says}
      </p>
      <button type="button" onClick={() => (told.value = null)}>
        Close
      </button>
    </aside>
  );
}

