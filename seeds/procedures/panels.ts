import {
  after,
  bondOrPrepare,
  clean,
  dusty,
  film,
  holdPoint,
  keptFor,
  link,
  mixes,
  prepares,
  wet,
  wiped,
  type HoldInput,
  type ProcedureInput,
} from './step.ts';

const resin = 'demo-laminating-epoxy';
const glue = 'demo-thickened-glue';
const biax = 'demo-biax-600';

/** Tabbing stepped 75, 100 and 150 mm wide: common practice, no source. */
const tabbing = mixes({
  kind: 'tabbing',
  plies: [75, 100, 150].map((widthMm) => ({ fabric: biax, widthMm })),
});
/** A skin of two plies. */
const skin = mixes({ kind: 'laminate', plies: [{ fabric: biax, layers: 2 }] });

/** The table a panel is laid up on, kept until it may come off. */
const table = (until: HoldInput['until']): HoldInput => ({
  id: 'table',
  tool: 'laminating-table',
  until,
});

/** A sandwich panel whose core is sealed all round before the skins go on. */
export const coredPanel: ProcedureInput = {
  id: 'cored-panel',
  version: 1,
  name: 'Cored panel with closed edges',
  steps: [
    dusty(
      'cut-core',
      'Cut the core, rebate its edges and vacuum',
      'joinery',
      { fixed: 40, perM2: 25, perEdgeM: 14 },
      prepares(80, 'extract'),
    ),
    wet(
      'close-edges',
      'Close the edges with thickened resin',
      'laminating',
      glue,
      { fixed: 15, perEdgeM: 7 },
      // A rebate 20 mm wide and 8 mm deep.
      mixes({ kind: 'glue-line', widthMm: 20, gramsPerM2: 8400 }),
    ),
    dusty(
      'level-edges',
      'Wash, level, vacuum and wipe the closed edges',
      'fairing',
      { fixed: 20, perEdgeM: 10 },
      prepares('wash', 80, 'extract', 'wipe'),
    ),
    wet(
      'skin-one',
      'Laminate the first skin',
      'laminating',
      resin,
      { fixed: 30, perM2: 50 },
      {
        ...skin,
        holds: [table([{ kind: 'step', step: 'turn', anchor: 'finish' }])],
        price: 9000,
      },
    ),
    clean(
      'turn',
      'Turn the panel over',
      'joinery',
      { fixed: 20 },
      {
        crewMin: 2,
        crewMax: 2,
        splittable: false,
        floorMinutes: 10,
        move: { kind: 'turn' },
      },
    ),
    wet(
      'skin-two',
      'Laminate the second skin',
      'laminating',
      resin,
      { fixed: 30, perM2: 50 },
      { ...skin, holds: [table([film('handle')])], price: 9000 },
    ),
    dusty('trim', 'Trim the panel to size', 'joinery', { fixed: 20, perEdgeM: 12 }),
  ],
  links: [
    link('cut-core', 'close-edges'),
    link('close-edges', 'level-edges', film('sandable')),
    link('level-edges', 'skin-one', after(15)),
    link('skin-one', 'turn', film('handle')),
    link('turn', 'skin-two'),
    link('skin-two', 'trim', film('sandable')),
  ],
};

const tab = bondOrPrepare('fillet', 'tab', 'laminating', { fixed: 20, perJointM: 10 });

/** Panels glued to each other: locker, seat, cockpit sole. */
export const panelsBonded: ProcedureInput = {
  id: 'panels-bonded',
  version: 1,
  name: 'Panels assembled and bonded',
  steps: [
    clean('dry-fit', 'Dry-fit and mark', 'joinery', { fixed: 45, perJointM: 24 }),
    dusty(
      'key',
      'Wash and key the joint faces and vacuum',
      'joinery',
      { fixed: 10, perJointM: 4 },
      prepares('wash', 80, 'extract'),
    ),
    clean(
      'tape',
      'Tape off and wipe the joints',
      'laminating',
      { fixed: 10, perJointM: 5 },
      prepares('wipe'),
    ),
    wet(
      'glue',
      'Glue with thickened resin',
      'laminating',
      glue,
      { fixed: 45, perJointM: 14 },
      {
        ...mixes({ kind: 'glue-line', widthMm: 20 }),
        crewMin: 2,
        crewMax: 2,
        holds: [{ id: 'clamps', tool: 'clamp-set', until: [film('handle')] }],
      },
    ),
    wet(
      'fillet',
      'Fillet the joints',
      'laminating',
      glue,
      { fixed: 15, perJointM: 9 },
      mixes({ kind: 'fillet', radiusMm: 15, sides: 2 }),
    ),
    ...tab.steps,
    wet('tab', 'Tab the joints', 'laminating', resin, { fixed: 25, perJointM: 16 }, tabbing),
    clean('strip', 'Strip tape and clamps, clean up', 'joinery', { fixed: 15, perJointM: 3 }),
  ],
  links: [
    link('dry-fit', 'key'),
    link('key', 'tape'),
    link('tape', 'glue'),
    link('glue', 'fillet', film('tacky-opens'), film('bond-closes')),
    ...tab.links,
    link('tab', 'strip', film('handle')),
  ],
  choices: [tab.choice],
};

