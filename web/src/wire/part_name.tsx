// What a part is called, changed wherever it is named; and a part taken out, with what goes with it.

import { useState } from "preact/hooks";

import { Wrong } from "../fields/text-field";
import { Held } from "../fields/group";
import { faultsAt, keyOf, takeOut } from "../fields/typed";
import type { Field } from "../fields/typed";
import { remove, rename, without } from "./part";
import type { Named, Offer, Part } from "./part";

export function Name({ one, label, says }: { one: Named; label: string; says: string }) {
  const [text, type] = useState(one.name);
  const path = one.place;
  const id = `name-${keyOf(path).replace(/\W+/g, "-")}`;
  const wrong = faultsAt(path);
  const called = text.trim();
  return (
    <div class={wrong.length > 0 ? "field wrong" : "field"}>
      <label class="field-key" for={id}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        spellcheck={false}
        aria-invalid={wrong.length > 0}
        value={text}
        onInput={(event) => type(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") void rename(one, called);
        }}
      />
      {says !== "" && <p class="field-says">{says}. It is changed wherever it is named.</p>}
      {wrong.map((fault) => (
        <Wrong key={`${fault.found}${fault.expected}`} fault={{ ...fault, readings: [] }} path={path} />
      ))}
      {called !== "" && called !== one.name && (
        <button class="field-write" onClick={() => void rename(one, called)}>
          Call it {called}
        </button>
      )}
    </div>
  );
}

/** A list of a control unit's states or terminals: each called otherwise wherever it is named, or taken out. */
export function Words({ list }: { list: Field }) {
  return (
    <details class="part-sort part-words">
      <summary>
        {list.key} <span class="field-says">{list.below.length}</span>
      </summary>
      <p class="field-says">{list.says}. A new name is written wherever the old one stands.</p>
      {list.below.map((item, number) => {
        const name = item.value ?? "";
        return (
          <div key={name} class="part-word">
            <Name one={{ path: item.path, place: item.path, name }} label={`${list.key.slice(0, -1)} ${number + 1}`} says="" />
            <button class="field-out" aria-label={`Take out ${name}`} onClick={() => void takeOut(item)}>
              Take out
            </button>
          </div>
        );
      })}
      <Held one={{ ...list, below: [] }} />
    </details>
  );
}

/** Takes a part out once it was said what goes with it. */
export function Out({ one }: { one: Part }) {
  const [told, take] = useState<Offer | null>(null);
  const [trouble, say] = useState("");
  return (
    <section class="part-out" aria-label={`Take out ${one.name}`}>
      {told === null && (
        <button class="part-act" onClick={() => without(one).then(take, (error: Error) => say(error.message))}>
          Take it out
        </button>
      )}
      {trouble !== "" && <p role="alert">{trouble}</p>}
      {told !== null && (
        <>
          <p role="status">{told.says}</p>
          {told.edits.length > 0 && (
            <button class="ink-button" onClick={() => void remove(one, told)}>
              Take {one.name} out
            </button>
          )}
          <button class="field-out" onClick={() => take(null)}>
            Leave it in
          </button>
        </>
      )}
    </section>
  );
}
