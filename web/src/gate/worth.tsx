// What is worth doing before a lock: each test with its hours, those it takes and those it saves, to one scale.

import { fit } from "../model/bench";
import { turnTo } from "../places";
import type { Finding, Test } from "../server";
import { Said } from "../words/said";
import { Hours } from "./hours";

/** The rule whose findings say what to read again. */
export const AGAIN = "measure again";

export function Worth({ lock, freezes }: { lock: string; freezes: readonly Finding[] }) {
  const told = fit.value?.before.find((one) => one.lock === lock);
  const tests = told?.tests ?? [];
  const longest = Math.max(0, ...tests.flatMap((one) => [one.takes_h ?? 0, one.saves_h ?? 0]));
  const weighed = told !== undefined && told.redoing !== "";
  const takesTime = tests.some((one) => one.place === "");
  return (
    <section class="worth" aria-label="Worth doing first">
      <h3>Worth doing first</h3>
      {tests.length > 0 && (
        <p class="quiet">
          {weighed
            ? `The most hours saved first. Hatched: what it takes. Solid: what it saves on average, of the ${told.redoing} that doing it again takes.`
            : `In the order of what each decides. What they save is not known: nobody wrote what doing it again takes after ${lock}.`}
        </p>
      )}
      {told && (
        <>
          <Hours at={lock} says={`Doing it again after ${lock}`} now={told.redoing} example="14 h" />
          {takesTime && <Hours at="test fit" says="Trying it in the car" now={fit.value?.trying ?? ""} example="90 min" />}
        </>
      )}
      <ol>
        {tests.map((one) => (
          <li key={one.place + one.says}>
            {one.place !== "" && <small>{one.place}</small>}
            <b>{one.says}</b>
            <Pair one={one} longest={longest} />
            <Why one={one} finding={freezes.find((other) => other.rule === AGAIN && other.place === one.place)} />
          </li>
        ))}
      </ol>
      {tests.length === 0 && <p class="quiet">No reading would change anything here.</p>}
      {fit.value && <p class="quiet">All together goes in first time: {fit.value.together || "not known"}.</p>}
    </section>
  );
}

/** Where its hours come from, what else it is good for, and the way to it. */
function Why({ one, finding }: { one: Test; finding: Finding | undefined }) {
  const car = one.place === "";
  const lines = car
    ? [one.why, "Its readings move every gap at once, and name the one that the model cannot explain."]
    : [one.why, ...(finding?.why ?? [])];
  return (
    <>
      {lines.map((line) => (
        <p key={line}>
          <Said text={line} />
        </p>
      ))}
      {car && (
        <button class="remedy" onClick={() => turnTo("try")}>
          Open the test fit
        </button>
      )}
    </>
  );
}

/** Two bars to the scale of all: what it takes, hatched; what it saves, solid. */
function Pair({ one, longest }: { one: Test; longest: number }) {
  return (
    <dl class="bars">
      <Bar says="takes" words={one.takes} share={part(one.takes_h, longest)} kind="takes" />
      <Bar says="saves" words={one.saves} share={part(one.saves_h, longest)} kind="saves" />
    </dl>
  );
}

const part = (hours: number | null, longest: number): number | null =>
  hours === null ? null : longest > 0 ? hours / longest : 0;

interface BarProps {
  readonly says: string;
  readonly words: string;
  /** Of the longest; null where nobody wrote the hours. */
  readonly share: number | null;
  readonly kind: "takes" | "saves";
}

function Bar({ says, words, share, kind }: BarProps) {
  return (
    <div>
      <dt>{says}</dt>
      <dd>
        {share !== null && (
          <svg class="bar" aria-hidden="true">
            <rect class={kind} width={`${100 * share}%`} height="100%" />
          </svg>
        )}
        <span>{share !== null ? words : kind === "takes" ? "not written" : "not known"}</span>
      </dd>
    </div>
  );
}
