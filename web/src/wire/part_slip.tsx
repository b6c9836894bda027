// The slip of the part in hand: its fields, and what else can be done with it.

import { useEffect, useState } from "preact/hooks";

import { Held } from "../fields/group";
import { fieldAt, keyOf, tree } from "../fields/typed";
import type { Field } from "../fields/typed";
import { DEVICES, circuitFor, draw, hold, parts, reroute } from "./part";
import type { Offer, Part } from "./part";
import { Name, Out, Words } from "./part_name";
import { oneOf } from "./part_words";
import { Stops } from "./part_stops";

/** Lists of a control unit that its moves, outputs, paths and rules name. */
const WORDS = new Set(["states", "terminals"]);

/** A field without some of its keys. */
export const less = (one: Field, ...keys: readonly string[]): Field => ({
  ...one,
  below: one.below.filter((below) => !keys.includes(below.key)),
});

export function PartSlip({ one }: { one: Part }) {
  void tree.value;
  const field = fieldAt(one.path);
  const words = one.sort === "unit" ? (field?.below.filter((below) => WORDS.has(below.key)) ?? []) : [];
  const named = field?.below.find((below) => below.key === "name");
  return (
    <article class="part-slip" aria-label={`${one.name}, ${oneOf(one.sort)}`}>
      <button class="field-out" onClick={() => hold(null)}>
        All parts
      </button>
      <h3>{one.name}</h3>
      <p class="field-says">{oneOf(one.sort)}</p>
      {named !== undefined && <Name key={named.value} one={{ path: one.path, place: named.path, name: one.name }} label="name" says={named.says} />}
      {one.facts.length > 0 && (
        <ul class="part-facts">
          {one.facts.map((fact) => (
            <li key={fact}>{fact}</li>
          ))}
        </ul>
      )}
      {one.sort === "place" && <Here place={one.name} />}
      {one.waits && <Waits one={one} />}
      {one.sort === "path" && field !== undefined && <Route one={one} field={field} />}
      {words.map((list) => (
        <Words key={list.key} list={list} />
      ))}
      {field !== undefined && <Held one={less(field, "name", "goes", ...words.map((list) => list.key))} />}
      {one.wires.length > 0 && <Wires one={one} />}
      <Out key={parts.value?.version} one={one} />
    </article>
  );
}

function Route({ one, field }: { one: Part; field: Field }) {
  const goes = field.below.find((below) => below.key === "goes");
  const stops = goes?.below.map((stop) => stop.value ?? "") ?? [];
  return <Stops key={keyOf(one.path)} stops={stops} onChange={(after) => void reroute(one, stops, after)} />;
}

function Wires({ one }: { one: Part }) {
  return (
    <table class="part-wires">
      <caption>{one.sort === "trunk" ? "Wires in it" : "Its wires"}</caption>
      <tbody>
        {one.wires.map((wire) => (
          <tr key={wire.name}>
            <th scope="row">
              {one.sort === "trunk" && <b>{wire.name}: </b>}
              {wire.joins}
            </th>
            <td>{wire.size}</td>
            <td>{wire.long}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What is at a place. */
function Here({ place }: { place: string }) {
  const there = parts.value?.parts.filter((each) => DEVICES.has(each.sort) && each.says === place) ?? [];
  return (
    <section class="part-here" aria-label={`What is at ${place}`}>
      {there.length === 0 && <p class="field-says">Nothing is written to be here.</p>}
      {there.map((each) => (
        <button key={keyOf(each.path)} onClick={() => hold(each)}>
          {each.name} <span class="field-says">{oneOf(each.sort)}</span>
        </button>
      ))}
    </section>
  );
}

/** A load that nothing leads to: its whole circuit, to be drawn at once. */
function Waits({ one }: { one: Part }) {
  const [told, take] = useState<Offer | null>(null);
  const [trouble, say] = useState("");
  const version = parts.value?.version;
  useEffect(() => {
    circuitFor(one.name).then(take, (error: Error) => say(error.message));
  }, [one.name, version]);
  return (
    <section class="part-waits" aria-label="Its circuit">
      <p>
        <b>No path leads to it yet.</b>
      </p>
      {trouble !== "" && <p role="alert">{trouble}</p>}
      {told === null && trouble === "" && <p role="status">Working out a circuit</p>}
      {told !== null && <p>{told.says}</p>}
      {told !== null && told.edits.length > 0 && (
        <button class="ink-button" onClick={() => void draw(one, told)}>
          Draw its circuit
        </button>
      )}
    </section>
  );
}
