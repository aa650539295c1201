import { CLOSING } from '#cure/caution/caution-list.ts';
import { spanInWords } from '../reading/moments.ts';
import type { MixSheet, SheetCup, SheetTask } from '../sheet.ts';

/** Cautions by their text, numbered in the order in which they are met; the closing one is last. */
export function numbered(tasks: readonly SheetTask[]): ReadonlyMap<string, number> {
  const texts = new Set(tasks.flatMap(({ cautions }) => cautions.map(({ text }) => text)));
  if (texts.delete(CLOSING.text)) texts.add(CLOSING.text);
  return new Map([...texts].map((text, k) => [text, k + 1]));
}

/** `mind cautions 1, 4, 16`; nothing of work without a hazard. */
export function mindWords(
  { cautions }: Pick<SheetTask, 'cautions'>,
  numbers: ReadonlyMap<string, number>,
): string {
  const minds = cautions.flatMap(({ text }) => numbers.get(text) ?? []).sort((a, b) => a - b);
  return minds.length === 0 ? '' : `mind cautions ${minds.join(', ')}`;
}

/** A tenth, or a hundredth of what is less than one. */
const grams = (value: number): string => value.toFixed(value > 0 && value < 1 ? 2 : 1);
const clock = ({ mixAt, spreadBy, potLifeEnds }: SheetCup): string[] =>
  [mixAt, spreadBy, potLifeEnds].map(({ local }) => local.slice(11));

/** One row for each cup, under heads; columns as wide as what stands in them. */
function cupTable(cups: readonly SheetCup[]): string[] {
  const heads = ['cup', 'resin g', 'hardener g', 'ml', 'mix at', 'spread by', 'gels'];
  const rows = cups.map((cup) => [
    String(cup.number),
    grams(cup.resinGrams),
    grams(cup.hardenerGrams),
    cup.hardenerMl === null ? '-' : grams(cup.hardenerMl),
    ...clock(cup),
  ]);
  const widths = heads.map((head, k) => Math.max(head.length, ...rows.map((row) => row[k].length)));
  return [heads, ...rows].map(
    (row) => `      ${row.map((cell, k) => cell.padStart(widths[k])).join('  ')}`,
  );
}

function totalWords({ resinGrams, hardenerGrams, hardenerMl, hardenerDensity }: MixSheet): string {
  if (resinGrams === null || hardenerGrams === null) return '';
  const volume =
    hardenerMl === null || hardenerDensity === null
      ? ''
      : ` (${grams(hardenerMl)} ml at ${String(hardenerDensity)} kg/l)`;
  return `in all: resin ${grams(resinGrams)} g, hardener ${grams(hardenerGrams)} g${volume}`;
}

function clockWords({ potLifeMinutes, useWithinMinutes }: MixSheet): string {
  if (potLifeMinutes === null || useWithinMinutes === null) return '';
  return `; gels in the cup after ${String(potLifeMinutes)} min, to be spread within ${String(useWithinMinutes)}`;
}

/** Above what a coat's surface still lacks when the work is done as planned. */
const UNPLANNED = 'NOT IN THE PLAN, and to be done first';

function bondLines({ bond }: SheetTask): string[] {
  if (bond === null) return [];
  const first = bond.preparation.map((step, k) => `      ${String(k + 1)}. ${step}`);
  return [
    `    ${bond.bond} bond to ${bond.surface}: ${bond.reason} [${bond.source}]`,
    ...(first.length === 0 ? [] : [`    ${UNPLANNED}, in this order:`, ...first]),
  ];
}

/** The mix sheet of a task: what to cut and weigh, in which cups, by when, on what. */
export function mixLines(
  task: SheetTask,
  numbers: ReadonlyMap<string, number>,
  timeZone: string,
): string[] {
  const { mix, warnings, crew } = task;
  if (mix === null) return [];
  const who = crew.map(({ name }) => name).join(', ');
  const fabrics = mix.fabrics.map(
    ({ name, squareMetres, grams: weight }) =>
      `    cut ${name}: ${squareMetres.toFixed(2)} m² (${weight.toFixed(0)} g)`,
  );
  const total = totalWords(mix);
  const minds = mindWords(task, numbers);
  return [
    `  ${task.name}, ${task.part} of ${task.boat}, ${task.space}, ${spanInWords(task.start, task.finish, timeZone)}${who === '' ? '' : `, ${who}`}`,
    `    ${mix.material} at ${String(mix.celsius)} °C${mix.ratio === null ? '' : `, hardener ${mix.ratio}`}${clockWords(mix)}`,
    ...mix.steps.map((step) => `    ${step}`),
    ...fabrics,
    ...(mix.cups.length === 0 ? [] : cupTable(mix.cups)),
    ...(total === '' ? [] : [`    ${total}`]),
    ...bondLines(task),
    ...warnings.map((warning) => `    LOOK FIRST: ${warning}`),
    ...mix.missing.map((line) => `    NOT GIVEN: ${line}`),
    ...(minds === '' ? [] : [`    ${minds}`]),
  ];
}

const FEW = 3;

/** The first of some names, and how many more there are. */
function named(all: readonly string[]): string {
  const names = [...new Set(all)];
  const more = names.length - FEW;
  return more <= 0
    ? names.join('; ')
    : `${names.slice(0, FEW).join('; ')}; and ${String(more)} more`;
}

/** All cautions of the tasks, with their sources and the work that they are about. */
export function cautionLines(
  tasks: readonly SheetTask[],
  numbers: ReadonlyMap<string, number>,
): string[] {
  const sources = new Map(
    tasks.flatMap(({ cautions }) => cautions.map(({ text, source }) => [text, source])),
  );
  return [...numbers].map(([text, number]) => {
    const work = tasks
      .filter(({ cautions }) => cautions.some((one) => one.text === text))
      .map(({ name }) => name);
    return `  ${String(number)}. ${text} [${sources.get(text) ?? ''}] (${named(work)})`;
  });
}
