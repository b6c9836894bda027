// One line of the slip; the line in hand opens with why, what would change, and the ways to mend it.

import { hand, hold, keyOf, mend, standing, undo } from "../model/bench";
import { tryOut, trying } from "../model/trial";
import { useEffect } from "preact/hooks";
import { OnDiagram } from "../wire/from_finding";
import { Notes } from "../notes/shown";
import type { Finding, Remedy } from "../server";
import { Figure } from "../sheet/figure";
import { Mark } from "../sheet/mark";
import { Leave } from "./leave";
import { Preview } from "./preview";
import { short } from "./short";
import { Said } from "../words/said";
import { pieces } from "../words/told";

export function Line({ one, mendedBy }: { one: Finding; mendedBy: string }) {
  const held = hand.value !== null && keyOf(hand.value) === keyOf(one);
  const first = one.remedies.find((remedy) => remedy.edits.length > 0);
  return (
    <article class={`line${held ? " held" : ""} line-${one.grade}`} id={`line-${keyOf(one)}`}>
      <button class="line-head" aria-expanded={held} onClick={() => hold(held ? null : one)}>
        <Mark grade={one.grade} number={one.number} />
        <span class="line-words">
          <span class="line-place">
            <b class={`word-${one.grade}`}>{one.grade}</b> {placeOf(one)}
            {one.zone !== "" && ` · ${one.zone}`}
          </span>
          <span class="line-says">{one.says}</span>
        </span>
        <span class="line-figure">
          {one.figure !== "" && (
            <b class="fig">
              <Figure words={one.figure} />
            </b>
          )}
          {one.limit !== "" && (
            <span>
              wanted <Figure words={one.limit} unit={false} />
            </span>
          )}
          {held && one.sure !== "" && <span>{one.sure} sure</span>}
        </span>
      </button>
      {mendedBy !== "" && <Mended says={mendedBy} />}
      {held && <Opened one={one} />}
      {!held && first && <Take one={one} remedy={first} />}
    </article>
  );
}

/** A place without the marks of a path. */
const placeOf = (one: Finding): string => one.place.replaceAll(" > ", ", ");

function Mended({ says }: { says: string }) {
  const last = standing.value?.last === says;
  return (
    <p class="mended">
      <span>{says}: it is written down.</span>
      {last && <button onClick={() => void undo()}>{undoWords(says)}</button>}
    </p>
  );
}

/** Undo names what it undoes. */
export function undoWords(says: string): string {
  const verb = (says.split(" ")[0] ?? "").toLowerCase();
  if (verb === "cut") return "Undo the cut";
  if (verb === "scribe") return "Undo the scribing";
  return `Undo: ${says.charAt(0).toLowerCase()}${says.slice(1)}`;
}

function Opened({ one }: { one: Finding }) {
  const written = one.remedies.filter((remedy) => remedy.edits.length > 0);
  const byHand = one.remedies.filter((remedy) => remedy.edits.length === 0);
  const [first, ...others] = written;
  useEffect(() => {
    tryOut(first ?? null);
    return () => tryOut(null);
  }, [one]);
  return (
    <div class="opened">
      <Hard text={one.says} />
      {one.missing.length > 0 && <p>Missing: {one.missing.join("; ")}</p>}
      {first && <Preview />}
      {first && (
        <button class="ink-button" onClick={() => void mend(one, first, short(first.says))}>
          {short(first.says)}
        </button>
      )}
      {byHand.map((remedy) => (
        <p key={remedy.says}>
          <Said text={remedy.says} />
        </p>
      ))}
      {others.length > 0 && (
        <details>
          <summary>Other ways</summary>
          {others.map((remedy) => (
            <Take key={remedy.says} one={one} remedy={remedy} back={first ?? null} />
          ))}
        </details>
      )}
      <OnDiagram one={one} />
      {one.grade === "look" && <Leave one={one} />}
      {one.why.length > 0 && (
        <details>
          <summary>Why</summary>
          <ul>
            {one.why.map((line) => (
              <li key={line}>
                <Said text={line} />
              </li>
            ))}
          </ul>
          {one.source !== "" && <p class="source">Limit from: {one.source}</p>}
        </details>
      )}
      <Notes kind="finding" names={[one.place]} />
    </div>
  );
}

/** The trade words of what a finding says, to tap: its own line is a button already. */
function Hard({ text }: { text: string }) {
  const hard = pieces(text).filter((one) => one.meaning !== null);
  if (hard.length === 0) return null;
  return (
    <p class="source">
      What is <Said text={hard.map((one) => one.text).join(", ")} />?
    </p>
  );
}

/** A remedy as one underlined line; pointed at, it is tried out on the drawing. */
function Take({ one, remedy, back = null }: { one: Finding; remedy: Remedy; back?: Remedy | null }) {
  const show = (): void => {
    if (back !== null) tryOut(remedy);
  };
  const leave = (): void => {
    if (back !== null && trying.value === remedy) tryOut(back);
  };
  return (
    <button
      class="remedy"
      onPointerEnter={show}
      onFocus={show}
      onPointerLeave={leave}
      onBlur={leave}
      onClick={() => void mend(one, remedy, short(remedy.says))}
    >
      {short(remedy.says)}
    </button>
  );
}
