// The slip: what needs a hand, in the order of what locks first.

import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";

import { faults, fit, hand, keyOf, mended, mendFirst, open, passed, stale } from "../model/bench";
import { AllNotes } from "../notes/all_notes";
import type { Finding } from "../server";
import { driven, openGate } from "../gate/locks";
import { leftOut } from "../sheet/left_out";
import { Mark } from "../sheet/mark";
import { Foot } from "./foot";
import { Line } from "./line";

const GRADES = ["stop", "change", "look"] as const;
/** On a phone the slip is pulled up over the drawing. */
const up = signal(false);

export function Slip() {
  const list = useRef<HTMLDivElement>(null);
  const held = hand.value ? keyOf(hand.value) : "";
  useEffect(() => {
    document.getElementById(`line-${held}`)?.scrollIntoView({ block: "nearest" });
  }, [held]);
  return (
    <aside class={`slip${up.value ? " up" : ""}`} aria-label="What needs a hand">
      <button
        class="grip"
        aria-expanded={up.value}
        aria-label={up.value ? "Push the slip down" : "Pull the slip up"}
        onClick={() => {
          up.value = !up.value;
        }}
      >
        <i />
      </button>
      <Head />
      <div class={`slip-lines${stale.value ? " stale" : ""}`} ref={list}>
        {fit.value === null && (
          <p class="quiet weighing">{mendFirst.value ? "Nothing can be checked until the file is mended" : "Weighing all doubts"}</p>
        )}
        {faults.value.map((one) => (
          <p class="fault" key={`${one.line}${one.found}`}>
            <strong>Found {one.found}.</strong> Expected {one.expected}
            {one.example !== "" && `, such as: ${one.example}`}
          </p>
        ))}
        {locks().map((lock) => (
          <Lock key={lock} lock={lock} />
        ))}
        <Passed />
        {leftOut.value.length > 0 && <p class="quiet left-out">Drawn, with no room for the name: {leftOut.value.join("; ")}</p>}
        <AllNotes />
      </div>
      <Foot />
    </aside>
  );
}

function Head() {
  return (
    <header class="slip-head">
      <h2>{stale.value ? "Weighing it anew" : "Needs a hand"}</h2>
      <ul class="tally">
        {GRADES.map((grade) => {
          const many = open.value.filter((one) => one.grade === grade).length;
          return (
            <li key={grade} aria-label={`${many} ${grade}`}>
              <Mark grade={grade} />
              {many}
            </li>
          );
        })}
      </ul>
    </header>
  );
}

/** The locks that lines stand under, in the order of the work. */
function locks(): readonly string[] {
  const all = fit.value?.findings.map((one) => one.lock) ?? [];
  const shown = new Set([...open.value.map((one) => one.lock), ...mended.value.map((one) => one.finding.lock)]);
  return [...new Set([...all, ...shown])].filter((lock) => shown.has(lock));
}

interface Shown {
  readonly one: Finding;
  readonly says: string; // the remedy it was mended by, if it was
}

/** The lines under a lock: those open, and those mended since, where they stood. */
function linesOf(lock: string): Shown[] {
  const lines: Shown[] = open.value.filter((one) => one.lock === lock).map((one) => ({ one, says: "" }));
  for (const { finding, index, says } of mended.value) {
    if (finding.lock !== lock) continue;
    const now = fit.value?.findings.find((one) => keyOf(one) === keyOf(finding));
    if (now !== undefined && now.grade !== "good") continue; // it needs a hand still
    const one: Finding = now ?? { ...finding, number: 0, grade: "good", says: "This is mended.", figure: "", limit: "", sure: "", remedies: [] };
    lines.splice(Math.min(index, lines.length), 0, { one, says });
  }
  return lines;
}

function Lock({ lock }: { lock: string }) {
  return (
    <section>
      <h3>
        <button class={driven(lock) ? "driven" : ""} onClick={() => openGate(lock)}>
          <svg viewBox="0 0 16 22" aria-hidden="true">
            <path d="M8 9V22" />
            <circle cx="8" cy="7" r="5.4" />
          </svg>
          <span>
            {driven(lock) ? "Locked by" : "Before"} <b>{lock}</b>
          </span>
        </button>
      </h3>
      {linesOf(lock).map(({ one, says }) => (
        <Line key={keyOf(one)} one={one} mendedBy={says} />
      ))}
    </section>
  );
}

function Passed() {
  if (passed.value.length === 0) return null;
  return (
    <details class="passed">
      <summary>
        <Mark grade="good" /> {passed.value.length} checked and good
      </summary>
      {passed.value.map((one) => (
        <Line key={keyOf(one)} one={one} mendedBy="" />
      ))}
    </details>
  );
}
