import { clean, dusty, keptFor, link, prepares, wiped, type ProcedureInput } from './step.ts';

type StepInput = ProcedureInput['steps'][number];
type LinkInput = ProcedureInput['links'][number];

const wipes = ({ prepares }: StepInput): boolean =>
  (prepares ?? []).some(({ kind }) => kind === 'wipe');

/** `Wash, key, vacuum and wipe the surface` without its wipe. */
const shorter = (name: string): string =>
  name.replace(', vacuum and wipe', ' and vacuum').replace(' and wipe', '');

const withoutWipe = (step: StepInput): StepInput => ({
  ...step,
  name: shorter(step.name),
  prepares: (step.prepares ?? []).filter(({ kind }) => kind !== 'wipe'),
});

/** Just before the coat, so that it is neither wet nor stale under it. Common practice, no source. */
const wipeFor = ({ id, skill }: StepInput): StepInput =>
  clean(
    `wipe-for-${id}`,
    'Vacuum and wipe just before the coat',
    skill ?? '',
    { fixed: 10, perM2: 3 },
    { splittable: false, crewMax: 1, ...keptFor(id) },
  );

/** The other face of a part that was turned over, which nobody could reach before. */
const keyFor = ({ id }: StepInput): StepInput =>
  dusty(
    `key-for-${id}`,
    'Key the face that is up now, and vacuum',
    'joinery',
    { fixed: 10, perM2: 4 },
    prepares(80, 'extract'),
  );

/** A procedure with the face that a turn brings up keyed before it is coated. */
export function bothFaces(procedure: ProcedureInput): ProcedureInput {
  const air = (id: string): string | undefined => procedure.steps.find((one) => one.id === id)?.air;
  const turns = procedure.steps.filter(({ move }) => move?.kind === 'turn').map(({ id }) => id);
  const bare = procedure.links.filter(({ from, to }) => turns.includes(from) && air(to) === 'wet');
  return {
    ...procedure,
    steps: procedure.steps.flatMap((one) =>
      bare.some(({ to }) => to === one.id) ? [keyFor(one), one] : [one],
    ),
    links: procedure.links.flatMap((one) =>
      bare.includes(one)
        ? [link(one.from, `key-for-${one.to}`), link(`key-for-${one.to}`, one.to)]
        : [one],
    ),
  };
}

/**
 * A procedure whose wipes are steps of their own: where a longer step ends with one and nothing
 * says how soon the coat has to follow, a wipe may be of the evening before. Generated yards keep
 * the procedures as they are: plans of them are known (`generate/tight.json`).
 */
export function ownWipe(procedure: ProcedureInput): ProcedureInput {
  const step = (id: string): StepInput | undefined => procedure.steps.find((one) => one.id === id);
  const late = ({ from, to, closes }: LinkInput): boolean => {
    const [before, coat] = [step(from), step(to)];
    return before !== undefined && coat?.air === 'wet' && closes === null && wipes(before);
  };
  const links = procedure.links.filter(late);
  const [from, to] = [links.map((one) => one.from), links.map((one) => one.to)];
  return {
    ...procedure,
    steps: procedure.steps.flatMap((one) => [
      ...(to.includes(one.id) ? [wipeFor(one)] : []),
      from.includes(one.id) ? withoutWipe(one) : one,
    ]),
    links: procedure.links.flatMap((one) =>
      late(one)
        ? [link(one.from, `wipe-for-${one.to}`), wiped(`wipe-for-${one.to}`, one.to)]
        : [one],
    ),
  };
}
