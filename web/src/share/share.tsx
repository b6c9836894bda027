// The sheet that shares the bench: what that means, the switch, the way in, and who is in.

import "./share.css";

import { useEffect, useRef } from "preact/hooks";
import { signal } from "@preact/signals";

import { Shape } from "../sheet/mark";
import type { Phone, Sharing } from "./messages";
import { letAllGo, letGo, newCode, opened, sharing, switchOff, switchOn, trouble } from "./sharing";

/** Which of several addresses is shown. */
const shown = signal(0);
const GROUP = 4; // letters of a code that stand together

const close = (): void => {
  opened.value = false;
};

export function Share() {
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    back.current?.focus();
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === "Escape") close();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, []);
  const now = sharing.value;
  return (
    <main class="share">
      <header class="share-top">
        <h1>Share on the garage network</h1>
        <button ref={back} onClick={close}>
          Back
        </button>
      </header>
      <div class="share-parts">
        <section class="share-switch" aria-label="The switch">
          <Caution />
          {trouble.value !== "" && (
            <p class="share-trouble" role="alert">
              {trouble.value}
            </p>
          )}
          {now !== null && <Switch on={now.on} says={now.said} />}
        </section>
        {now?.on && <Way now={now} />}
        {now?.on && <Phones phones={now.phones} />}
      </div>
    </main>
  );
}

function Caution() {
  return (
    <div class="share-caution">
      <svg class="mark mark-look" viewBox="0 0 22 22" aria-hidden="true">
        <Shape grade="look" />
      </svg>
      <ul>
        <li>
          <b>Others can read along.</b> What goes between phone and bench is not locked (plain http): whoever is on the same
          network can read it, and could act as the phone. Do this on your own network only.
        </li>
        <li>
          <b>A paired phone works on every build of this bench:</b> reads it, changes it, undoes, begins new ones, prints.
          It cannot switch this on or off, and it cannot pair or let go another.
        </li>
        <li>
          <b>Switch it off after.</b> It also goes off when this machine sleeps, changes its network, or the bench is
          closed.
        </li>
      </ul>
    </div>
  );
}

function Switch({ on, says }: { on: boolean; says: string }) {
  return (
    <div class="share-row">
      <p role="status">
        {on ? "The bench is on the network." : says || "Only this machine can look at the bench now."}
      </p>
      <button class="ink-button" role="switch" aria-checked={on} onClick={() => void (on ? switchOff() : switchOn())}>
        {on ? "Take it off the network" : "Share on this network"}
      </button>
    </div>
  );
}

function Way({ now }: { now: Sharing }) {
  const way = now.ways[shown.value] ?? now.ways[0];
  if (way === undefined) return null;
  return (
    <section class="share-way" aria-label="Pair a phone">
      <h2>Pair a phone</h2>
      {now.code === "" ? (
        <>
          <p role="status">{now.said || "The code is too old."}</p>
          <button class="ink-button" onClick={() => void newCode()}>
            New code for one phone more
          </button>
        </>
      ) : (
        <>
          <p>Point the phone's camera at this:</p>
          <img class="share-picture" src={way.picture} alt={`Picture for a phone's camera: ${way.address} with the code`} />
          <dl>
            <dt>or type the address</dt>
            <dd class="share-address">{way.address}</dd>
            <dt>and there the code</dt>
            <dd class="share-code">
              {now.code.slice(0, GROUP)} {now.code.slice(GROUP)}
            </dd>
          </dl>
          <p class="quiet-line">It pairs one phone, once, until {now.until}.</p>
          <details>
            <summary>The phone does not find it</summary>
            <p>
              Phone and bench must be on the same network, not one of them on a guest network, and the firewall of this
              machine must let port {way.address.split(":").at(-1)} in.
            </p>
          </details>
        </>
      )}
      {now.ways.length > 1 && (
        <div class="share-ways" role="group" aria-label="This machine has several addresses; if one does not open, try another">
          <span>If the phone does not find it, try</span>
          {now.ways.map((one, k) => (
            <button key={one.address} aria-pressed={one === way} onClick={() => (shown.value = k)}>
              {one.address.replace("http://", "")}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}

function Phones({ phones }: { phones: readonly Phone[] }) {
  return (
    <section class="share-phones" aria-label="Paired phones">
      <h2>Paired phones</h2>
      {phones.length === 0 && <p class="quiet-line">None yet.</p>}
      <ul>
        {phones.map((one) => (
          <li key={one.number} class="share-row">
            <p>
              <b>{one.says}</b>
              <span>
                paired {one.paired}, last heard {one.heard}
              </span>
            </p>
            <button aria-label={`Let go: ${one.says}, paired ${one.paired}`} onClick={() => void letGo(one.number)}>
              Let go
            </button>
          </li>
        ))}
      </ul>
      {phones.length > 1 && (
        <button class="share-all" onClick={() => void letAllGo()}>
          Let all go
        </button>
      )}
    </section>
  );
}
