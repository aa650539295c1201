import { useLocation } from 'preact-iso/router';
import { type Closeness, closeness } from './closeness.ts';
import { type View, views } from './lanes.ts';

/** What the address says of the picture, so that it can be kept and sent on. */
export interface Shown {
  /** Null: the published plan. */
  readonly plan: string | null;
  /** The first day; null: the week of now. */
  readonly from: string | null;
  readonly by: View;
  readonly asTable: boolean;
  /** Null: as near as the work of the days takes. */
  readonly closer: Closeness | null;
}

const date = /^\d{4}-\d{2}-\d{2}$/;

function shownBy(query: Readonly<Record<string, string | undefined>>): Shown {
  const { plan, from, by, as, closer } = query;
  return {
    plan: plan === undefined || plan === '' ? null : plan,
    from: from !== undefined && date.test(from) ? from : null,
    by: views.find((view) => view === by) ?? 'people',
    asTable: as === 'table',
    closer: closeness.find((one) => String(one) === closer) ?? null,
  };
}

function addressOf(path: string, { plan, from, by, asTable, closer }: Shown): string {
  const query = new URLSearchParams();
  if (plan !== null) query.set('plan', plan);
  if (from !== null) query.set('from', from);
  if (by !== 'people') query.set('by', by);
  if (asTable) query.set('as', 'table');
  if (closer !== null) query.set('closer', String(closer));
  const text = query.toString();
  return text === '' ? path : `${path}?${text}`;
}

export function useShown(): readonly [Shown, (change: Partial<Shown>) => void] {
  const { path, query, route } = useLocation();
  const shown = shownBy(query);
  return [shown, (change) => route(addressOf(path, { ...shown, ...change }), true)];
}
