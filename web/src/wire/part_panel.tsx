// Beside the drawing: every part of the wiring, by sort, the one in hand, and what can be added.

import "../fields/fields.css";
import "./part.css";

import { useEffect, useRef } from "preact/hooks";

import { Foot, Troubles } from "../fields/fields";
import { Held } from "../fields/group";
import { fieldAt, keyOf, tree } from "../fields/typed";
import { add, adding, hand, hold, parts, trouble } from "./part";
import type { Part } from "./part";
import { PartAdd } from "./part_add";
import { PartSlip } from "./part_slip";
import { LISTS, SOURCES, manyOf } from "./part_words";

/** Keys of the wiring that have parts of their own. */
const PARTS = new Set<string>([...LISTS.map((one) => one.key), ...SOURCES]);

export function PartPanel() {
  const [one, told] = [hand.value, parts.value];
  const scroll = useRef<HTMLDivElement>(null);
  const shown = `${adding.value} ${one === null ? "" : keyOf(one.path)}`;
  useEffect(() => scroll.current?.scrollTo(0, 0), [shown]);
  return (
    <section class="wire-work part-panel fields" aria-label="Change the wiring">
      <div class="part-scroll" ref={scroll}>
        {trouble.value !== "" && (
          <p class="notice" role="alert">
            {trouble.value}
          </p>
        )}
        <Troubles />
        {told === null && <p role="status">Reading the wiring</p>}
        {adding.value !== "" ? (
          <PartAdd key={adding.value} to={adding.value} />
        ) : one !== null ? (
          <PartSlip key={keyOf(one.path)} one={one} />
        ) : (
          told !== null && <All all={told.parts} />
        )}
      </div>
      <Foot />
    </section>
  );
}

function All({ all }: { all: readonly Part[] }) {
  const sorts = ["load", "path", "place", "trunk", "source", "feed", "fuse", "switch", "relay", "ground", "plug", "splice", "unit", "cable", "signal", "rule"];
  return (
    <>
      <p class="wire-says">{all.length === 0 ? "Nothing is wired yet: begin with a load." : "Tap a part where it is drawn, or choose it here."}</p>
      {sorts.map((sort) => {
        const some = all.filter((one) => one.sort === sort);
        return some.length === 0 ? null : (
          <details key={sort} class="part-sort">
            <summary>
              {manyOf(sort)} <span class="field-says">{some.length}</span>
            </summary>
            {some.map((one) => (
              <button key={keyOf(one.path)} onClick={() => hold(one)}>
                <span>{one.name}</span>
                <span class="field-says">{one.waits ? "no path yet" : one.says}</span>
              </button>
            ))}
          </details>
        );
      })}
      <Loose />
      <h3>Add</h3>
      <div class="field-choices">
        {LISTS.map((one) => (
          <button key={one.key} onClick={() => add(one.key)}>
            {one.one}
          </button>
        ))}
        {SOURCES.filter((source) => !all.some((one) => one.name === source)).map((source) => (
          <button key={source} onClick={() => add(source)}>
            {source}
          </button>
        ))}
      </div>
    </>
  );
}

/** What is of no one part. */
function Loose() {
  void tree.value;
  const wiring = fieldAt(["wiring"]);
  if (wiring === undefined || wiring.line === 0) return null;
  return (
    <details class="part-sort">
      <summary>every wire, prices, meter readings</summary>
      <Held one={{ ...wiring, below: wiring.below.filter((below) => !PARTS.has(below.key)) }} />
    </details>
  );
}
