import type { Placement, Plan } from './plan.ts';
import type {
  Ability,
  Activity,
  Builder,
  Calendar,
  Interval,
  Lag,
  LagFunction,
  Mode,
  OpenSurface,
  Problem,
  Refit,
  Resource,
  Space,
} from './problem.ts';

/** Problem and plan as they were stored in version 1; nothing new is ever written in it. */

type Calendar1 = Omit<Calendar, 'overtime' | 'source'>;

interface Builder1 extends Omit<Builder, 'abilities' | 'cost' | 'unlimited'> {
  readonly abilities: readonly Omit<Ability, 'needsSenior'>[];
}

interface Space1 extends Omit<Space, 'dustReaches'> {
  readonly dustReaches: readonly number[];
}

export interface Mode1 extends Omit<
  Mode,
  'consumes' | 'cleanDown' | 'forbidden' | 'movesTo' | 'barrier' | 'slots' | 'cost'
> {
  readonly forbiddenStarts: readonly Interval[];
}

export interface Activity1 extends Omit<Activity, 'modes' | 'releases' | 'parts'> {
  readonly modes: readonly Mode1[];
  readonly release: number;
}

interface Lag1 extends Omit<Lag, 'fns'> {
  readonly fn: LagFunction;
}

interface Surface1 extends Omit<OpenSurface, 'id' | 'until' | 'coveredBy'> {
  readonly until: LagFunction;
}

export interface Problem1 extends Pick<
  Problem,
  'origin' | 'horizon' | 'skills' | 'tables' | 'choices'
> {
  readonly version: 1;
  readonly calendars: readonly Calendar1[];
  readonly builders: readonly Builder1[];
  readonly resources: readonly Omit<Resource, 'calendar'>[];
  readonly spaces: readonly Space1[];
  readonly activities: readonly Activity1[];
  readonly lags: readonly Lag1[];
  readonly surfaces: readonly Surface1[];
  readonly refits: readonly Omit<Refit, 'handovers'>[];
  readonly tolerances: readonly [number, number];
}

export interface Plan1 extends Pick<Plan, 'branches' | 'finishes'> {
  readonly placements: readonly Omit<Placement, 'overtime' | 'slot'>[];
  readonly values: readonly [number, number];
}
