// The page that pairs a phone: with the code that the camera brought, or that is typed.

import "@fontsource/bitter/latin-600.css";
import "@fontsource/sofia-sans/latin-400.css";
import "@fontsource/sofia-sans/latin-600.css";
import "../style/tokens.css";
import "../style/page.css";
import "./share.css";

import { signal } from "@preact/signals";
import { render } from "preact";

import { answer } from "../server";
import type { Paired, Pairing } from "./messages";

const PATH = "/api/pair";
const brought = location.hash.slice(1);
history.replaceState(null, "", location.pathname); // the code leaves the address at once

const typed = signal("");
const busy = signal(true);
const trouble = signal("");

async function asked(code?: string): Promise<void> {
  busy.value = true;
  trouble.value = "";
  try {
    const told = await answer<Paired>(PATH, code === undefined ? undefined : ({ code } satisfies Pairing));
    if (told.paired) location.replace(told.to);
    else busy.value = false;
  } catch (error) {
    trouble.value = error instanceof Error ? error.message : String(error);
    busy.value = false;
  }
}

function Pair() {
  if (busy.value) {
    return (
      <main class="pair">
        <h1>Pairing this phone</h1>
      </main>
    );
  }
  return (
    <main class="pair">
      <h1>Pair this phone</h1>
      {trouble.value !== "" && (
        <p class="pair-says" role="alert">
          {trouble.value}
        </p>
      )}
      <p>On the bench, open Share. Point this phone's camera at the picture there, or type the code below it.</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (typed.value.trim() !== "") void asked(typed.value);
        }}
      >
        <label>
          Code on the bench
          <input
            value={typed.value}
            maxLength={20}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            onInput={(event) => {
              typed.value = event.currentTarget.value;
            }}
          />
        </label>
        <button class="ink-button">Pair this phone</button>
      </form>
    </main>
  );
}

const root = document.getElementById("page");
if (root !== null) render(<Pair />, root);
void asked(brought === "" ? undefined : brought);
