// The work line: a steel rule with a peg for every lock, its head holding what it would freeze.

import { fit } from "../model/bench";
import { driven, frozenBy, gate, locks, openGate } from "./locks";

const WIDE = 1000;
const RULE = 58;
const TICKS = 80;

export function WorkLine() {
  const all = locks.value;
  if (all.length === 0) return null;
  const place = (k: number): number => ((k + 0.5) / all.length) * 100;
  return (
    <nav class="work-line" aria-label="What locks, in the order of the work">
      <svg class="rule" viewBox={`0 0 ${WIDE} 76`} preserveAspectRatio="none" aria-hidden="true">
        <path d={`M0 ${RULE}H${WIDE}`} />
        <path class="ticks" d={Array.from({ length: TICKS }, (_, k) => `M${(k * WIDE) / TICKS} ${RULE}v${k % 5 === 0 ? 9 : 5}`).join("")} />
        {all.filter(driven).length > 0 && (
          <path class="done" d={`M0 ${RULE}H${(place(all.map(driven).lastIndexOf(true)) / 100) * WIDE}`} />
        )}
      </svg>
      <ol>
        {all.map((lock) => (
          <li key={lock}>
            <button class={driven(lock) ? "driven" : ""} aria-pressed={gate.value === lock} onClick={() => openGate(gate.value === lock ? "" : lock)}>
              <Head lock={lock} />
              <span>{lock}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function Head({ lock }: { lock: string }) {
  const many = frozenBy(lock).length;
  return (
    <svg class="peg" viewBox="0 0 40 60" role="img" aria-label={driven(lock) ? "done" : `${many} would freeze`}>
      <path d="M20 30V60" />
      <circle cx="20" cy="17" r="14" />
      {many > 0 && !driven(lock) && (
        <text x="20" y="22.5" text-anchor="middle">
          {many}
        </text>
      )}
      {many === 0 && fit.value !== null && <path class="tick" d="M13 17l5 6l9-12" />}
    </svg>
  );
}
