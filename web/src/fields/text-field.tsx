// One field that holds a text: what it is, what is typed, what is wrong with it.

import type { Fault } from "../server";
import { alone, faultsAt, keyOf, takeOut, theirs, type, typed, write } from "./typed";
import type { Field, Path } from "./typed";
import { Said } from "../words/said";

const MOST_BUTTONS = 6;

export function TextField({ one, placed = false }: { one: Field; placed?: boolean }) {
  const key = keyOf(one.path);
  const text = typed.value.get(key);
  const wrong = faultsAt(one.path);
  const id = `field-${key.replace(/\W+/g, "-")}`;
  const says = `${id}-says`;
  const meanwhile = theirs.value.get(key);
  return (
    <div class={`field${wrong.length > 0 ? " wrong" : ""}${one.line === 0 ? " unwritten" : ""}`}>
      <div class="field-head">
        <label for={id} class="field-key">
          {placed ? one.words : one.key}
          {one.required && one.line === 0 && <span> · needed</span>}
        </label>
        {one.line > 0 && <span class="field-line">line {one.line}</span>}
      </div>
      {one.choices.length > 0 ? <Choices one={one} id={id} says={says} /> : <Typed one={one} id={id} says={says} />}
      <p class="field-says" id={says}>
        <Said text={one.says} />
        {one.sort !== "" && `, ${one.sort}`}
        {(one.says !== "" || one.sort !== "") && "."}
        {one.line === 0 && one.left_out !== "" && <b> Taken as {one.left_out}.</b>}
      </p>
      {meanwhile !== undefined && (
        <p class="field-meanwhile" role="alert">
          Meanwhile another hand wrote {meanwhile}.
        </p>
      )}
      {wrong.map((fault) => (
        <Wrong key={`${fault.found}${fault.expected}`} fault={fault} path={one.path} />
      ))}
      <div class="field-acts">
        {text !== undefined && text !== (one.value ?? "") && (
          <button class="field-write" onClick={() => void write(one.path)}>
            Write {text.trim() === "" ? "it" : text}
          </button>
        )}
        {one.line > 0 && !one.required && (
          <button class="field-out" aria-label={`Take out ${one.words}`} onClick={() => void takeOut(one)}>
            Take out
          </button>
        )}
      </div>
    </div>
  );
}

interface Part {
  readonly one: Field;
  readonly id: string;
  readonly says: string;
}

function Typed({ one, id, says }: Part) {
  const text = typed.value.get(keyOf(one.path));
  const offers = one.offers.length > 0 ? `${id}-offers` : undefined;
  return (
    <>
      <input
        id={id}
        type="text"
        list={offers}
        autocomplete="off"
        spellcheck={false}
        aria-describedby={says}
        aria-invalid={faultsAt(one.path).length > 0}
        placeholder={one.example === "" ? "" : `such as ${one.example}`}
        value={text ?? one.value ?? ""}
        onInput={(event) => type(one.path, event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") void write(one.path);
        }}
      />
      {offers !== undefined && (
        <datalist id={offers}>
          {one.offers.map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      )}
    </>
  );
}

function Choices({ one, id, says }: Part) {
  const now = typed.value.get(keyOf(one.path)) ?? one.value ?? one.left_out;
  const choose = (word: string): void => {
    type(one.path, word);
    if (alone(one.path)) void write(one.path);
  };
  if (one.choices.length > MOST_BUTTONS) {
    return (
      <select id={id} aria-describedby={says} onChange={(event) => choose(event.currentTarget.value)}>
        {!one.choices.includes(now) && <option selected>{now}</option>}
        {one.choices.map((word) => (
          <option key={word} selected={word === now}>
            {word}
          </option>
        ))}
      </select>
    );
  }
  return (
    <div class="field-choices" id={id} role="group" aria-describedby={says} aria-label={one.words}>
      {one.choices.map((word) => (
        <button key={word} aria-pressed={word === now} onClick={() => choose(word)}>
          {word}
        </button>
      ))}
    </div>
  );
}

export function Wrong({ fault, path }: { fault: Fault; path: Path }) {
  return (
    <div class="field-wrong" role="alert">
      <p>
        <strong>Found {fault.found}.</strong> Expected {fault.expected}
        {fault.example !== "" && `, such as: ${fault.example}`}.
      </p>
      {fault.readings.map((reading) => (
        <button
          key={reading}
          onClick={() => {
            type(path, reading);
            void write(path);
          }}
        >
          {reading}
        </button>
      ))}
    </div>
  );
}
