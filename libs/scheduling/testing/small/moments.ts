import type { Anchor } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { amend, amendModes, spans, type Draft } from './draft.ts';

function forbid(draft: Draft, anchor: Anchor): void {
  const { rng, problem } = draft;
  const kind = anchor === 'start' ? 'dew' : 'climate';
  for (const a of sample(rng, range(problem.activities.length), between(rng, 1, 3)))
    amendModes(draft, a, (mode) => ({
      ...mode,
      forbidden: [
        ...mode.forbidden,
        { anchor, kind, spans: spans(draft, between(rng, 1, 4), 1, 5), source: `${kind}-${a}` },
      ],
    }));
}

/** A crane or the like for one activity or two. */
function slots(draft: Draft): void {
  const { rng, problem } = draft;
  const late = draft.wants('notice') && problem.now > 0;
  const most = Math.max(2, Math.floor(problem.horizon / 14));
  const chances = spans(draft, between(rng, 2, most), 9, 13);
  problem.slotLists.push({
    id: 'crane',
    slots: chances.map((span, k) => ({
      ...span,
      cost: draft.wants('slot-price') ? between(rng, 0, 9) : 0,
      bookBy:
        late && k < chances.length - 1 && chance(rng, 0.6)
          ? problem.now - 1
          : problem.now + rng.below(3),
    })),
    source: 'crane',
  });
  const points = problem.activities.flatMap(({ id }, a) => (id.startsWith('word') ? [a] : []));
  const users =
    points.length > 0 && chance(rng, 0.4)
      ? points
      : sample(rng, range(problem.activities.length), between(rng, 1, 2));
  for (const a of users) amendModes(draft, a, (mode) => ({ ...mode, slots: 0 }));
}

function release(draft: Draft): void {
  const { rng, problem } = draft;
  for (const a of sample(rng, range(problem.activities.length), between(rng, 1, 3)))
    amend(draft, a, (one) => ({
      ...one,
      releases: [
        ...one.releases,
        {
          at: between(rng, 1, Math.floor(problem.horizon / 2)),
          kind: 'delivery',
          source: `parcel-${a}`,
        },
      ],
    }));
}

/** Work that has happened, and only in one way. */
function freeze(draft: Draft): number | null {
  const { rng, problem } = draft;
  const optional = new Set(
    problem.choices.flatMap(({ branches }) => branches.flatMap(({ activities }) => activities)),
  );
  const late = new Set(problem.lags.map(({ to }) => to));
  const free = problem.activities.flatMap(({ modes }, a) =>
    modes[0].crew.length > 0 &&
    (!optional.has(a) || chance(rng, 0.3)) &&
    (!late.has(a) || chance(rng, 0.1))
      ? [a]
      : [],
  );
  if (free.length === 0) return null;
  const frozen = pick(rng, free);
  const start = between(rng, -4, 2);
  amend(draft, frozen, (one) => ({
    ...one,
    modes: one.modes.slice(0, 1),
    fixed: {
      kind: 'frozen',
      start,
      finish: start + between(rng, 1, 6),
      builders: sample(rng, range(problem.builders.length), between(rng, 1, 2)),
    },
  }));
  // A function for each mode is now one.
  problem.lags.forEach((lag, l) => {
    if (lag.from === frozen) problem.lags[l] = { ...lag, fns: lag.fns.slice(0, 1) };
  });
  problem.surfaces.forEach((surface, s) => {
    if (surface.activity === frozen)
      problem.surfaces[s] = { ...surface, until: surface.until.slice(0, 1) };
  });
  problem.holds.forEach((hold, h) => {
    if (hold.activity !== frozen) return;
    const ends = hold.ends.map((end) =>
      end.kind === 'lag' ? { ...end, fns: end.fns.slice(0, 1) } : end,
    );
    problem.holds[h] = { ...hold, ends };
  });
  return frozen;
}

/** The foreman's wish: a start, or who does it. */
function set(draft: Draft, frozen: number | null): void {
  const { rng, problem } = draft;
  const free = problem.activities.flatMap(({ modes }, a) =>
    a !== frozen && modes[0].crew.length === 1 ? [a] : [],
  );
  if (free.length === 0) return;
  const a = pick(rng, free);
  const { crew } = problem.activities[a].modes[0];
  const able = problem.builders.flatMap(({ abilities }, b) =>
    abilities.some(
      ({ skill, level, needsSenior }) =>
        skill === crew[0].skill && level >= crew[0].minLevel && !needsSenior,
    )
      ? [b]
      : [],
  );
  const shift = pick(rng, problem.calendars[0].shifts);
  const { releases } = problem.activities[a];
  const at = Math.max(between(rng, shift.start, shift.end - 1), ...releases.map((one) => one.at));
  const who = chance(rng, 0.7);
  amend(draft, a, (one) => ({
    ...one,
    fixed: {
      kind: 'set',
      start: !who || chance(rng, 0.3) ? at : null,
      finish: null,
      builders: who ? sample(rng, able, crew[0].count) : null,
    },
  }));
}

/** When work may be, whatever else is done. */
export function moments(draft: Draft): void {
  if (draft.wants('forbidden-start')) forbid(draft, 'start');
  if (draft.wants('forbidden-finish')) forbid(draft, 'finish');
  if (draft.wants('slots')) slots(draft);
  if (draft.wants('release')) release(draft);
  const frozen = draft.wants('frozen') ? freeze(draft) : null;
  if (draft.wants('set')) set(draft, frozen);
}
