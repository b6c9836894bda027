import { describe, expect, test } from "vitest";

import { rowsOf } from "./effects";

const NOTHING = { says: "fuse 3 blown", stopped: [], wrongly: [], moved: [], breaks: [], dies: [] };

describe("what a fault does, in words", () => {
  test("what it does not do is not spoken of", () => {
    expect(rowsOf(NOTHING)).toEqual([]);
  });

  test("loads, volts before and after, and rules each have their own line", () => {
    const tried = {
      ...NOTHING,
      stopped: ["heater", "horn"],
      wrongly: [
        { name: "tail lamp", volts: "7.5 V" },
        { name: "plate lamp", volts: "" },
      ],
      moved: [{ name: "fog lamps", before: "11.9 V", after: "8.8 V" }],
      dies: ["heater"],
    };
    expect(rowsOf(tried)).toEqual([
      ["Works no more", "heater, horn"],
      ["Works and should not", "tail lamp 7.5 V, plate lamp"],
      ["Gets other volts", "fog lamps 11.9 V → 8.8 V"],
      ["Goes with it, in any state", "heater"],
    ]);
  });
});
