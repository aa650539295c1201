import type { Resource } from '../../../model/problem.ts';

/** What is left of a resource: `left[i]` from `times[i]` until `times[i + 1]`. */
export interface Profile {
  count: number;
  times: Int32Array;
  left: Int32Array;
}

export function profileOf(resource: Resource): Profile {
  const size = Math.max(64, 2 * resource.steps.length);
  const profile: Profile = { count: 0, times: new Int32Array(size), left: new Int32Array(size) };
  for (const step of resource.steps) {
    profile.times[profile.count] = step.from;
    profile.left[profile.count] = step.capacity;
    profile.count += 1;
  }
  return profile;
}

/** Index of the step that holds minute `t`; `t` is not before the first step. */
function stepAt(profile: Profile, t: number): number {
  const { times } = profile;
  let lo = 0;
  let hi = profile.count - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (times[mid] <= t) lo = mid;
    else hi = mid - 1;
  }
  return lo;
}

/**
 * The end of the first shortage in [start, end), -1 where there is none. Work that
 * overlaps a shortage cannot start before its end.
 */
export function shortageEnd(profile: Profile, start: number, end: number, amount: number): number {
  const { times, left, count } = profile;
  for (let i = stepAt(profile, start); i < count && times[i] < end; i += 1) {
    if (left[i] >= amount) continue;
    for (i += 1; i < count && left[i] < amount; i += 1);
    return i < count ? times[i] : Infinity;
  }
  return -1;
}

/** The first moment from `from` on at which less than `amount` is left; Infinity where there is none. */
export function shortageStart(profile: Profile, from: number, amount: number): number {
  const { times, left, count } = profile;
  for (let i = stepAt(profile, from); i < count; i += 1)
    if (left[i] < amount) return Math.max(from, times[i]);
  return Infinity;
}

function cut(profile: Profile, t: number): number {
  const i = stepAt(profile, t);
  if (profile.times[i] === t) return i;
  if (profile.count === profile.times.length) {
    const times = new Int32Array(profile.count * 2);
    const left = new Int32Array(profile.count * 2);
    times.set(profile.times);
    left.set(profile.left);
    profile.times = times;
    profile.left = left;
  }
  const { times, left } = profile;
  times.copyWithin(i + 2, i + 1, profile.count);
  left.copyWithin(i + 2, i + 1, profile.count);
  times[i + 1] = t;
  left[i + 1] = left[i];
  profile.count += 1;
  return i + 1;
}

/** Makes two equal steps one. */
function level(profile: Profile, i: number): void {
  const { times, left } = profile;
  if (i === 0 || left[i] !== left[i - 1]) return;
  times.copyWithin(i, i + 1, profile.count);
  left.copyWithin(i, i + 1, profile.count);
  profile.count -= 1;
}

/** Takes `amount` in [start, end); a negative amount gives it back. */
export function take(profile: Profile, start: number, end: number, amount: number): void {
  const from = Math.max(0, start);
  if (from >= end) return;
  const first = cut(profile, from);
  const last = cut(profile, end);
  for (let i = first; i < last; i += 1) profile.left[i] -= amount;
  level(profile, last);
  level(profile, first);
}

export function copyProfile(from: Profile, to: Profile): void {
  if (to.times.length < from.count) {
    to.times = new Int32Array(from.times.length);
    to.left = new Int32Array(from.times.length);
  }
  for (let i = 0; i < from.count; i += 1) {
    to.times[i] = from.times[i];
    to.left[i] = from.left[i];
  }
  to.count = from.count;
}
