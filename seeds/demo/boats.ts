import type { YardInput } from '#planning/yard/yard.ts';

type BoatInput = NonNullable<YardInput['boats']>[number];
type PartInput = NonNullable<NonNullable<BoatInput['refits']>[number]['parts']>[number];

type JobInput = NonNullable<PartInput['jobs']>[number];
type LayerInput = NonNullable<PartInput['layers']>[number];

interface Size {
  readonly areaM2: number;
  readonly edgeM?: number;
  readonly jointM?: number;
  readonly layers?: LayerInput[];
}

/** What parts are made of, the outermost last. */
const laminate: LayerInput[] = [{ base: 'polyester', surface: 'sealed', mm: 9 }];
const gelCoated: LayerInput[] = [...laminate, { base: 'polyester', surface: 'sealed', mm: 0.5 }];
const foam: LayerInput[] = [{ base: 'foam', mm: 20 }];
const epoxyPanel: LayerInput[] = [{ base: 'epoxy', surface: 'sealed', mm: 10 }];

const job = (
  id: string,
  procedure: string,
  after: readonly string[] = [],
  rest: Partial<JobInput> = {},
): JobInput => ({ id, procedure, after: [...after], ...rest });

const part = (
  id: string,
  name: string,
  space: string,
  size: Size,
  ...jobs: readonly JobInput[]
): PartInput => ({ id, name, space, ...size, jobs: [...jobs] });

export const boats: readonly BoatInput[] = [
  {
    id: 'kornog',
    name: 'Kornog',
    owner: 'odile',
    refits: [
      {
        id: 'kornog-2026',
        name: 'Kornog, new main bulkhead',
        release: '2026-11-30T07:00:00+01:00',
        promised: '2026-12-18T16:00:00+01:00',
        weight: 3,
        parts: [
          part('kornog-frame', 'Hull at the main bulkhead', 'kornog-inside', {
            areaM2: 3,
            layers: laminate,
          }),
          part(
            'kornog-bulkhead',
            'Main bulkhead',
            'bench-north',
            { areaM2: 5.4, edgeM: 10.5, jointM: 9.5, layers: foam },
            job('kornog-panel', 'cored-panel', [], {
              waitsFor: [{ delivery: 'foam-core', step: 'cut-core' }],
            }),
            job('kornog-bulkhead', 'bulkhead-tabbed', ['kornog-panel'], {
              destination: 'kornog-inside',
              joins: ['kornog-frame'],
            }),
          ),
          part(
            'kornog-overhead',
            'Saloon overhead',
            'kornog-inside',
            { areaM2: 7.5, layers: laminate },
            job('kornog-overhead', 'overhead-laminate'),
          ),
          part(
            'kornog-lockers',
            'Saloon lockers',
            'bench-south',
            { areaM2: 5, edgeM: 14, jointM: 14, layers: epoxyPanel },
            job('kornog-lockers', 'panels-bonded'),
          ),
          part(
            'kornog-topside',
            'Topside at the chainplate',
            'shed',
            { areaM2: 2.6, edgeM: 6.4, layers: gelCoated },
            job('kornog-topside', 'delaminated-patch'),
            job('kornog-topside-fair', 'fair-and-sand', ['kornog-topside']),
          ),
          part(
            'kornog-hull',
            'Hull',
            'shed',
            { areaM2: 30, layers: gelCoated },
            job('kornog-lift', 'crane-lift', [
              'kornog-bulkhead',
              'kornog-overhead',
              'kornog-lockers',
              'kornog-topside-fair',
            ]),
          ),
        ],
      },
    ],
  },
  {
    id: 'tangon',
    name: 'Tangon',
    owner: 'bastien',
    refits: [
      {
        id: 'tangon-2026',
        name: 'Tangon, after a grounding',
        release: '2026-11-30T07:00:00+01:00',
        promised: '2026-12-11T16:00:00+01:00',
        weight: 2,
        parts: [
          part('tangon-frame', 'Hull at the half bulkhead', 'tangon-inside', {
            areaM2: 2,
            layers: laminate,
          }),
          part(
            'tangon-bulkhead',
            'Half bulkhead',
            'bench-south',
            { areaM2: 2.8, edgeM: 7.2, jointM: 6.8, layers: foam },
            job('tangon-panel', 'cored-panel'),
            job('tangon-bulkhead', 'bulkhead-tabbed', ['tangon-panel'], {
              destination: 'tangon-inside',
              joins: ['tangon-frame'],
            }),
          ),
          part(
            'tangon-keel-stub',
            'Keel stub',
            'shed',
            { areaM2: 3.2, edgeM: 7, layers: laminate },
            job('tangon-keel-stub', 'delaminated-patch'),
            job('tangon-keel-fair', 'fair-and-sand', ['tangon-keel-stub']),
          ),
          part(
            'tangon-hatch',
            'Fore hatch',
            'spray-room',
            { areaM2: 0.9, edgeM: 3.8, layers: gelCoated },
            job('tangon-hatch', 'hatch-non-skid'),
          ),
          part(
            'tangon-rudder',
            'Rudder',
            'bench-north',
            { areaM2: 2.4, layers: gelCoated },
            job('tangon-rudder', 'fair-and-sand'),
          ),
        ],
      },
    ],
  },
  {
    id: 'petite-ourse',
    name: 'Petite Ourse',
    owner: 'ilsa',
    refits: [
      {
        id: 'petite-ourse-2026',
        name: 'Petite Ourse, deck and cockpit',
        release: '2026-12-01T08:00:00+01:00',
        promised: '2026-12-18T12:00:00+01:00',
        weight: 1,
        parts: [
          part(
            'ourse-sole',
            'Cockpit sole',
            'bench-north',
            { areaM2: 3.4, edgeM: 11, jointM: 11, layers: epoxyPanel },
            job('ourse-sole', 'panels-bonded'),
          ),
          part(
            'ourse-companion',
            'Companionway slide',
            'spray-room',
            { areaM2: 2.6, layers: gelCoated },
            job('ourse-companion', 'gel-coat-build', [], {
              words: [{ step: 'colour', expected: '2026-12-03T12:00:00+01:00' }],
            }),
          ),
          part(
            'ourse-hatch',
            'Lazarette hatch',
            'spray-room',
            { areaM2: 1.4, edgeM: 5, layers: gelCoated },
            job('ourse-hatch', 'hatch-non-skid'),
          ),
          part(
            'ourse-deck',
            'Side deck',
            'shed',
            { areaM2: 2.2, edgeM: 6, layers: laminate },
            job('ourse-deck', 'delaminated-patch'),
          ),
        ],
      },
    ],
  },
];
