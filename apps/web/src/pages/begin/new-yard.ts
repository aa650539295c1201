import type { Schema } from '../../api/client.ts';
import { idFor } from '../../form/names.ts';
import type { Person } from '../../session/session.ts';

export type YardFile = Schema<'YardFileInput'>;
type PersonInput = Schema<'PersonInput'>;
type Procedure = Schema<'ProcedureInput'>;

/** `seeds/starting-kit.ts` makes it. */
export type StartingKit = Required<
  Pick<YardFile, 'skills' | 'tools' | 'stocks' | 'materials' | 'fabrics' | 'procedures'>
>;

export type Way = 'alone' | 'with-others' | 'lead';

/** What is asked of whoever begins a yard. */
export interface Answers {
  readonly name: string;
  readonly timeZone: string;
  readonly currency: string;
  readonly way: Way;
  readonly ownBoats: boolean;
  /** ISO weekdays, as texts. */
  readonly days: readonly string[];
  readonly from: string;
  readonly to: string;
  /** Empty: none. */
  readonly breakFrom: string;
  readonly breakTo: string;
  readonly place: string;
  readonly celsius: number | null;
  readonly isHeld: boolean;
}

/** What an able hand has: neither learner nor senior. */
const ABLE = 2;
/** Common practice, no source: a shed without a heater is as far off what is said of it. */
const unheatedBandC = 5;

/** A yard of which nothing is known but its name. `now`: ms since 1970. */
export function emptyYard(answers: Answers, now: number): YardFile {
  const { name, timeZone, currency } = answers;
  return {
    format: 'curewright-yard',
    version: 1,
    id: idFor(name, []),
    name: name.trim(),
    timeZone,
    currency,
    planFrom: new Date(Math.floor(now / 60_000) * 60_000).toISOString(),
  };
}

/** A yard with the kit, whoever begins it in their roles and hours, and the space they named. */
export function yardWithKit(
  answers: Answers,
  me: Pick<Person, 'name' | 'email'>,
  kit: StartingKit,
  now: number,
): YardFile {
  const { way, place, celsius, isHeld } = answers;
  const space = idFor(place, []);
  return {
    ...emptyYard(answers, now),
    ...kit,
    procedures: way === 'alone' ? kit.procedures.map(singleHanded) : kit.procedures,
    people: [founder(answers, me, kit)],
    spaces: [
      {
        id: space,
        name: place.trim(),
        climate: {
          kind: 'heated',
          setPoints: [
            { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', celsius: celsius ?? Number.NaN },
          ],
        },
        bandC: isHeld ? null : unheatedBandC,
        room: way === 'alone' ? 2 : 6,
        dustReaches: [space],
        settlingMinutes: 30,
      },
    ],
  };
}

function founder(
  answers: Answers,
  { name, email }: Pick<Person, 'name' | 'email'>,
  { skills }: StartingKit,
): PersonInput {
  const { way, ownBoats, days, from, to, breakFrom, breakTo } = answers;
  const works = way !== 'lead';
  const breaks = breakFrom === '' || breakTo === '' ? [] : [{ from: breakFrom, to: breakTo }];
  const roles: PersonInput['roles'] = [
    'foreman',
    ...(works ? (['builder'] as const) : []),
    ...(ownBoats ? (['owner'] as const) : []),
  ];
  return {
    id: idFor(name, []),
    name,
    email,
    roles,
    abilities: works ? skills.map(({ id }) => ({ skill: id, level: ABLE })) : [],
    shifts: works ? days.map((day) => ({ weekday: Number(day), from, to, breaks })) : [],
  };
}

/** What takes two is done alone with a jig: common practice, no source. */
function singleHanded(procedure: Procedure): Procedure {
  return {
    ...procedure,
    steps: procedure.steps.map((step) =>
      step.skill === null ? step : { ...step, crewMin: 1, crewMax: 1 },
    ),
  };
}
