/**
 * Seeded generator of 32-bit integers: xoshiro128**, seeded through a 32-bit mixer.
 * Source: Blackman & Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47 (2021).
 */
export interface Random {
  /** Uniform integer in [0, n), 1 <= n <= 2^32. */
  below(n: number): number;
  /** Uniform number in [0, 1). */
  unit(): number;
  /** The state, to continue the same stream elsewhere. */
  state(): readonly [number, number, number, number];
}

const rotl = (x: number, k: number): number => ((x << k) | (x >>> (32 - k))) >>> 0;

function splitmix(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (s + 0x9e3779b9) >>> 0;
    let z = s;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b) >>> 0;
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35) >>> 0;
    return (z ^ (z >>> 16)) >>> 0;
  };
}

export function random(seed: number): Random {
  const next = splitmix(seed);
  let a = next();
  let b = next();
  let c = next();
  let d = next();
  if ((a | b | c | d) === 0) d = 1;
  const draw = (): number => {
    const result = Math.imul(rotl(Math.imul(b, 5) >>> 0, 7), 9) >>> 0;
    const t = (b << 9) >>> 0;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c = (c ^ t) >>> 0;
    d = rotl(d >>> 0, 11);
    a >>>= 0;
    b >>>= 0;
    return result;
  };
  return {
    below: (n) => Math.floor((draw() / 4294967296) * n),
    unit: () => draw() / 4294967296,
    state: () => [a, b, c, d],
  };
}
