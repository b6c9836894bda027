// The sheets of the packet, in the order of the index in the head margin. A place adds itself here.

import type { ComponentType } from "preact";
import { computed, signal } from "@preact/signals";

import { name } from "./model/bench";
import { Measure } from "./measure/measure";
import { TestFit } from "./measure/test_fit";
import { Fields } from "./fields/fields";
import { Print } from "./print/print";
import { Bench } from "./sheet/bench";
import { Wire } from "./wire/wire";

export interface Place {
  readonly name: string; // one word, in the index and in the address
  readonly shows: ComponentType;
  readonly says?: string; // what the sheet is of, where the place has no sheet of its own
}

export const places: readonly Place[] = [
  { name: "measure", shows: Measure },
  { name: "fit", shows: Bench },
  { name: "try", shows: TestFit },
  { name: "wire", shows: Wire, says: "the wiring" },
  { name: "fields", shows: Fields, says: "every field" },
  { name: "print", shows: Print, says: "what to print" },
];

const asked = (): string => decodeURIComponent(location.pathname.split("/")[2] ?? "");
const turned = signal(asked());
addEventListener("popstate", () => {
  turned.value = asked();
});

export const place = computed<Place>(
  () => places.find((one) => one.name === turned.value) ?? (places[1] as Place),
);

/** Turns to another sheet of the build on the bench. */
export function turnTo(to: string): void {
  history.pushState(null, "", `/${encodeURIComponent(name.value)}/${encodeURIComponent(to)}`);
  turned.value = to;
}
