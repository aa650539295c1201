import type { Schema } from '../../api/client.ts';
import { freshKey } from '../../api/fresh-key.ts';
import { idFor } from '../../form/names.ts';
import { deciding as texts } from '../../texts/deciding.ts';

type Part = Schema<'Part'>;
type ChangeOf = Schema<'ChangeOfInput'>;

/** What stands in the form. Measures are null where the part keeps its own. */
export interface Wanted {
  readonly kind: ChangeOf['kind'];
  readonly partId: string;
  readonly name: string;
  readonly areaM2: number | null;
  readonly edgeM: number | null;
  readonly jointM: number | null;
  readonly words: string;
}

export interface Placed {
  readonly part: Part;
  readonly refitId: string;
  /** As it stands in a choice of parts. */
  readonly label: string;
}

/** The parts of refits; which refit or boat they are of is said where there are several. */
export function partsOf(
  boats: readonly Pick<Schema<'Boat'>, 'name' | 'refits'>[],
): readonly Placed[] {
  const refits = boats.flatMap((boat) => boat.refits.map((refit) => ({ boat, refit })));
  const hasOne = refits.length === 1;
  return refits.flatMap(({ boat, refit }) =>
    refit.parts.map((part) => ({
      part,
      refitId: refit.id,
      label: hasOne
        ? part.name
        : texts.partOf(part.name, boats.length > 1 ? boat.name : refit.name),
    })),
  );
}

/** Ids are taken in the whole yard, of which an owner sees the own part: a few letters make it unlike others. */
const apart = (): string => freshKey().slice(0, 6);

/** What is sent. */
export function changeOf(
  { kind, partId, name, areaM2, edgeM, jointM }: Wanted,
  { part, refitId }: Pick<Placed, 'part' | 'refitId'>,
  letters = apart(),
): ChangeOf {
  switch (kind) {
    case 'drop-part':
      return { kind, partId };
    case 'size':
      return {
        kind,
        partId,
        ...(areaM2 === null ? {} : { areaM2 }),
        ...(edgeM === null ? {} : { edgeM }),
        ...(jointM === null ? {} : { jointM }),
      };
    case 'add-part':
      return {
        kind,
        refitId,
        part: likeIt(part, name, `${idFor(name, [])}-${letters}`, { areaM2, edgeM, jointM }),
      };
  }
}

/** Another of the kind: the same work on it, in the order it has there. */
function likeIt(
  part: Part,
  name: string,
  id: string,
  { areaM2, edgeM, jointM }: Pick<Wanted, 'areaM2' | 'edgeM' | 'jointM'>,
): Schema<'PartInput'> {
  const { space, layers, jobs } = part;
  const ids = new Map(jobs.map((job, at) => [job.id, `${id}-${String(at + 1)}`]));
  return {
    id,
    name,
    space,
    areaM2: areaM2 ?? part.areaM2,
    edgeM: edgeM ?? part.edgeM,
    jointM: jointM ?? part.jointM,
    layers,
    jobs: jobs.map(({ id: was, procedure, after, destination }) => ({
      id: ids.get(was) ?? id,
      procedure,
      // What other parts it waits for there is not this one's matter.
      after: after.flatMap((one) => ids.get(one) ?? []),
      destination,
    })),
  };
}
