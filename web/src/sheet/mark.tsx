// The four marks a pencil already makes: shape first, word second, colour last.

import type { Finding } from "../server";

type Grade = Finding["grade"];
const SIZE = 22;

export function Mark({ grade, number = 0 }: { grade: Grade; number?: number }) {
  return (
    <svg class={`mark mark-${grade}`} viewBox={`0 0 ${SIZE} ${SIZE}`} aria-hidden="true">
      <Shape grade={grade} />
      {number > 0 && grade !== "good" && (
        <text x={SIZE / 2} y={grade === "change" ? 13 : 15.2} text-anchor="middle">
          {number}
        </text>
      )}
    </svg>
  );
}

/** The shape alone, in a square of 22. */
export function Shape({ grade }: { grade: Grade }) {
  if (grade === "stop") {
    return (
      <g>
        <rect x="1" y="1" width="20" height="20" />
        <path class="mark-cross" d="M2 2 7 7M20 2 15 7M2 20 7 15M20 20 15 15" />
      </g>
    );
  }
  if (grade === "change") return <path d="M0.5 2H21.5L11 21Z" />;
  if (grade === "look") return <circle cx="11" cy="11" r="9" />;
  return <path d="M3 12 9 18 19.5 4.5" />;
}
