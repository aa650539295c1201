/** From one moment to another, ms since the epoch. */
export interface Span {
  readonly from: number;
  readonly until: number;
}

export const isDuring = ({ from, until }: Span, moment: number): boolean =>
  from <= moment && moment < until;

/** What any of them covers, in order, apart by more than `gap`. */
export function joined(spans: readonly Span[], gap = 0): Span[] {
  const sorted = spans.filter(({ from, until }) => from < until).sort((a, b) => a.from - b.from);
  const out: Span[] = [];
  for (const span of sorted) {
    const last = out.at(-1);
    if (last !== undefined && span.from - last.until <= gap) {
      out[out.length - 1] = { from: last.from, until: Math.max(last.until, span.until) };
    } else out.push(span);
  }
  return out;
}

/** What lies in `whole`. */
export const within = (spans: readonly Span[], whole: Span): Span[] =>
  spans.flatMap(({ from, until }) => {
    const part = { from: Math.max(from, whole.from), until: Math.min(until, whole.until) };
    return part.from < part.until ? [part] : [];
  });

/** What of `whole` none of `spans` covers; they are in order and apart. */
export function between(spans: readonly Span[], whole: Span): Span[] {
  const out: Span[] = [];
  let from = whole.from;
  for (const span of within(spans, whole)) {
    if (span.from > from) out.push({ from, until: span.from });
    from = Math.max(from, span.until);
  }
  if (from < whole.until) out.push({ from, until: whole.until });
  return out;
}

/**
 * A row for each, so that none lies over another of its row; the first row that is free. Spans
 * that touch may share one.
 */
export function rowsOf(spans: readonly Span[], apart = 0): number[] {
  const order = spans.map((_, k) => k).sort((a, b) => spans[a].from - spans[b].from);
  const free: number[] = [];
  const rows = new Array<number>(spans.length).fill(0);
  for (const k of order) {
    const { from, until } = spans[k];
    const at = free.findIndex((moment) => moment <= from);
    const row = at === -1 ? free.length : at;
    free[row] = until + apart;
    rows[k] = row;
  }
  return rows;
}
