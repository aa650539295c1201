import type { YardInput } from '#planning/yard/yard.ts';

type BoatInput = NonNullable<YardInput['boats']>[number];
type PartInput = NonNullable<NonNullable<BoatInput['refits']>[number]['parts']>[number];

interface Size {
  readonly areaM2: number;
  readonly edgeM?: number;
  readonly jointM?: number;
}

/** A part with its jobs; a job is `procedure`, or `[procedure, jobs it comes after]`. */
const part = (
  id: string,
  name: string,
  space: string,
  size: Size,
  jobs: Record<string, readonly [procedure: string, after: readonly string[]]>,
): PartInput => ({
  id,
  name,
  space,
  ...size,
  jobs: Object.entries(jobs).map(([key, [procedure, after]]) => ({
    id: key,
    procedure,
    after: [...after],
  })),
});

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
          part(
            'kornog-panel',
            'Main bulkhead panel',
            'bench-north',
            { areaM2: 5.4, edgeM: 10.5 },
            { 'kornog-panel': ['cored-panel', []] },
          ),
          part(
            'kornog-bulkhead',
            'Main bulkhead',
            'kornog-inside',
            { areaM2: 5.4, jointM: 9.5 },
            { 'kornog-bulkhead': ['bulkhead-tabbed', ['kornog-panel']] },
          ),
          part(
            'kornog-overhead',
            'Saloon overhead',
            'kornog-inside',
            { areaM2: 7.5 },
            { 'kornog-overhead': ['overhead-laminate', []] },
          ),
          part(
            'kornog-lockers',
            'Saloon lockers',
            'bench-south',
            { areaM2: 5, jointM: 14 },
            { 'kornog-lockers': ['panels-bonded', []] },
          ),
          part(
            'kornog-topside',
            'Topside at the chainplate',
            'shed',
            { areaM2: 2.6, edgeM: 6.4 },
            {
              'kornog-topside': ['delaminated-patch', []],
              'kornog-topside-fair': ['fair-and-sand', ['kornog-topside']],
            },
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
          part(
            'tangon-panel',
            'Half bulkhead panel',
            'bench-south',
            { areaM2: 2.8, edgeM: 7.2 },
            { 'tangon-panel': ['cored-panel', []] },
          ),
          part(
            'tangon-bulkhead',
            'Half bulkhead',
            'tangon-inside',
            { areaM2: 2.8, jointM: 6.8 },
            { 'tangon-bulkhead': ['bulkhead-tabbed', ['tangon-panel']] },
          ),
          part(
            'tangon-keel-stub',
            'Keel stub',
            'shed',
            { areaM2: 3.2, edgeM: 7 },
            {
              'tangon-keel-stub': ['delaminated-patch', []],
              'tangon-keel-fair': ['fair-and-sand', ['tangon-keel-stub']],
            },
          ),
          part(
            'tangon-hatch',
            'Fore hatch',
            'spray-room',
            { areaM2: 0.9, edgeM: 3.8 },
            { 'tangon-hatch': ['hatch-non-skid', []] },
          ),
          part(
            'tangon-rudder',
            'Rudder',
            'bench-north',
            { areaM2: 2.4 },
            { 'tangon-rudder': ['fair-and-sand', []] },
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
            { areaM2: 3.4, jointM: 11 },
            { 'ourse-sole': ['panels-bonded', []] },
          ),
          part(
            'ourse-companion',
            'Companionway slide',
            'spray-room',
            { areaM2: 2.6 },
            { 'ourse-companion': ['gel-coat-build', []] },
          ),
          part(
            'ourse-hatch',
            'Lazarette hatch',
            'spray-room',
            { areaM2: 1.4, edgeM: 5 },
            { 'ourse-hatch': ['hatch-non-skid', []] },
          ),
          part(
            'ourse-deck',
            'Side deck',
            'shed',
            { areaM2: 2.2, edgeM: 6 },
            { 'ourse-deck': ['delaminated-patch', []] },
          ),
        ],
      },
    ],
  },
];
