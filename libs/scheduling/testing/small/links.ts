import type { Anchor, Lag } from '../../model/problem.ts';
import { between, chance, pick } from '../draw.ts';
import { add, amend, lagFunctions, type Draft } from './draft.ts';
import { crewed, waiting } from './work.ts';

const anchors: readonly Anchor[] = ['start', 'finish'];

/** Adds a lag between two activities; its index. */
function tie(draft: Draft, from: number, to: number, minutes: number, given: Partial<Lag>): number {
  const { problem } = draft;
  problem.lags.push({
    id: `lag-${problem.lags.length}`,
    from,
    fromAnchor: 'finish',
    to,
    toAnchor: 'start',
    bound: 'open',
    kind: 'sequence',
    source: `step-${problem.lags.length}`,
    ...given,
    fns: lagFunctions(draft, from, minutes),
  });
  return problem.lags.length - 1;
}

/** Openings from earlier to later work, and closings some time after them. */
function windows(draft: Draft): void {
  const { rng, problem } = draft;
  for (let to = 1; to < problem.activities.length; to += 1) {
    if (chance(rng, 0.45)) continue;
    const from = rng.below(to);
    const usual = chance(rng, 0.45);
    const fromAnchor = usual ? 'finish' : pick(rng, anchors);
    const toAnchor = usual ? 'start' : pick(rng, anchors);
    const minutes = between(rng, 0, 4);
    tie(draft, from, to, minutes, { fromAnchor, toAnchor });
    if (draft.wants('closing-lag') && chance(rng, 0.5))
      tie(draft, from, to, minutes + between(rng, 6, draft.day + 6), {
        fromAnchor,
        toAnchor: pick(rng, anchors),
        bound: 'close',
        kind: 'bond',
      });
  }
  // Pot life: what is begun is finished in time.
  if (draft.wants('closing-lag') && chance(rng, 0.3)) {
    const a = rng.below(problem.activities.length);
    const given = { fromAnchor: 'start', toAnchor: 'finish', bound: 'close', kind: 'pot' } as const;
    tie(draft, a, a, between(rng, 4, 10), given);
  }
}

/**
 * A later coat within the bond window of an earlier one, or else after hardening and sanding, or
 * else, where there are three branches, on a peel ply torn off.
 */
function choice(draft: Draft): void {
  const { rng, problem } = draft;
  const count = draft.wants('choice-of-three') ? 3 : draft.wants('choice-of-two') ? 2 : 0;
  if (count === 0) return;
  const to = between(rng, 1, problem.activities.length - 1);
  const from = rng.below(to);
  const { refit } = problem.activities[from];
  const given = { refit, releases: [], parts: [], fixed: null };
  const bond = { fromAnchor: 'finish', bound: 'close', kind: 'bond' } as const;
  const inTime = {
    id: 'in-window',
    activities: [],
    lags: [tie(draft, from, to, between(rng, 2, 9), bond)],
  };
  const sand = add(draft, 'sand', {
    ...given,
    modes: [{ ...crewed(draft, 'dusty', between(rng, 1, 4)), space: rng.below(2) }],
  });
  const hardened = tie(draft, from, sand, between(rng, 2, 6), { kind: 'sand' });
  const sanded = tie(draft, sand, to, between(rng, 0, 2), { kind: 'flash' });
  const branches = [inTime, { id: 'sand', activities: [sand], lags: [hardened, sanded] }];
  if (count === 3) {
    const lay = add(draft, 'peel', { ...given, modes: [crewed(draft, 'clean', 1)] });
    const rest = add(draft, 'rest', { ...given, modes: [waiting(between(rng, 0, 3))] });
    const lags = [tie(draft, from, lay, 0, {}), tie(draft, lay, rest, 1, {})];
    branches.push({
      id: 'peel',
      activities: [lay, rest],
      lags: [...lags, tie(draft, rest, to, between(rng, 0, 3), { kind: 'stale' })],
    });
  }
  problem.choices.push({ id: 'next-coat', branches, source: `coat-${to}` });
}

/** Somebody outside gives the word, and some work waits for it. */
function holdPoint(draft: Draft): void {
  const { rng, problem } = draft;
  if (!draft.wants('hold-point')) return;
  const to = rng.below(problem.activities.length);
  const point = add(draft, 'word', {
    refit: null,
    modes: [waiting(0)],
    releases: [],
    parts: [],
    fixed: null,
  });
  const at = between(rng, 1, Math.floor(problem.horizon / 2));
  amend(draft, point, (one) => ({ ...one, releases: [{ at, kind: 'word', source: 'surveyor' }] }));
  tie(draft, point, to, between(rng, 0, 2), { kind: 'word' });
}

export function links(draft: Draft): void {
  windows(draft);
  choice(draft);
  holdPoint(draft);
}
