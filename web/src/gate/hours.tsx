// Hours that only the builder knows: a field for them where they are weighed.

import { useEffect, useState } from "preact/hooks";

import { edit, faults } from "../model/bench";

interface HoursProps {
  /** The key below `hours` that they are written under. */
  readonly at: string;
  readonly says: string;
  /** As typed; "" where nobody wrote them. */
  readonly now: string;
  readonly example: string;
}

export function Hours({ at, says, now, example }: HoursProps) {
  const [text, setText] = useState(now);
  const path = ["hours", at];
  useEffect(() => setText(now), [now, at]);
  const wrong = faults.value.filter((one) => one.path.join() === path.join());
  const write = (): void => {
    const words = text.trim();
    if (words !== now) void edit([{ path, value: words === "" ? null : words }], `${says}: ${words === "" ? "not known" : words}`);
  };
  return (
    <form
      class="hours"
      onSubmit={(event) => {
        event.preventDefault();
        write();
      }}
    >
      <label>
        {says} takes
        <input
          class={wrong.length > 0 ? "wrong" : ""}
          value={text}
          maxLength={40}
          placeholder={`not written, such as ${example}`}
          autocomplete="off"
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      {text.trim() !== now && <button>Write it</button>}
      {wrong.map((one) => (
        <p class="fault" role="alert" key={one.found}>
          <span>
            <strong>Found {one.found}.</strong> Expected {one.expected}
            {one.example !== "" && `, such as: ${one.example}`}
          </span>
          {one.readings.map((meant) => (
            <button type="button" key={meant} onClick={() => setText(meant)}>
              {meant}
            </button>
          ))}
        </p>
      ))}
    </form>
  );
}
