/** To so many decimals. */
export function round(value: number, decimals = 0): number {
  const unit = 10 ** decimals;
  return Math.round(value * unit) / unit;
}

/** A number as people write it: so many decimals at most, none of them idle. */
export const shown = (value: number, decimals = 0): string => String(round(value, decimals));
