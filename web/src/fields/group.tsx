// A key that holds keys or a list: opened and closed, with what can be added to it.

import type { ComponentChildren } from "preact";

import { TextField, Wrong } from "./text-field";
import { before, call, faults, faultsAt, keyOf, names, open, putBefore, takeOut, toggle, typed, write } from "./typed";
import type { Field } from "./typed";

const TOP = 1;

interface Part {
  readonly one: Field;
  readonly adding?: boolean;
  readonly children?: ComponentChildren;
}

export function Group({ one, adding = false, children }: Part) {
  const key = keyOf(one.path);
  const wrong = faultsAt(one.path);
  const held = open.value.has(key) || wrong.length > 0;
  const written = one.line > 0;
  return (
    <section class={`group depth-${Math.min(one.path.length, TOP + 2)}${written ? "" : " unwritten"}`}>
      <div class="group-head">
        <button class="group-name" aria-expanded={held} onClick={() => toggle(one.path)}>
          <svg viewBox="0 0 10 10" class="group-turn" aria-hidden="true">
            <path d={held ? "M1 3L9 3L5 9Z" : "M3 1L9 5L3 9Z"} />
          </svg>
          <b>{adding ? `Add to ${one.words.split(", ").slice(0, -1).join(", ")}` : one.key}</b>
          <span class="field-says">
            {one.says}
            {!written && !adding && " · not written"}
            {one.kind === "list" && written && ` · ${one.below.length}`}
          </span>
          <Inside one={one} />
        </button>
        {written && !one.required && one.path.length > TOP && (
          <button class="field-out" aria-label={`Take out ${one.words}`} onClick={() => void takeOut(one)}>
            Take out
          </button>
        )}
      </div>
      {wrong.map((fault) => (
        <Wrong key={`${fault.found}${fault.expected}`} fault={fault} path={one.path} />
      ))}
      {held && <Held one={one} adding={adding}>{children}</Held>}
    </section>
  );
}

/** Says that something below a closed group needs a look. */
function Inside({ one }: { one: Field }) {
  const below = faults.value.filter(
    (fault) =>
      fault.path.length > one.path.length && one.path.every((step, n) => fault.path[n] === step),
  ).length;
  return below === 0 ? null : <strong class="group-wrong">{below} to mend</strong>;
}

/** What a key holds: its texts, then its keys and lists, and what can be added. */
export function Held({ one, adding = false, children }: Part) {
  const texts = one.below.filter((below) => below.kind === "value");
  const groups = one.below.filter((below) => below.kind !== "value");
  const waiting = [...typed.value.keys()].some((key) => {
    const path = JSON.parse(key) as Field["path"];
    return one.path.every((step, n) => path[n] === step);
  });
  return (
    <div class="group-held">
      {adding && one.named && <Named one={one} />}
      {one.kind === "value" && <TextField one={one} />}
      {texts.length > 0 && (
        <div class="field-grid">
          {texts.map((below) => (
            <TextField key={keyOf(below.path)} one={below} />
          ))}
        </div>
      )}
      {children}
      {groups.map((below) => (
        <Group key={keyOf(below.path)} one={below} />
      ))}
      {one.more && <More one={one.more} list={one} />}
      {one.line === 0 && waiting && (
        <button class="ink-button" onClick={() => void write([...one.path, ""])}>
          Write it down
        </button>
      )}
    </div>
  );
}

/** What can be added: a single text at once, an entry with keys of its own once it is opened. */
function More({ one, list }: { one: Field; list: Field }) {
  const places = list.kind === "list" && list.below.length > 0 && <Where list={list} />;
  if (one.kind === "value" && !one.named) {
    return (
      <div class="field-grid">
        <TextField one={{ ...one, key: "one more" }} />
        {places}
      </div>
    );
  }
  return (
    <Group one={one} adding>
      {places}
    </Group>
  );
}

/** Where in its list a new item goes. */
function Where({ list }: { list: Field }) {
  const key = keyOf(list.path);
  const id = `where-${key.replace(/\W+/g, "-")}`;
  return (
    <div class="field">
      <label class="field-key" for={id}>
        its place in the list
      </label>
      <select
        id={id}
        onChange={(event) => {
          const place = event.currentTarget.value;
          putBefore(list.path, place === "" ? undefined : Number(place));
        }}
      >
        <option value="" selected={!before.value.has(key)}>
          after the last
        </option>
        {list.below.map((item, place) => (
          <option key={place} value={place} selected={before.value.get(key) === place}>
            before {item.value ?? item.key}
          </option>
        ))}
      </select>
    </div>
  );
}

function Named({ one }: { one: Field }) {
  const id = `name-${keyOf(one.path).replace(/\W+/g, "-")}`;
  return (
    <div class="field">
      <label class="field-key" for={id}>
        its place
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        placeholder={one.key}
        value={names.value.get(keyOf(one.path)) ?? ""}
        onInput={(event) => call(one.path, event.currentTarget.value)}
      />
      <p class="field-says">Such as: {one.key}</p>
    </div>
  );
}
