// What is wrong with the file, line by line, and where the right thing can be typed in its place.

import { useState } from "preact/hooks";

import { edit, mendFirst, standing } from "../model/bench";
import type { Fault } from "../server";

export function Faulty() {
  const faults = standing.value?.faults ?? [];
  if (faults.length === 0) return null;
  return (
    <section class="notice faulty" role="alert" aria-label="What is wrong with the file">
      <p>
        {mendFirst.value
          ? "The file cannot be used as it is, so nothing can be drawn yet."
          : "The file was changed by hand and cannot be used as it is. What is drawn is its last good state."}
      </p>
      <ul>
        {faults.map((one) => (
          <Mend key={`${one.line}${one.path.join(">")}${one.found}`} one={one} />
        ))}
      </ul>
    </section>
  );
}

const quoted = /^"(.*)"$/s;
const spoken = (path: Fault["path"]): string =>
  path.map((step) => (typeof step === "number" ? String(step + 1) : step)).join(", ");

function Mend({ one }: { one: Fault }) {
  const [text, setText] = useState(quoted.exec(one.found)?.[1] ?? "");
  const [busy, setBusy] = useState(false);
  const write = async (value: string): Promise<void> => {
    setText(value);
    setBusy(true);
    await edit([{ path: one.path, value: value.trim() }], `${spoken(one.path)} ${value.trim()}`);
    setBusy(false);
  };
  const mendable = one.path.length > 0 && quoted.test(one.found);
  return (
    <li>
      <p>
        Line {one.line}{one.path.length > 0 && `, ${spoken(one.path)}`}: <strong>found {one.found}</strong>; expected{" "}
        {one.expected}
        {one.example !== "" && `, such as: ${one.example}`}
      </p>
      {mendable && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void write(text);
          }}
        >
          {one.readings.map((reading) => (
            <button type="button" key={reading} onClick={() => void write(reading)}>
              {reading}
            </button>
          ))}
          <input
            aria-label={spoken(one.path)}
            value={text}
            readOnly={busy}
            autocomplete="off"
            onInput={(event) => setText(event.currentTarget.value)}
          />
          <button>Write it</button>
        </form>
      )}
    </li>
  );
}
