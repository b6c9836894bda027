// What a remedy is called on its button.

/** A remedy's first clause: the verb with its amount. */
export function short(says: string): string {
  return (says.split(/[:;]/)[0] ?? says).replace(/\.$/, "");
}
