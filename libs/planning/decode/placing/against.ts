import { isAble, type Trial } from '#scheduling/explanation/trial.ts';
import type { Violation } from '#scheduling/checker/violation.ts';
import type { Constraint } from '#scheduling/model/constraint.ts';
import { lagAt } from '#scheduling/model/lag.ts';
import type { Placement } from '#scheduling/model/plan.ts';
import { rowOf, type PlanMap, type Row } from '../../compile/trace/map.ts';
import { causeOf, taskName, type CauseSite } from '../explain/cause.ts';
import { asks, waits } from '../explain/sentences.ts';
import type { Moments } from '../reading/moments.ts';
import { broken, butPlanned, learnAlone, noShift, notAble } from './words.ts';

/** Something that a task put by hand would break. */
export interface Against {
  /** Kind of constraint, `lag:<kind>` of a lag; `begun`, `past` and `crew` of what no constraint says. */
  readonly reason: string;
  readonly words: string;
  /** What in the yard asks for it; null where nothing written there does. */
  readonly row: Row | null;
  /** The other tasks it is about. */
  readonly tasks: readonly string[];
}

/** Where words about a trial are looked up. */
export interface Ground {
  readonly trial: Trial;
  readonly map: PlanMap;
  readonly site: CauseSite;
  readonly at: Moments;
}

export function groundOf(trial: Trial, map: PlanMap, at: Moments): Ground {
  const placed: (Placement | undefined)[] = trial.problem.activities.map(() => undefined);
  for (const placement of trial.plan.placements) placed[placement.activity] = placement;
  return { trial, map, at, site: { problem: trial.problem, map, placed, cure: () => null } };
}

const same = (a: Constraint, b: Constraint): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Of a lag that is not kept: who waits for whom until when, and what is planned instead. */
function lagWords({ trial, site, map, at }: Ground, lag: number): string {
  const { problem, placement } = trial;
  const { from, to, fromAnchor, toAnchor } = problem.lags[lag];
  const [before, after] = [site.placed[from], site.placed[to]];
  if (before === undefined || after === undefined) return '';
  const until = lagAt(problem, problem.lags[lag], before.mode, before[fromAnchor]);
  const held = { from: from === to ? null : from, to, until } as const;
  const sentence = waits(causeOf(site, { ...held, from, reason: { kind: 'lag', lag } }), {
    to: taskName(map, to),
    from: held.from === null ? null : taskName(map, held.from),
    until: at.words(until),
  });
  return to === placement.activity ? sentence : butPlanned(sentence, at.words(after[toAnchor]));
}

/** Those of the crew whom a finding about it is about. */
function misfits({ trial: { problem, placement } }: Ground, kind: Violation['kind']): number[] {
  const mode = problem.activities[placement.activity].modes[placement.mode];
  const found = placement.crew.filter(({ builder, demand }) => {
    const asked = mode.crew[demand];
    if (kind !== 'senior') return !isAble(problem, builder, asked);
    const { abilities } = problem.builders[builder];
    return abilities.some(({ skill, needsSenior }) => skill === asked.skill && needsSenior);
  });
  return found.map(({ builder }) => builder);
}

const personName = (map: PlanMap, builder: number): string =>
  map.rows[`person:${map.people[builder]}`].name;

function crewWords(ground: Ground, kind: Violation['kind']): string {
  const { map, trial } = ground;
  const task = taskName(map, trial.placement.activity);
  const people = misfits(ground, kind).map((builder) => personName(map, builder));
  return kind === 'senior' ? learnAlone(people, task) : notAble(people, task);
}

/** The rule itself, where nothing says until when one would have to wait. */
function ruleWords(
  { trial, site, map, at }: Ground,
  violation: Violation,
  reason: Constraint,
): string {
  const { problem, placement } = trial;
  const to = reason.kind === 'hold' ? problem.holds[reason.hold].activity : placement.activity;
  const cause = causeOf(site, { from: null, to, reason, until: null });
  const rule = asks(cause, { to: taskName(map, to), from: null }, at.words(problem.horizon));
  const others = violation.activities.filter((one) => one !== placement.activity && one !== to);
  return broken(
    rule,
    others.map((one) => taskName(map, one)),
  );
}

function wordsOf(ground: Ground, violation: Violation, reason: Constraint): string {
  const { trial, site, map, at } = ground;
  const { activity } = trial.placement;
  if (reason.kind === 'lag') return lagWords(ground, reason.lag);
  if (reason.kind === 'crew') return crewWords(ground, violation.kind);
  const met = trial.obstacles.find((obstacle) => same(obstacle.reason, reason));
  if (met !== undefined && violation.activities.includes(activity)) {
    return waits(causeOf(site, { ...met, to: activity }), {
      to: taskName(map, activity),
      from: met.from === null ? null : taskName(map, met.from),
      until: at.words(met.until),
    });
  }
  if (reason.kind === 'calendar')
    return noShift(personName(map, reason.builder), taskName(map, activity));
  return ruleWords(ground, violation, reason);
}

/** What the checker found, in the yard's words. */
export function againstOf(ground: Ground, violation: Violation): Against {
  const { trial, map } = ground;
  const { constraint, activities, message } = violation;
  if (constraint === null) throw new Error(`nothing in the yard asks for it: ${message}`);
  const { lags } = trial.problem;
  return {
    reason: constraint.kind === 'lag' ? `lag:${lags[constraint.lag].kind}` : constraint.kind,
    words: wordsOf(ground, violation, constraint),
    row: rowOf(map, trial.problem, constraint),
    tasks: activities.flatMap((one) => (one === trial.placement.activity ? [] : [map.tasks[one]])),
  };
}
