import { describe, expect, it } from "vitest";

import { partOf, relisted } from "./part";
import type { Part } from "./part";

const part = (sort: Part["sort"], name: string, wires: readonly string[] = []): Part => ({
  sort,
  name,
  path: ["wiring", sort, 0],
  says: "",
  facts: [],
  wires: wires.map((one) => ({ name: one, joins: "", long: "", size: "" })),
  waits: false,
});
const ALL = [
  part("load", "fog lamps"),
  part("switch", "fog switch"),
  part("fuse", "fuse 1"),
  part("fuse", "fuse 13"),
  part("path", "fog lamps", ["fog lamps 1", "fog lamps 2"]),
];

describe("the part that is drawn", () => {
  it("is a wire's path, whatever else is called so", () => {
    expect(partOf("wire fog lamps 2", ALL)?.sort).toBe("path");
    expect(partOf("part fog lamps 1 to fog switch in", ALL)?.sort).toBe("path");
  });
  it("is the device with the longest name that fits as whole words", () => {
    expect(partOf("part fog lamps", ALL)?.sort).toBe("load");
    expect(partOf("part fuse 13", ALL)?.name).toBe("fuse 13");
    expect(partOf("contact fog switch in-out", ALL)?.name).toBe("fog switch");
  });
  it("is a trunk by its number and a place by its name", () => {
    const [trunk, place] = [part("trunk", "box to dash"), part("place", "fog lamps")];
    expect(partOf("trunk 0", [...ALL, trunk, place])).toBe(trunk);
    expect(partOf("trunk 1", [...ALL, trunk, place])).toBeNull();
    expect(partOf("place fog lamps", [...ALL, trunk, place])).toBe(place);
  });
  it("is none where nothing is called so", () => {
    expect(partOf("part lantern", ALL)).toBeNull();
    expect(partOf("wire lantern 1", ALL)).toBeNull();
  });
});

describe("edits that make a list say other texts", () => {
  const made = (before: readonly string[], after: readonly string[]): readonly string[] => {
    const held: (string | null)[] = [...before];
    for (const { path, value } of relisted(["goes"], before, after)) {
      const place = path[1] as number;
      if (value === null) held.splice(place, 1);
      else held[place] = value ?? null;
    }
    return held as string[];
  };
  it.each([
    [["a", "b"], ["a", "x", "b"]],
    [["a", "b", "c"], ["a", "c"]],
    [["a", "b", "c"], ["c"]],
    [[], ["a", "b"]],
    [["a"], ["a"]],
  ])("makes %j say %j", (before, after) => {
    expect(made(before, after)).toEqual(after);
  });
  it("touches nothing that stays", () => {
    expect(relisted(["goes"], ["a", "b"], ["a", "b", "c"])).toEqual([{ path: ["goes", 2], value: "c" }]);
  });
});
