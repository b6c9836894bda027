// The slip's foot: the last edit in words, undo, and on press and hold the whole list of edits.

import { signal } from "@preact/signals";

import { deeds, standing, undo, walkTo } from "../model/bench";

const HOLD_MS = 450;
const opened = signal(false);
let pressed: ReturnType<typeof setTimeout> | undefined;
let held = false;

export function Foot() {
  const now = standing.value;
  const many = deeds.value?.steps.length ?? 0;
  return (
    <footer class="slip-foot">
      {opened.value && <Deeds />}
      <span>
        {now?.last ? (
          <>
            Last: <b>{now.last}</b>
          </>
        ) : (
          "Nothing changed yet"
        )}
      </span>
      {many > 0 && (
        <button aria-expanded={opened.value} onClick={() => (opened.value = !opened.value)}>
          All
        </button>
      )}
      {now?.can_undo && (
        <button
          onPointerDown={() => {
            held = false;
            pressed = setTimeout(() => {
              held = true;
              opened.value = true;
            }, HOLD_MS);
          }}
          onPointerUp={() => clearTimeout(pressed)}
          onPointerLeave={() => clearTimeout(pressed)}
          onClick={() => {
            if (!held) void undo();
            held = false;
          }}
        >
          Undo
        </button>
      )}
    </footer>
  );
}

/** Every state of the build in words, newest first; the file goes to the one that is touched. */
function Deeds() {
  const told = deeds.value;
  if (told === null) return null;
  const steps = told.steps.map((says, k) => ({ says, k })).reverse();
  return (
    <ol
      class="history"
      aria-label="Every edit, newest first"
      onKeyDown={(event) => {
        if (event.key === "Escape") opened.value = false;
      }}
    >
      {steps.map(({ says, k }) => (
        <li key={k}>
          <button
            aria-current={k === told.at ? "step" : undefined}
            onClick={() => {
              opened.value = false;
              void walkTo(k);
            }}
          >
            {says}
            {k === told.at && " · as it is now"}
            {k > told.at && " · taken back"}
          </button>
        </li>
      ))}
    </ol>
  );
}
