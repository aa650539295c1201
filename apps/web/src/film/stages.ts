import type { Schema } from '../api/client.ts';

/** A milestone of a film in a plan: the safe moment, and between which two the truth is expected. */
type FilmMark = Schema<'PlanTask'>['film'][number];

/** The same without what is not drawn; `at` null: beyond what the plan looks at. */
export interface Mark {
  readonly milestone: FilmMark['milestone'];
  readonly at: string | null;
}

export const marksOf = (film: readonly FilmMark[]): Mark[] =>
  film.map(({ milestone, when }) => ({ milestone, at: when?.at ?? null }));

/** What a hand would find: it runs, it sticks, it takes a nail's mark, it can be sanded, it is cured. */
export const stages = ['liquid', 'tacky', 'green', 'hard', 'cured'] as const;
export type Stage = (typeof stages)[number];

export interface Stretch {
  readonly stage: Stage;
  /** ms since the epoch; Infinity: beyond what the plan looks at. */
  readonly from: number;
  readonly until: number;
}

/** The milestones that begin a stage, the first that the material has counts. */
const begins: Readonly<Record<Exclude<Stage, 'liquid'>, readonly Mark['milestone'][]>> = {
  tacky: ['tacky-opens', 'gel'],
  green: ['tack-free', 'tacky-closes'],
  hard: ['sandable', 'handle'],
  cured: ['cured'],
};

/**
 * The stages of a film laid until `laid` (ms). Materials reach their milestones in different orders,
 * and some moments are the earliest that one may come, others the latest: a stage begins when the
 * one ahead of it has, and none goes on once the film is hard, or cured. What would be empty, or is
 * not known of the material, is left out.
 */
export function stagesOf(laid: number, marks: readonly Mark[]): Stretch[] {
  const at = (stage: keyof typeof begins): number | undefined => {
    const mark = begins[stage]
      .map((name) => marks.find(({ milestone }) => milestone === name))
      .find((found) => found !== undefined);
    if (mark === undefined) return undefined;
    return mark.at === null ? Infinity : Date.parse(mark.at);
  };
  const cured = at('cured') ?? Infinity;
  const hard = Math.min(at('hard') ?? Infinity, cured);
  const moments: { readonly stage: Stage; readonly from: number }[] = [
    { stage: 'liquid', from: laid },
  ];
  const put = (stage: keyof typeof begins, most: number): void => {
    const moment = at(stage);
    const before = moments.at(-1)?.from ?? laid;
    if (moment === undefined || before === Infinity) return;
    moments.push({ stage, from: Math.min(Math.max(moment, before), Math.max(most, before)) });
  };
  put('tacky', hard);
  put('green', hard);
  put('hard', cured);
  put('cured', Infinity);
  return moments
    .map(({ stage, from }, k) => ({ stage, from, until: moments[k + 1]?.from ?? Infinity }))
    .filter(({ from, until }) => until > from);
}

export const stageAt = (stretches: readonly Stretch[], at: number): Stage | null =>
  stretches.find(({ from, until }) => from <= at && at < until)?.stage ?? null;