const side = bondOrPrepare('bed', 'tab-fore', 'laminating', { fixed: 20, perJointM: 10 });

/** Both faces' tabbing goes onto the same fillets: bonded, the aft face has to keep their window too. */
const aftOnFillet = link('bed', 'tab-aft', film('bond-opens'), film('bond-closes'));

/**
 * A bulkhead carried in when it may be handled, bedded on foam and tabbed to the hull on both
 * faces; a surveyor sees the tabbing before it is dressed.
 */
export const bulkheadTabbed: ProcedureInput = {
  id: 'bulkhead-tabbed',
  version: 1,
  name: 'Bulkhead tabbed to a hull',
  steps: [
    clean(
      'carry',
      'Carry the bulkhead in',
      'joinery',
      { fixed: 40 },
      {
        crewMin: 2,
        crewMax: 2,
        splittable: false,
        floorMinutes: 15,
        move: { kind: 'destination' },
      },
    ),
    clean(
      'fit',
      'Template, fit and shore the bulkhead',
      'joinery',
      { fixed: 90, perJointM: 30 },
      {
        crewMin: 2,
        crewMax: 2,
        joins: true,
        holds: [
          {
            id: 'shores',
            tool: 'clamp-set',
            until: [{ kind: 'step', step: 'tab-fore', anchor: 'finish' }],
          },
        ],
      },
    ),
    dusty(
      'grind',
      'Wash and grind the landing on the hull',
      'laminating',
      { fixed: 15, perJointM: 12 },
      { ...prepares('wash', 40), joins: true },
    ),
    clean(
      'wipe',
      'Vacuum and wipe the landing',
      'laminating',
      { fixed: 10, perJointM: 3 },
      { splittable: false, crewMax: 1, joins: true, ...keptFor('bed') },
    ),
    wet(
      'bed',
      'Bed on foam and fillet both faces',
      'laminating',
      glue,
      { fixed: 20, perJointM: 9 },
      { ...mixes({ kind: 'fillet', radiusMm: 12, sides: 2 }), joins: true, price: 3500 },
    ),
    ...side.steps,
    wet(
      'tab-fore',
      'Tab the fore face',
      'laminating',
      resin,
      { fixed: 25, perJointM: 15 },
      tabbing,
    ),
    wet('tab-aft', 'Tab the aft face', 'laminating', resin, { fixed: 25, perJointM: 15 }, tabbing),
    holdPoint('survey', 'Surveyor looks at the tabbing', { slots: 'surveyor' }),
    dusty('dress', 'Dress the edges of the tabbing', 'fairing', { fixed: 10, perJointM: 8 }),
  ],
  links: [
    link('carry', 'fit'),
    link('fit', 'grind'),
    link('grind', 'wipe'),
    wiped('wipe', 'bed'),
    ...side.links,
    link('tab-fore', 'tab-aft', after(0), film('bond-closes')),
    aftOnFillet,
    link('tab-aft', 'survey', film('handle')),
    link('survey', 'dress'),
    link('tab-aft', 'dress', film('sandable')),
    link('tab-fore', 'dress', film('sandable')),
  ],
  choices: [
    {
      ...side.choice,
      branches: side.choice.branches.map((branch) =>
        branch.id === 'bond' ? { ...branch, links: [...branch.links, aftOnFillet.id] } : branch,
      ),
    },
  ],
};
