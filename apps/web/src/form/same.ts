/** Values as they are sent: equal where their JSON is. */
export const same = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);
