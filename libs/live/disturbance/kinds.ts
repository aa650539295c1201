import { workEventKinds, type WorkEventKind } from '../life/life.ts';

/**
 * `work`: something was done otherwise than planned. `records`: what there is to plan with or for
 * has changed. `weather`: films are reckoned anew.
 */
export type DisturbanceReason = 'work' | 'records' | 'weather';

/** Who has a task in hand moves nothing of the plan until it begins. */
const ofClaims: ReadonlySet<WorkEventKind> = new Set(['task-claimed', 'claim-lapsed']);
const ofWork = workEventKinds.filter((kind) => !ofClaims.has(kind));

const records = [
  'boat',
  'refit',
  'part',
  'job',
  'person',
  'space',
  'tool',
  'stock',
  'barrier',
  'slot-list',
  'delivery',
  'material',
].flatMap((subject) => ['added', 'changed', 'removed'].map((what) => `${subject}-${what}`));

const weather = [
  'readings-added',
  'reading-removed',
  'observation-added',
  'observation-removed',
  'outdoor-imported',
];

const others: readonly (readonly [kind: string, reason: DisturbanceReason])[] = [
  ['task-fixed', 'records'],
  ['rework-made', 'records'],
  ['rework-undone', 'records'],
  ['window-missed', 'records'],
  ['change-accepted', 'records'],
  ['productivity-applied', 'records'],
  ['yard-changed', 'records'],
  ['alarm-rung', 'work'],
];

const reasons: ReadonlyMap<string, DisturbanceReason> = new Map([
  ...ofWork.map((kind) => [kind, 'work'] as const),
  ...records.map((kind) => [kind, 'records'] as const),
  ...weather.map((kind) => [kind, 'weather'] as const),
  ...others,
]);

/** Kinds of events that may disturb a plan. */
export const disturbingKinds: readonly string[] = [...reasons.keys()];

/** Null: an event of that kind moves nothing of a plan. */
export const reasonOf = (kind: string): DisturbanceReason | null => reasons.get(kind) ?? null;
