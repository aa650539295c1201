import type { Evidence } from '../evidence/evidence.ts';
import type { Milestone, TouchTest } from '../material/material.ts';
import { SOURCES } from './sources.ts';

const read = (source: string): Evidence => ({ trust: 'read', source });
const practice: Evidence = { trust: 'practice', source: 'common practice, no source' };

type Row = readonly [milestone: Milestone, words: string, evidence: Evidence];

const tests = (rows: readonly Row[]): readonly TouchTest[] =>
  rows.map(([milestone, words, evidence]) => ({ milestone, words, ...evidence }));

/** Sources seldom give hours for a window but do say how it is felt: shown beside each prediction. */
const COMMON: readonly Row[] = [
  ['pot-life', 'The cup begins to warm and thicken: use no more of it', read(SOURCES.exotherm)],
  ['open-time', 'The brush drags, or dry fibre no longer darkens when laid on it', practice],
  ['gel', 'It no longer flows, and a stick draws lumps out of it', read(SOURCES.exotherm)],
  ['tacky-closes', 'A strip of dry glass pressed on it falls off again', practice],
  ['dust-safe', 'Talc blown on it wipes off and leaves no mark', practice],
];

export const EPOXY_TESTS: readonly TouchTest[] = tests([
  ...COMMON,
  ['tacky-opens', 'A gloved finger sticks to it, but comes away clean', practice],
  ['bond-opens', 'A thumb leaves its print and nothing comes off', read(SOURCES.fairingManual)],
  ['bond-closes', 'A thumb leaves no print any more', read(SOURCES.fairingManual)],
  ['tack-free', 'A dry fingertip slides over it', practice],
  ['handle', 'A thumbnail makes no dent: clamps may come off', read(SOURCES.epoxyStages)],
  [
    'sandable',
    'A thumbnail makes no dent, and the paper makes dust and does not ball up',
    read(SOURCES.epoxyStages),
  ],
  [
    'cured',
    'A thumbnail pressed in hard makes no mark, some days after it could be sanded',
    practice,
  ],
]);

export const POLYESTER_TESTS: readonly TouchTest[] = tests([
  ...COMMON,
  [
    'tacky-opens',
    'A gloved finger sticks to it, but comes away clean',
    read(SOURCES.gelCoatApplication),
  ],
  [
    'bond-opens',
    'A gloved finger sticks to it, but comes away clean',
    read(SOURCES.gelCoatApplication),
  ],
  [
    'bond-closes',
    'A drop of resin rubbed on it no longer softens the surface',
    read(SOURCES.styreneRub),
  ],
  ['tack-free', 'A dry fingertip slides over it: with wax or under a sealing film only', practice],
  ['handle', 'A thumbnail makes no dent', practice],
  ['sandable', 'The paper makes dust and does not load', practice],
  [
    'cured',
    'A rag wet with acetone does not make it sticky; Barcol hardness as on the sheet',
    practice,
  ],
]);
