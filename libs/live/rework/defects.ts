import { z } from 'zod';
import type { Use } from '#cure/material/material.ts';

/** What can be wrong with a part. */
export const snagKinds = [
  'void',
  'delamination',
  'uncured',
  'amine-blush',
  'fish-eyes',
  'pinholes',
  'runs',
  'print-through',
  'out-of-fair',
  'cracks',
  'damage',
  'wrong-size',
  'misplaced',
] as const;
export const snagKindSchema = z.enum(snagKinds);
export type SnagKind = (typeof snagKinds)[number];

/**
 * How deep it goes. `film`: the film at fault comes off with all that lies on it. `skin`: it stays,
 * is keyed and laid once more on itself; what lies on it comes off. `face`: it stays, and only what
 * lies on it comes off. `work`: no film is at fault, the work is done again.
 */
type Depth = 'film' | 'skin' | 'face' | 'work';

interface Defect {
  readonly name: string;
  /** What the film that it lies in is for; null: any work, dry work too. */
  readonly uses: readonly Use[] | null;
  /** Only in films of epoxy. */
  readonly epoxyOnly: boolean;
  readonly depth: Depth;
  /** It has not set: scraped off before anything is ground. */
  readonly soft: boolean;
  /** How it shows. */
  readonly shows: string;
  readonly source: string;
}

const PRACTICE = 'common practice, no source';
const STRUCTURE: readonly Use[] = ['laminating', 'glue'];
const COATS: readonly Use[] = ['gel-coat', 'finish'];
const FACES: readonly Use[] = ['gel-coat', 'finish', 'fairing'];
const FILMS: readonly Use[] = ['laminating', 'glue', 'gel-coat', 'finish', 'fairing'];

const defect = (
  name: string,
  depth: Depth,
  uses: Defect['uses'],
  shows: string,
  more: Partial<Pick<Defect, 'epoxyOnly' | 'soft' | 'source'>> = {},
): Defect => ({
  name,
  uses,
  depth,
  shows,
  epoxyOnly: false,
  soft: false,
  source: PRACTICE,
  ...more,
});

/** Defects as a boatbuilder tells them apart, with where each may lie and how deep it has to be cut. */
export const defects: Readonly<Record<SnagKind, Defect>> = {
  void: defect(
    'Void or dry spot',
    'film',
    STRUCTURE,
    'it sounds hollow when tapped, or the glass shows white',
  ),
  delamination: defect(
    'Delamination',
    'film',
    FILMS,
    'it lifts, or sounds dull over an area when tapped',
    { source: `cut out and scarfed 12:1: Wright, Epoxyworks; the rest ${PRACTICE}` },
  ),
  uncured: defect(
    'Resin that has not set (wrong hardener, ratio or resin)',
    'film',
    FILMS,
    'it is soft or sticky long after its sheet says otherwise, in patches or all over',
    { soft: true },
  ),
  'amine-blush': defect(
    'Amine blush below a coat',
    'face',
    ['laminating', 'glue', 'fairing', 'finish'],
    'what lies on it peels, and below it is greasy or cloudy',
    {
      epoxyOnly: true,
      source: `washed off with water before anything is sanded: West System, Surface Preparations; the rest ${PRACTICE}`,
    },
  ),
  'fish-eyes': defect(
    'Fish eyes (contamination: wax, silicone, oil)',
    'film',
    FACES,
    'the coat has drawn back from spots when it was laid',
  ),
  pinholes: defect('Pinholes', 'skin', FILMS, 'small holes that the next coat bridges or opens'),
  runs: defect('Runs or sags', 'skin', COATS, 'the coat has slid on an upright face'),
  'print-through': defect(
    'Print-through',
    'skin',
    FACES,
    'the weave or a joint below shows in the finish',
  ),
  'out-of-fair': defect(
    'Out of fair',
    'skin',
    FACES,
    'a long batten rocks on a hump or leaves light in a hollow',
  ),
  cracks: defect('Cracks or crazing', 'film', FILMS, 'hair lines, alone or as a star'),
  damage: defect('Knock or scratch', 'film', FILMS, 'somebody or something hit it'),
  'wrong-size': defect(
    'Wrong size',
    'work',
    null,
    'it does not fit: too long, too short, out of square',
  ),
  misplaced: defect(
    'In the wrong place',
    'work',
    null,
    'it was fitted or bonded beside where it belongs',
  ),
};
