// The keys: figures under the thumb, fractions in inches, halves and a doubt in millimetres.

import type { Unit } from "./messages";

const INCHES = [
  ["7", "8", "9", "1/2"],
  ["4", "5", "6", "1/4"],
  ["1", "2", "3", "1/8"],
  ["0", "ft", ".", "1/16"],
] as const;
const MILLIMETRES = [
  ["7", "8", "9", ".5"],
  ["4", "5", "6", "±"],
  ["1", "2", "3", ","],
  ["0", "."],
] as const;

interface Keys {
  readonly unit: Unit;
  readonly type: (key: string) => void;
  readonly skip: () => void;
  readonly next: () => void;
}

export function Keypad({ unit, type, skip, next }: Keys) {
  const rows = unit === "in" ? INCHES : MILLIMETRES;
  const [first, second, third, fourth] = rows;
  return (
    <div class="keys" role="group" aria-label="Keys">
      <Row keys={first} type={type} />
      <button class="key-word" onClick={() => type("rub out")}>
        rub out
      </button>
      <Row keys={second} type={type} />
      <button class="key-word" onClick={skip}>
        skip
      </button>
      <Row keys={third} type={type} />
      <button class="key-next" onClick={next}>
        Next
      </button>
      <Row keys={fourth} type={type} />
    </div>
  );
}

function Row({ keys, type }: { keys: readonly string[]; type: Keys["type"] }) {
  return (
    <>
      {keys.map((key, k) => (
        <button key={key} class={look(key, k, keys.length)} onClick={() => type(key)} tabIndex={-1}>
          {key}
        </button>
      ))}
    </>
  );
}

function look(key: string, column: number, columns: number): string {
  if (key.includes("/")) return "key-side frac";
  if (key === "ft") return "key-word";
  if (columns === 2) return column === 0 ? "key-wide" : "";
  return column === 3 ? "key-side" : "";
}
