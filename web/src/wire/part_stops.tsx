// The stops of a current path, one after another: each next one is chosen from what fits.

import { useEffect, useState } from "preact/hooks";

import { nextStops, parts } from "./part";
import type { Next } from "./part";
import { manyOf } from "./part_words";

interface Route {
  readonly stops: readonly string[];
  readonly onChange: (stops: readonly string[], says: string) => void;
}

export function Stops({ stops, onChange }: Route) {
  const [at, choose] = useState<number | null>(stops.length === 0 ? 0 : null);
  const put = (text: string): void => {
    const place = at ?? stops.length;
    onChange([...stops.slice(0, place), text, ...stops.slice(place)], `${text} put in`);
    choose(place === stops.length ? place + 1 : null);
  };
  return (
    <section class="stops" aria-label="What it goes through">
      <h4>What it goes through</h4>
      <ol>
        {stops.map((one, n) => (
          <li key={`${n} ${one}`}>
            {at === n && <Choose goes={stops.slice(0, n)} onChoose={put} onLeave={() => choose(null)} />}
            <span class="stop-row">
              <b>{one}</b>
              <button aria-label={`Put a stop in before ${one}`} onClick={() => choose(n)}>
                before
              </button>
              <button
                aria-label={`Take out ${one}`}
                onClick={() => onChange(stops.filter((_, place) => place !== n), `${one} taken out`)}
              >
                take out
              </button>
            </span>
          </li>
        ))}
      </ol>
      {at === stops.length ? (
        <Choose goes={stops} onChoose={put} onLeave={stops.length > 1 ? () => choose(null) : null} />
      ) : (
        <button class="part-act" onClick={() => choose(stops.length)}>
          Next stop
        </button>
      )}
    </section>
  );
}

interface Choice {
  readonly goes: readonly string[];
  readonly onChoose: (text: string) => void;
  readonly onLeave: (() => void) | null;
}

/** What may come next, what usually does first; of a device with several terminals the one is asked for. */
function Choose({ goes, onChoose, onLeave }: Choice) {
  const [told, take] = useState<Next | null>(null);
  const [device, open] = useState("");
  const [trouble, say] = useState("");
  const version = parts.value?.version;
  useEffect(() => {
    open("");
    nextStops(goes).then(take, (error: Error) => say(error.message));
  }, [goes.join("|"), version]);
  if (trouble !== "") return <p role="alert">{trouble}</p>;
  if (told === null) return <p role="status">Looking what fits</p>;
  const sorts = [...new Set(told.stops.map((one) => one.sort))];
  return (
    <div class="stop-choice" role="group" aria-label="What comes next">
      {told.ends !== "" && <p class="field-says">{told.ends}</p>}
      {sorts.map((sort, n) => (
        <details key={sort} open={n === 0}>
          <summary>{manyOf(sort)}</summary>
          {told.stops
            .filter((one) => one.sort === sort)
            .map((one) => (
              <div key={one.device}>
                <button
                  class="stop-device"
                  aria-expanded={one.ways.length > 1 ? device === one.device : undefined}
                  onClick={() => {
                    const [only, second] = one.ways;
                    if (only !== undefined && second === undefined) onChoose(only.text);
                    else open(device === one.device ? "" : one.device);
                  }}
                >
                  {one.device}
                  {one.ways.every((way) => way.by.length > 0) && <span class="field-says"> in use</span>}
                </button>
                {device === one.device && (
                  <div class="stop-ways">
                    {one.ways.map((way) => (
                      <button key={way.text} onClick={() => onChoose(way.text)}>
                        <b>{way.text}</b>
                        <span class="field-says">
                          {way.says}
                          {way.by.length > 0 && ` · ${way.by.join(", ")}`}
                        </span>
                      </button>
                    ))}
                  </div>
                )}
              </div>
            ))}
        </details>
      ))}
      {onLeave !== null && (
        <button class="field-out" onClick={onLeave}>
          No more stops
        </button>
      )}
    </div>
  );
}
