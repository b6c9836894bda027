// The fields place: every field of the build, to read and to change, without seeing the file.

import "./fields.css";

import { useEffect } from "preact/hooks";

import { redo, standing, undo } from "../model/bench";
import { Group } from "./group";
import { TextField, Wrong } from "./text-field";
import { elsewhere, faultsAt, found, keepFields, keyOf, search, tree, trouble, wordsOf } from "./typed";

const MOST_FOUND = 60;

export function Fields() {
  useEffect(keepFields, []);
  const root = tree.value?.root;
  return (
    <div class="fields">
      <header class="fields-head">
        <h2>Every field</h2>
        <input
          type="search"
          aria-label="Find a field by its name, its meaning or what is typed in it"
          placeholder="Find a field, such as: seat left low"
          value={search.value}
          onInput={(event) => {
            search.value = event.currentTarget.value;
          }}
        />
      </header>
      <div class="fields-list">
        <Troubles />
        {root !== undefined && (search.value.trim() === "" ? <Whole /> : <Found />)}
      </div>
      <Foot />
    </div>
  );
}

/** What stands against the last edit beside its own field: with the rest of the file, or with the bench. */
export function Troubles() {
  return (
    <>
      {trouble.value !== "" && (
        <p class="notice" role="alert">
          {trouble.value}
        </p>
      )}
      {elsewhere.value.length > 0 && (
        <section class="field wrong" aria-label="What else this would make wrong">
          <p class="field-key">It would not go with what stands elsewhere</p>
          {elsewhere.value.map((fault) => (
            <div key={`${fault.line}${fault.found}`}>
              <p class="field-says">{wordsOf(fault.path)}</p>
              <Wrong fault={{ ...fault, readings: [] }} path={fault.path} />
            </div>
          ))}
        </section>
      )}
      {faultsAt([]).map((fault) => (
        <Wrong key={fault.found} fault={fault} path={[]} />
      ))}
    </>
  );
}

function Whole() {
  const below = tree.value?.root.below ?? [];
  return (
    <>
      <div class="field-grid">
        {below
          .filter((one) => one.kind === "value")
          .map((one) => (
            <TextField key={keyOf(one.path)} one={one} />
          ))}
      </div>
      {below
        .filter((one) => one.kind !== "value")
        .map((one) => (
          <Group key={keyOf(one.path)} one={one} />
        ))}
    </>
  );
}

function Found() {
  const count = found.value.length;
  return (
    <>
      <p class="field-says" role="status">
        {count === 0 ? "No field is called so." : count === 1 ? "1 field" : `${count} fields`}
        {count > MOST_FOUND && `, the first ${MOST_FOUND} shown`}
      </p>
      <div class="field-grid wide">
        {found.value.slice(0, MOST_FOUND).map((one) => (
          <TextField key={keyOf(one.path)} one={one} placed />
        ))}
      </div>
    </>
  );
}

export function Foot() {
  const now = standing.value;
  return (
    <footer class="slip-foot">
      <span>{now?.last ? `Last: ${now.last}` : "Nothing changed yet"}</span>
      <button disabled={!now?.can_redo} onClick={() => void redo()}>
        Redo
      </button>
      <button disabled={!now?.can_undo} onClick={() => void undo()}>
        Undo
      </button>
    </footer>
  );
}
