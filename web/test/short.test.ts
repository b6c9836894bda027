import { expect, test } from "vitest";

import { short } from "../src/slip/short";

test.each([
  ["Cut 6 mm off the nose: then it clears the dash.", "Cut 6 mm off the nose"],
  ["Read the section again.", "Read the section again"],
  ["Take 2.5 mm off", "Take 2.5 mm off"],
  ["", ""],
])("a remedy is told in its first clause: %s", (says, first) => {
  expect(short(says)).toBe(first);
});
