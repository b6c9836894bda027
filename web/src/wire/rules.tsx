// The rules of a wiring, and the way from rest that breaks one, stepped on the diagram.

import { useEffect, useRef } from "preact/hooks";

import { Cross } from "./fault";
import { fault, frame, leave, replay, replayRule, step, told } from "./fault_state";
import type { Fault, Rule } from "./fault_state";
import { page } from "./state";

/** Every rule with what breaks it. */
export function Rules() {
  const rules = told.value?.rules ?? [];
  if (rules.length === 0) return null;
  return (
    <section class="fault-rules" aria-label="Rules">
      <h3>Rules</h3>
      {rules.map((one) => (
        <RuleOf key={one.number} one={one} />
      ))}
    </section>
  );
}

function RuleOf({ one }: { one: Rule }) {
  const words = `${sentence(one.says)}. `;
  if (one.broken) {
    return (
      <div class="fault-rule">
        <p>
          <Cross /> {words}
          <b>{one.became}</b>
        </p>
        <button onClick={() => show(one, null)}>Show how it breaks</button>
      </div>
    );
  }
  if (one.faults.length === 0) return <p class="fault-rule">{words + one.became}</p>;
  return (
    <details class="fault-rule">
      <summary>{words + one.became}</summary>
      {one.faults.map((by) => (
        <button key={by.kind + by.of} onClick={() => show(one, by)}>
          Show it with {by.says}
        </button>
      ))}
    </details>
  );
}

/** Replays a rule on the page that shows its load. */
function show(one: Rule, by: Fault | null): void {
  void replayRule(one, by);
  if (one.page > 0) page.value = one.page;
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** The replay: one step at a time, forward and back; arrow keys step too. */
export function Replayed() {
  const now = replay.value;
  const shown = frame.value;
  const seen = useRef<HTMLElement>(null);
  useEffect(() => seen.current?.scrollIntoView({ block: "start" }), [now]);
  if (now === null || shown === null) return null;
  const last = now.frames.length - 1;
  return (
    <section class="fault-replay" ref={seen} aria-label="How the rule breaks" onKeyDown={(event) => arrows(event, last)}>
      <h3>{sentence(now.rule)}</h3>
      {!now.walked && <p>No way from rest was found that leads here: this is a state that breaks it.</p>}
      {fault.value !== null && <p>With {fault.value.says} from the start.</p>}
      <div class="fault-step" role="status">
        {last > 0 && (
          <p class="wire-says">
            {step.value === 0 ? `At rest, then ${last} ${last === 1 ? "step" : "steps"}` : `Step ${step.value} of ${last}`}
          </p>
        )}
        <p class="fault-said">{shown.says === "" ? "All at rest." : `${sentence(shown.says)}.`}</p>
        {shown.stands.length > 0 && <p class="wire-says">Now: {shown.stands.join(", ")}</p>}
        {shown.breaks && (
          <p class="fault-breaks">
            <Cross /> Here the rule is broken.
          </p>
        )}
      </div>
      <div class="fault-acts">
        {/* at an end a button keeps the focus: the arrow keys go on from there */}
        <button aria-disabled={step.value === 0} onClick={() => to(step.value - 1, last)}>
          Back
        </button>
        <button aria-disabled={step.value === last} onClick={() => to(step.value + 1, last)}>
          Forward
        </button>
        <button onClick={leave}>Leave it</button>
      </div>
    </section>
  );
}

function to(wanted: number, last: number): void {
  step.value = Math.min(Math.max(wanted, 0), last);
}

function arrows(event: KeyboardEvent, last: number): void {
  if (event.key === "ArrowLeft") to(step.value - 1, last);
  else if (event.key === "ArrowRight") to(step.value + 1, last);
}
