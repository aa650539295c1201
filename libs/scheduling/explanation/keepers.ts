import { demands } from '../bounds/ground.ts';
import { hoursOf, indexed, shared } from '../bounds/hours.ts';
import type { Constraint } from '../model/constraint.ts';
import type { Placement } from '../model/plan.ts';
import type { Mode, Problem } from '../model/problem.ts';
import type { Spans } from '../search/crew/compiled/spans.ts';

/** Somebody or something whose hours work has to keep. */
export interface Keeper {
  readonly reason: Constraint;
  /** Work in one piece lies in one of these; work that pauses works in them. */
  readonly spans: Spans;
}

function listOf({ count, starts, ends }: Spans): number[] {
  const list: number[] = [];
  for (let i = 0; i < count; i += 1) list.push(starts[i], ends[i]);
  return list;
}

/** Spans of hours, made when first asked for. */
export interface HoursBook {
  keepers(placement: Placement, mode: Mode): Keeper[];
  common(keepers: readonly Keeper[]): Spans | null;
}

export function hoursBook(problem: Problem): HoursBook {
  const known = new Map<string, Spans>();
  const names = new Map<Spans, string>();
  const spans = (name: string, make: () => readonly number[]): Spans => {
    const made = known.get(name) ?? indexed(problem, shared(problem, [make()]));
    known.set(name, made);
    names.set(made, name);
    return made;
  };
  const hours = (calendar: number, overtime: boolean, breaksToo: boolean): Spans =>
    spans(`${String(calendar)} ${String(overtime)} ${String(breaksToo)}`, () => {
      const { shifts, work } = hoursOf(problem.calendars[calendar], overtime);
      return breaksToo ? shifts : work;
    });
  return {
    keepers({ crew, overtime }, mode) {
      const relieved = !mode.splittable && mode.breaks === 'relieved';
      const people = crew.map(({ builder }): Keeper => {
        const { calendar } = problem.builders[builder];
        return {
          reason: { kind: 'calendar', builder },
          spans: hours(calendar, overtime, relieved),
        };
      });
      const machines = problem.resources.flatMap(({ calendar }, resource): Keeper[] =>
        calendar === null || !demands(mode, resource)
          ? []
          : [{ reason: { kind: 'hours', resource }, spans: hours(calendar, false, false) }],
      );
      return [...people, ...machines];
    },
    common(keepers) {
      if (keepers.length === 0) return null;
      const different = [...new Set(keepers.map((keeper) => keeper.spans))];
      if (different.length === 1) return different[0];
      const name = different.map((one) => names.get(one)).join(' & ');
      return spans(name, () => shared(problem, different.map(listOf)));
    },
  };
}
