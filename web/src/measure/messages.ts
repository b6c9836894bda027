// What the measuring walk and the server say to each other, from the server's own schema.

import type { components } from "../api";

type Schemas = components["schemas"];
export type Walk = Schemas["WalkMessage"];
export type WalkStep = Schemas["WalkStep"];
export type Picture = Schemas["PictureMessage"];
export type ReadBy = Schemas["ReadBy"];
export type Taken = Schemas["TakenMessage"];
export type Slip = Schemas["SlipMessage"];
export type NewBuild = Schemas["NewBuild"];
export type Unit = Walk["unit"];
export type Probes = Schemas["ProbesMessage"];
export type Probe = Schemas["ProbeMessage"];
export type Learned = Schemas["LearnedMessage"];
