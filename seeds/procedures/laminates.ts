import {
  after,
  bondOrPrepare,
  clean,
  dusty,
  film,
  keptFor,
  link,
  mixes,
  orPeelPly,
  prepares,
  wet,
  wiped,
  type ProcedureInput,
} from './step.ts';

const resin = 'demo-laminating-epoxy';
const filler = 'demo-fairing-filler';
const biax = 'demo-biax-600';

/** Cloth hung from below onto resin that has begun to tack; a sheet keeps the shed's dust out. */
export const overheadLaminate: ProcedureInput = {
  id: 'overhead-laminate',
  version: 1,
  name: 'Overhead laminate',
  steps: [
    clean(
      'sheet',
      'Hang the dust sheet in the companionway',
      'joinery',
      { fixed: 25 },
      {
        crewMax: 1,
        onPart: false,
        splittable: false,
        barrier: { barrier: 'companionway-sheet', closes: true },
      },
    ),
    dusty(
      'grind',
      'Wash and grind the overhead',
      'laminating',
      { fixed: 30, perM2: 35 },
      prepares('wash', 40),
    ),
    clean(
      'wipe',
      'Vacuum and wipe',
      'laminating',
      { fixed: 10, perM2: 4 },
      { splittable: false, ...keptFor('wet-out') },
    ),
    wet(
      'wet-out',
      'Wet out the overhead',
      'laminating',
      resin,
      { fixed: 10, perM2: 9 },
      mixes({ kind: 'coat' }),
    ),
    wet(
      'hang',
      'Hang the cloth on the tacky resin',
      'laminating',
      resin,
      { fixed: 20, perM2: 16 },
      {
        ...mixes({ kind: 'laminate', plies: [{ fabric: biax, layers: 1 }] }),
        crewMin: 2,
        crewMax: 3,
      },
    ),
    wet(
      'consolidate',
      'Consolidate and roll out the air',
      'laminating',
      resin,
      { fixed: 10, perM2: 10 },
      mixes({ kind: 'coat', gramsPerM2: 60 }),
    ),
    dusty('trim', 'Trim and dress the laminate', 'fairing', { fixed: 15, perM2: 8 }),
  ],
  links: [
    link('grind', 'wipe'),
    link('sheet', 'wet-out'),
    wiped('wipe', 'wet-out'),
    link('wet-out', 'hang', film('tacky-opens'), film('tacky-closes')),
    link('hang', 'consolidate', after(10), film('open-time'), 'same'),
    link('consolidate', 'trim', film('sandable')),
  ],
};

const fill = orPeelPly(
  bondOrPrepare('laminate', 'fill', 'fairing', { fixed: 20, perM2: 22 }),
  'laminate',
  'fill',
  resin,
);

/** Delaminated skin ground out, scarfed 12:1 (Gougeon Brothers' Epoxyworks) and laid up again. */
export const delaminatedPatch: ProcedureInput = {
  id: 'delaminated-patch',
  version: 1,
  name: 'Delaminated patch',
  steps: [
    dusty(
      'grind',
      'Wash, and grind out the delaminated skin',
      'fairing',
      { fixed: 25, perM2: 80 },
      prepares('wash', 40),
    ),
    dusty('scarf', 'Scarf the edges 12:1', 'laminating', { fixed: 15, perEdgeM: 16 }, prepares(40)),
    clean(
      'wipe',
      'Vacuum and wipe',
      'laminating',
      { fixed: 10, perM2: 6 },
      { splittable: false, crewMax: 1, ...keptFor('laminate') },
    ),
    wet(
      'laminate',
      'Laminate the patch',
      'laminating',
      resin,
      { fixed: 35, perM2: 80 },
      mixes({ kind: 'laminate', plies: [{ fabric: biax, layers: 4 }] }),
    ),
    ...fill.steps,
    wet(
      'fill',
      'Fill over the patch',
      'fairing',
      filler,
      { fixed: 15, perM2: 30 },
      { ...mixes({ kind: 'fill', mm: 2 }), bonding: 'cosmetic' },
    ),
    dusty('sand', 'Wash and sand the patch fair', 'fairing', { fixed: 25, perM2: 80 }),
  ],
  links: [
    link('grind', 'scarf'),
    link('scarf', 'wipe'),
    wiped('wipe', 'laminate'),
    ...fill.links,
    link('fill', 'sand', film('sandable')),
  ],
  choices: [fill.choice],
};
