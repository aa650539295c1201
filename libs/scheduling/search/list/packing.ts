/**
 * Amounts of several resources side by side in 32-bit words, one lane each. The top bit of a lane
 * guards it: it is set in what is free and clear in what is asked, so that one subtraction and
 * one mask compare all lanes of a word: `((free - asked) & guard) === guard` if all of it fits.
 */
export interface Packing {
  /** Words of an amount. */
  readonly words: number;
  /** The guard bits of a word. */
  readonly guard: number;
  /** The capacities with guards, by word. */
  readonly capacity: Int32Array;
  /** By activity, by word. */
  readonly demand: Int32Array;
}

/** Largest capacities that leave the guard of a lane of 8, 16 and 32 bits alone. */
const LANES = [
  { bits: 8, most: 0x7f, guard: 0x80808080 | 0 },
  { bits: 16, most: 0x7fff, guard: 0x80008000 | 0 },
  { bits: 32, most: 0x7fffffff, guard: 0x80000000 | 0 },
];

/**
 * Packs the demands (by resource, by activity) for as many of the resources as can ever be short.
 * No demand of work that takes time may be above its capacity; others are never looked at.
 */
export function pack(capacity: Int32Array, demand: readonly Int32Array[], count: number): Packing {
  const scarce = demand.flatMap((amounts, r) =>
    amounts.reduce((sum, amount) => sum + amount, 0) > capacity[r] ? [r] : [],
  );
  const most = scarce.reduce((high, r) => Math.max(high, capacity[r]), 0);
  const lane = LANES.find((one) => most <= one.most) ?? LANES[2];
  const perWord = 32 / lane.bits;
  const words = Math.max(1, Math.ceil(scarce.length / perWord));
  const packed = {
    words,
    guard: lane.guard,
    capacity: new Int32Array(words).fill(lane.guard),
    demand: new Int32Array(count * words),
  };
  scarce.forEach((r, k) => {
    const word = Math.floor(k / perWord);
    const shift = (k % perWord) * lane.bits;
    packed.capacity[word] |= capacity[r] << shift;
    for (let i = 0; i < count; i++) packed.demand[i * words + word] |= demand[r][i] << shift;
  });
  return packed;
}
