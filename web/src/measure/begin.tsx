// A new build: three questions and a file.

import { signal } from "@preact/signals";

import { shelf, take } from "../model/bench";
import { turnTo } from "../places";
import { answer, FaultsError, server } from "../server";
import type { OnShelf } from "../server";
import type { NewBuild, Unit } from "./messages";
import "./measure.css";

const title = signal("");
const unit = signal<Unit>("mm");
const driver = signal<NewBuild["driver"]>("left");
const trouble = signal("");

async function begin(): Promise<void> {
  trouble.value = "";
  if (title.value.trim() === "") {
    trouble.value = "A build needs a name first.";
    return;
  }
  try {
    const asked: NewBuild = { title: title.value, unit: unit.value, driver: driver.value };
    const made = await answer<OnShelf>("/api/builds", asked);
    shelf.value = await server.builds();
    await take(made.name);
    turnTo("measure");
  } catch (error) {
    trouble.value =
      error instanceof FaultsError ? "The bench did not take this." : error instanceof Error ? error.message : "";
  }
}

export function Begin() {
  return (
    <form
      class="begin"
      onSubmit={(event) => {
        event.preventDefault();
        void begin();
      }}
    >
      <h2>Begin a build</h2>
      <label>
        What it is called
        <input
          value={title.value}
          maxLength={120}
          onInput={(event) => {
            title.value = event.currentTarget.value;
          }}
        />
      </label>
      <Choice says="Unit of the tape" now={unit.value} of={["mm", "in"]} pick={(one) => (unit.value = one)} />
      <Choice
        says="The driver sits"
        now={driver.value}
        of={["left", "right"]}
        pick={(one) => (driver.value = one)}
      />
      {trouble.value !== "" && (
        <p class="begin-trouble" role="alert">
          {trouble.value}
        </p>
      )}
      <button class="ink-button">Begin measuring</button>
    </form>
  );
}

interface ChoiceProps<T extends string> {
  readonly says: string;
  readonly now: T;
  readonly of: readonly T[];
  readonly pick: (one: T) => void;
}

function Choice<T extends string>({ says, now, of, pick }: ChoiceProps<T>) {
  return (
    <div class="pick-row" role="group" aria-label={says}>
      <span>{says}</span>
      {of.map((one) => (
        <button key={one} type="button" aria-pressed={one === now} onClick={() => pick(one)}>
          {one}
        </button>
      ))}
    </div>
  );
}
