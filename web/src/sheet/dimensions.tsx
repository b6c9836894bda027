// Dimensions as drawn; one whose figure is a field of the build can be typed over where it stands.

import { useEffect, useRef, useState } from "preact/hooks";

import { edit, faults } from "../model/bench";
import type { Room } from "./box";
import { head } from "./dimension";
import type { Dimension } from "./dimension";
import { DrawnFigure } from "./figure";
import { line } from "./scale";
import { LABEL } from "./type";

const FIELD = { width: 210, height: 74, told: 210 };
const FINGER = 40;

const keyOf = (one: Dimension): string => `${one.size.path.join(">")}|${one.size.a}|${one.size.b}`;
/** A field's name in the builder's words, without numbers of lists. */
const nameOf = (one: Dimension): string =>
  one.size.path.filter((step) => typeof step === "string").slice(1).join(", ");

/** The figure as it is drawn, where the file says another: a deck's height without its cover. */
const drawnOf = (one: Dimension): string =>
  one.size.typed.includes(one.size.words) ? "" : `, drawn ${one.size.words}`;

export function Dimensions({ sizes, room }: { sizes: readonly Dimension[]; room: Room }) {
  const [opened, setOpened] = useState("");
  const field = sizes.find((one) => keyOf(one) === opened && one.size.path.length > 0);
  return (
    <g>
      {sizes.map((one) => (
        <Size key={keyOf(one)} one={one} open={() => setOpened(keyOf(one))} />
      ))}
      {field && <Field key={opened} one={field} room={room} close={() => setOpened("")} />}
    </g>
  );
}

function Size({ one, open }: { one: Dimension; open: () => void }) {
  const [x, y] = one.words;
  const typed = one.size.path.length > 0;
  const figure = (
    <text x={x} y={y} text-anchor="middle" transform={one.upright ? `rotate(-90 ${x} ${y})` : ""}>
      <DrawnFigure words={one.size.words} />
    </text>
  );
  const middle = [(one.box.left + one.box.right) / 2, (one.box.top + one.box.bottom) / 2] as const;
  return (
    <g class={`size${typed ? " typed" : ""}`}>
      <path class="pen pen-thin" d={line(one.lines)} />
      {one.heads.map((at, k) => (
        <path key={k} class="head" d={head(at.at, at.way)} />
      ))}
      {!typed && figure}
      {typed && (
        <g
          role="button"
          tabindex={0}
          aria-label={`${nameOf(one)}: ${one.size.typed}${drawnOf(one)}. Change it`}
          onClick={open}
          onKeyDown={(event) => {
            if (event.key !== "Enter" && event.key !== " ") return;
            event.preventDefault();
            open();
          }}
        >
          <rect class="reach" x={middle[0] - FINGER / 2} y={middle[1] - FINGER / 2} width={FINGER} height={FINGER} />
          {figure}
          <path class="rule" d={one.upright ? `M${one.box.right + 1} ${one.box.top}V${one.box.bottom}` : `M${one.box.left} ${one.box.bottom}H${one.box.right}`} />
        </g>
      )}
    </g>
  );
}

function Field({ one, room, close }: { one: Dimension; room: Room; close: () => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState(one.size.typed);
  const [writing, setWriting] = useState(false);
  useEffect(() => {
    input.current?.focus();
    input.current?.select();
    return () => {
      faults.value = [];
    };
  }, []);
  const write = async (value: string): Promise<void> => {
    setText(value);
    if (value.trim() === one.size.typed) return close();
    setWriting(true);
    const says = `${nameOf(one)} ${one.size.typed} → ${value.trim()}`;
    const done = await edit([{ path: one.size.path, value: value.trim() }], says);
    setWriting(false);
    if (done) close();
  };
  const wide = Math.min(FIELD.width, room.width);
  const high = faults.value.length > 0 ? FIELD.told : FIELD.height;
  const left = Math.min(Math.max((one.box.left + one.box.right - wide) / 2, 0), room.width - wide);
  const top = Math.min(Math.max(one.box.top - LABEL - 12, 0), Math.max(room.height - high, 0));
  return (
    <foreignObject x={left} y={top} width={wide} height={Math.min(high, room.height)}>
      <form
        class={`field${faults.value.length > 0 ? " wrong" : ""}`}
        onSubmit={(event) => {
          event.preventDefault();
          void write(text);
        }}
      >
        <label>
          {nameOf(one)}
          <input
            ref={input}
            value={text}
            readOnly={writing}
            autocomplete="off"
            enterkeyhint="done"
            onInput={(event) => setText(event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Escape") close();
            }}
            onBlur={(event) => {
              const to = event.relatedTarget;
              const kept = to instanceof Node && event.currentTarget.form?.contains(to);
              if (!kept && faults.value.length === 0 && !writing && text === one.size.typed) close();
            }}
          />
        </label>
        {faults.value.map((fault) => (
          <div class="told" key={fault.found + fault.expected} role="alert">
            <strong>Found {fault.found}.</strong> Expected {fault.expected}
            {fault.example !== "" && `, such as: ${fault.example}`}
            {fault.readings.map((reading) => (
              <button type="button" key={reading} onClick={() => void write(reading)}>
                {reading}
              </button>
            ))}
          </div>
        ))}
      </form>
    </foreignObject>
  );
}
