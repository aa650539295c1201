import type { Compiled } from '../compiled/compiled.ts';
import { MOST_CREWS, type CrewOption, type Tables } from '../compiled/crews.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { endOf, nextInside } from '../compiled/spans.ts';
import type { State } from '../state/state.ts';
import { aloneFrom } from './crew-fit.ts';
import { soonestOf, type Soonest } from './soonest.ts';

/** From when each crew of a mode could begin, as far as each of its people alone says. */
export interface Manning {
  /** By crew; and where work may even begin in a break that is relieved. */
  readonly froms: Float64Array;
  readonly eased: Float64Array;
  /** By crew, when it would finish at the earliest. */
  readonly ends: Float64Array;
  /** Looks at the crews of a mode, none of which can begin before `base`. */
  begin(mode: CompiledMode, crews: readonly CrewOption[], base: number): void;
  /** All crews by when they would finish, those with overtime `thrift` minutes later. */
  ranked(thrift: number): Soonest;
  /** That moment of a crew. */
  readonly moments: Float64Array;
}

/** The crews of a mode as plain numbers, so that looking at all of them touches little memory. */
interface Roll {
  /** Those who can be in one place only, each once, and once more with overtime. */
  readonly people: readonly { readonly builder: number; readonly tables: Tables }[];
  /** By crew, its people's places in that list: from `first[crew]` until `first[crew + 1]`. */
  readonly members: Int32Array;
  readonly first: Int32Array;
}

function rollOf(crews: readonly CrewOption[]): Roll {
  const people: { builder: number; tables: Tables }[] = [];
  const places = new Map<number, number>();
  const members: number[] = [];
  const first = new Int32Array(crews.length + 1);
  crews.forEach(({ booked, alone, overtime }, c) => {
    booked.forEach((builder, k) => {
      const key = 2 * builder + Number(overtime);
      const place = places.get(key) ?? people.push({ builder, tables: alone[k] }) - 1;
      places.set(key, place);
      members.push(place);
    });
    first[c + 1] = members.length;
  });
  return {
    people,
    members: Int32Array.from(members),
    first,
  };
}

/** When a crew that begins no earlier than `from` is done at the earliest. */
function endAtLeast(
  { pauses }: CompiledMode,
  { table, minutes }: CrewOption,
  from: number,
): number {
  if (!pauses || minutes === 0 || from === Infinity) return from + minutes;
  const start = nextInside(table.work, from);
  const end = start < 0 ? -1 : endOf(table.work, start, minutes);
  return end < 0 ? Infinity : end;
}

export function manningOf(compiled: Compiled, state: State): Manning {
  const froms = new Float64Array(MOST_CREWS);
  const eased = new Float64Array(MOST_CREWS);
  const ends = new Float64Array(MOST_CREWS);
  const moments = new Float64Array(MOST_CREWS);
  const free = new Float64Array(2 * compiled.problem.builders.length);
  /** Made when first asked for; modes with the same demands share their crews. */
  const rolls = new Map<readonly CrewOption[], Roll>();
  let listed: readonly CrewOption[] = [];
  const soonest = soonestOf(MOST_CREWS);

  const rollFor = (crews: readonly CrewOption[]): Roll => {
    let roll = rolls.get(crews);
    if (roll === undefined) {
      roll = rollOf(crews);
      rolls.set(crews, roll);
    }
    return roll;
  };

  /** By crew, from when its people could begin, each alone. */
  const fill = (
    mode: CompiledMode,
    { people, members, first }: Roll,
    base: number,
    relieved: boolean,
    to: Float64Array,
  ): void => {
    for (let p = 0; p < people.length; p += 1) {
      const { builder, tables } = people[p];
      const table = relieved ? tables.relieved : tables.table;
      free[p] = aloneFrom(state, mode, table, builder, mode.least, base);
    }
    for (let c = 0; c + 1 < first.length; c += 1) {
      let from = base;
      for (let i = first[c]; i < first[c + 1]; i += 1) {
        const one = free[members[i]];
        if (one > from) from = one;
      }
      to[c] = from;
    }
  };

  return {
    froms,
    eased,
    ends,
    moments,
    begin(mode, crews, base) {
      listed = crews;
      const roll = rollFor(crews);
      fill(mode, roll, base, false, froms);
      if (mode.relieved && !mode.pauses) fill(mode, roll, base, true, eased);
      else for (let c = 0; c < crews.length; c += 1) eased[c] = froms[c];
      for (let c = 0; c < crews.length; c += 1) ends[c] = endAtLeast(mode, crews[c], froms[c]);
    },
    ranked(thrift) {
      for (let c = 0; c < listed.length; c += 1)
        moments[c] = listed[c].overtime ? ends[c] + thrift : ends[c];
      soonest.begin(moments, listed.length);
      return soonest;
    },
  };
}
