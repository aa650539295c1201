import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { z } from 'zod';
import { demoYard } from '#seeds/demo-yard.ts';
import { readYard } from '#planning/yard/read.ts';
import { inComingWeeks } from '../../../apps/launch/start/coming-weeks.ts';
import { quantile, type Row } from '../bench.ts';
import { onScene, type Scene } from './service.ts';

const rounds = 7;
/** Nothing larger is painted later than this after the last answer. */
const restMs = 1_000;

interface Paper {
  readonly who: string;
  readonly path: string;
  readonly look: { readonly viewport: { readonly width: number; readonly height: number } };
}

const phone = { viewport: { width: 360, height: 780 }, isMobile: true, hasTouch: true };
const desk = { viewport: { width: 1440, height: 900 } };
/** The page of each person, as they open it in the morning. */
const papers: Readonly<Record<'builder' | 'foreman' | 'owner', Paper>> = {
  builder: { who: 'tugdual', path: 'now', look: phone },
  foreman: { who: 'maelle', path: 'week', look: desk },
  owner: { who: 'odile', path: 'my-boat', look: phone },
};

const loadSchema = z.object({
  // None at all would be a page that shows nothing.
  largestMs: z.number().positive(),
  /** Addresses. */
  scripts: z.array(z.string()),
});
type Load = z.output<typeof loadSchema>;

/** Runs in the page before anything of it does. */
const listen = `
  globalThis.largest = null;
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) globalThis.largest = one.startTime;
  }).observe({ type: 'largest-contentful-paint', buffered: true });
`;
const told = `({
  largestMs: globalThis.largest,
  scripts: performance.getEntriesByType('resource')
    .filter(({ name }) => name.endsWith('.js'))
    .map(({ name }) => new URL(name).pathname),
})`;

async function load({ open }: Scene, yardId: string, { who, path, look }: Paper): Promise<Load> {
  const page: Page = await open(who, look);
  await page.addInitScript(listen);
  await page.goto(`/yards/${yardId}/${path}`);
  await page.locator('h1').first().waitFor();
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(restMs);
  const found = loadSchema.parse(await page.evaluate(told));
  await page.context().close();
  return found;
}

const dist = '../../../apps/web/dist';

/**
 * As they are sent, in the form that browsers take. Not as the browser counts: what the service
 * worker hands over, it counts unpacked.
 */
async function weightOf(scripts: Iterable<string>): Promise<number> {
  let bytes = 0;
  for (const path of scripts) {
    const file = fileURLToPath(new URL(`${dist}${path}`, import.meta.url));
    // What is small is sent as it is.
    const sent = existsSync(`${file}.br`) ? `${file}.br` : file;
    bytes += (await stat(sent)).size;
  }
  return bytes / 1024;
}

/** Of the first visit ever, with nothing kept: what scripts weigh, and when the largest paint came. */
export function firstLoad(): Promise<Row> {
  const yard = inComingWeeks(readYard(demoYard, 'the demo yard'), new Date());
  const members = Object.values(papers).map(({ who }) => who);
  return onScene(yard, members, async (scene) => {
    const row: Record<string, number> = {};
    for (const [name, paper] of Object.entries(papers)) {
      const loads: Load[] = [];
      for (let round = 0; round < rounds; round += 1) {
        loads.push(await load(scene, yard.id, paper));
      }
      row[`${name}Kb`] = await weightOf(new Set(loads.flatMap(({ scripts }) => scripts)));
      row[`${name}Ms`] = quantile(
        loads.map(({ largestMs }) => largestMs),
        0.5,
      );
      row[`${name}WorstMs`] = Math.max(...loads.map(({ largestMs }) => largestMs));
    }
    row['workerKb'] = await weightOf(['/sw.js']);
    return row;
  });
}
