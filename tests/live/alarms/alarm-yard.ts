import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { roundTheClock } from '../../support/round-the-clock.ts';
import { twoBoats } from '../../support/two-boats.ts';

type ProcedureInput = NonNullable<YardInput['procedures']>[number];

const minuteMs = 60_000;

/** A whole minute before now. */
export const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / minuteMs - minutes) * minuteMs).toISOString();

/** `14:05` on the wall of the yard. */
export const wallTime = (iso: string): string =>
  toLocal(Math.floor(Date.parse(iso) / minuteMs), 'Europe/London').time;

/** Two coats, the second so many minutes after the first. */
function coats(id: string, opens: number, closes: number): ProcedureInput {
  const coat = (step: string, name: string): ProcedureInput['steps'][number] => ({
    id: step,
    name,
    effort: { fixed: 10, source: 'invented' },
    skill: 'laminating',
    crewMin: 1,
    crewMax: 2,
    air: 'wet',
    material: 'epoxy',
    splittable: false,
    breaks: 'relieved',
  });
  return {
    id,
    version: 1,
    name: `Two coats, ${id}`,
    steps: [coat('one', 'First coat'), coat('two', 'Second coat')],
    links: [
      {
        id: `${id}-window`,
        from: 'one',
        to: 'two',
        opens: { kind: 'after', minutes: opens },
        closes: { kind: 'after', minutes: closes },
      },
    ],
  };
}

/**
 * Two boats whose people are always there. Petrel's hatch is laminated and faired, by the clock of
 * its film; `quick` coats are due from 60 minutes on, `brief` ones within 90.
 */
export function alarmYard(): YardInput {
  const today = toLocal(Math.floor(Date.now() / minuteMs), 'Europe/London').date;
  const yard = roundTheClock(twoBoats(today));
  const [petrel, heron] = yard.boats ?? [];
  const [hatch] = heron.refits?.[0].parts ?? [];
  const part = (id: string, name: string, procedure: string): typeof hatch => ({
    ...hatch,
    id,
    name,
    space: 'bay',
    jobs: [{ id, procedure }],
  });
  const refits = heron.refits?.map((refit) => ({
    ...refit,
    parts: [
      part('locker', 'Locker', 'quick'),
      part('bench', 'Bench', 'quick'),
      part('tiller', 'Tiller', 'brief'),
      part('rail', 'Rail', 'brief'),
    ],
  }));
  return {
    ...yard,
    procedures: [...(yard.procedures ?? []), coats('quick', 60, 1_440), coats('brief', 30, 90)],
    boats: [petrel, { ...heron, refits }],
  };
}
