// The car from above, with its trunks as thick as what lies in them: a trunk or a place is taken in hand there.

import "./plan.css";

import { useEffect, useRef, useState } from "preact/hooks";

import { fieldAt, keyOf, tree } from "../fields/typed";
import { fetchSheet } from "./diagram";
import { hand, hold, parts } from "./part";
import type { Part } from "./part";
import { markHand, takeDrawn } from "./part_drawn";

/** What says where a place is from above. */
const FROM_ABOVE = ["at", "off middle"];

export function Plan() {
  const places = parts.value?.parts.filter((one) => one.sort === "place") ?? [];
  void tree.value;
  const unsaid = places.filter((one) => lacks(one).length > 0);
  return (
    <section class="wire-sheet" aria-label="The car from above">
      {unsaid.length > 0 && <Unsaid places={unsaid} all={unsaid.length === places.length} />}
      {parts.value !== null && places.length === 0 && (
        <p class="notice">No place is written yet. Add a place, and where it is along and across the car.</p>
      )}
      {unsaid.length < places.length && <Drawn version={parts.value?.version ?? ""} />}
    </section>
  );
}

const lacks = (place: Part): readonly string[] =>
  FROM_ABOVE.filter((key) => (fieldAt([...place.path, key])?.line ?? 0) === 0);

/** Places that cannot be drawn until it is said where they are; each opens with its fields. */
function Unsaid({ places, all }: { places: readonly Part[]; all: boolean }) {
  return (
    <div class="notice plan-unsaid">
      <p>
        {all ? "Nothing can be drawn from above yet. " : "Not drawn: "}
        Nobody has said where along and across the car {places.length === 1 ? "this place is" : "these places are"}.
      </p>
      {places.map((one) => (
        <button key={keyOf(one.path)} aria-pressed={hand.value === one} onClick={() => hold(one)}>
          {one.name}
        </button>
      ))}
    </div>
  );
}

function Drawn({ version }: { version: string }) {
  const ground = useRef<HTMLDivElement>(null);
  const [drawn, setDrawn] = useState("");
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    let wanted = true;
    fetchSheet("/wire/plan.svg").then(
      (svg) => {
        if (!wanted || ground.current === null) return;
        ground.current.replaceChildren(svg);
        setDrawn(version);
        setTrouble("");
      },
      (error: Error) => wanted && setTrouble(error.message),
    );
    return () => {
      wanted = false;
    };
  }, [version]);
  const held = hand.value;
  useEffect(() => {
    if (ground.current !== null) markHand(ground.current, true);
  }, [drawn, held]);
  return (
    <>
      {trouble !== "" && <p role="alert">{trouble}</p>}
      <div ref={ground} class="wire-ground changing plan" role="img" aria-label="Trunks in plan" onClick={takeDrawn} />
    </>
  );
}
