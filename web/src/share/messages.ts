// What the bench and the phones say to each other about sharing, from the server's own schema.

import type { components } from "../api";

type Schemas = components["schemas"];
export type Sharing = Schemas["SharingMessage"];
export type Phone = Schemas["PhoneMessage"];
export type WayIn = Schemas["WayIn"];
export type Paired = Schemas["PairedMessage"];
export type Pairing = Schemas["PairingMessage"];
