import { beforeAll, describe, expect, test } from 'vitest';
import { demoYard } from '#seeds/demo-yard.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { makeYard } from '../support/plan-runs.ts';
import { publishPlan } from '../support/published-plan.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

const { api, database, tokens } = smallYardApi();
const screens = testScreens(api);
let planId = '';

beforeAll(async () => {
  await publishPlan(database, 'small');
  const published = await database.owner.publishedPlan.findUniqueOrThrow({
    where: { yardId: 'small' },
  });
  planId = published.planId;
});

const address = (week: string): string => `/yards/small/plans/${planId}/sheet?from=${week}`;

/** Pages of a PDF that the browser printed. */
const pagesOf = (pdf: Buffer): number =>
  (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

describe('the week on paper', () => {
  test('has a page for the builder: mixing, windows, cautions, room to tick', async () => {
    const page = await screens.signedIn(people.foreman);
    await page.goto(address('2026-11-30'));
    const paper = page.getByRole('article');
    await paper.getByRole('heading', { level: 2, name: 'Bram' }).waitFor();
    expect(await paper.count()).toBe(1);
    const words = await paper.innerText();
    expect(words).toContain('Monday, 30 November 2026');
    expect(words).toMatch(/Fore hatch, Petrel/);
    expect(words).toMatch(/not before/);
    expect(words).toContain('Bench bay (wet)');
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, 'sheet');
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
    await shot(page, 'sheet-print');
  });

  test('prints on A4 and on Letter, a page each', async () => {
    const page = await screens.signedIn(people.foreman);
    await page.goto(address('2026-11-30'));
    await page.getByRole('article').waitFor();
    for (const format of ['A4', 'Letter']) {
      expect([format, pagesOf(await page.pdf({ format }))]).toEqual([format, 1]);
    }
  });

  test('of a full week is two pages a builder at most, no word of it cut off', async () => {
    await makeYard(api, demoYard, tokens.foreman);
    await publishPlan(database, demoYard.id);
    const { planId: demo } = await database.owner.publishedPlan.findUniqueOrThrow({
      where: { yardId: demoYard.id },
    });
    const page = await screens.signedIn(people.foreman);
    await page.goto(`/yards/${demoYard.id}/plans/${demo}/sheet?from=2026-11-30`);
    const papers = page.getByRole('article');
    await papers.first().waitFor();
    const names = await papers.getByRole('heading', { level: 2 }).allInnerTexts();
    expect(names.length).toBeGreaterThan(2);
    const counts = new Map<string, number>();
    for (const name of names) {
      await page.getByLabel('For whom').selectOption({ label: name });
      await expect.poll(() => papers.count()).toBe(1);
      counts.set(name, pagesOf(await page.pdf({ format: 'A4' })));
    }
    await page.emulateMedia({ media: 'print' });
    // As wide as the paper between its margins.
    await page.setViewportSize({ width: 718, height: 1000 });
    await shot(page, 'sheet-demo-print');
    expect(await sidewaysScroll(page)).toBe(0);
    expect([...counts].filter(([, count]) => count < 1 || count > 2)).toEqual([]);
  });

  test('goes from week to week, and says where there is no work', async () => {
    const page = await screens.signedIn(people.foreman, { width: 360, theme: 'dark' });
    await page.goto(address('2026-11-30'));
    await page.getByRole('article').waitFor();
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, 'sheet');
    await page.getByRole('link', { name: 'Week before' }).click();
    await page.getByText('Nobody has work in this week').waitFor();
    expect(new URL(page.url()).searchParams.get('from')).toBe('2026-11-23');
  });
});
