import type { Browser, Page } from 'playwright-core';
import { z } from 'zod';
import { quantile, type Row } from '../bench.ts';
import { type FrameWork, frameWork } from './frames.ts';
import { barePage } from './bare-page.ts';
import { onScene } from './service.ts';
import { weekYard } from './week-yard.ts';

const look = { viewport: { width: 1440, height: 900 } };
const pace = 16;
const turns = 60;
const keys = ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowDown'];

/** Two ways, then two back. */
async function byWheel(page: Page): Promise<void> {
  for (const [x, y] of [
    [0, 90],
    [120, 0],
    [0, -90],
    [-120, 0],
  ]) {
    for (let turn = 0; turn < turns; turn += 1) {
      await page.mouse.wheel(x, y);
      await page.waitForTimeout(pace);
    }
  }
}

/** From one piece of work to the next, and from lane to lane. */
async function byKeys(page: Page): Promise<void> {
  for (let turn = 0; turn < turns; turn += 1) {
    for (const key of keys) {
      await page.keyboard.press(key);
      await page.waitForTimeout(pace);
    }
  }
}

interface Moved {
  readonly wheel: FrameWork;
  readonly keys: FrameWork;
}

/** The browser tidies up when it likes: of three passes the middle one, with the worst of all. */
const passes = 3;

async function middleOf(pass: () => Promise<FrameWork>): Promise<FrameWork> {
  const all: FrameWork[] = [];
  for (let k = 0; k < passes; k += 1) all.push(await pass());
  return {
    ...all.toSorted((a, b) => a.p95 - b.p95)[Math.floor(passes / 2)],
    worst: Math.max(...all.map(({ worst }) => worst)),
    between: Math.max(...all.map(({ between }) => between)),
  };
}

/** With the mouse over the middle of what scrolls. What a pass begins with is no part of it. */
async function moved(
  browser: Browser,
  page: Page,
  scrolling: string,
  first: string,
): Promise<Moved> {
  const box = await page.locator(scrolling).boundingBox();
  if (box === null) throw new Error(`${scrolling} is not shown`);
  await page.mouse.move(box.x + box.width / 2, Math.min(800, box.y + 300));
  // Once without looking: what is compiled at its first use is compiled.
  await byWheel(page);
  return {
    wheel: await middleOf(() => frameWork(browser, page, () => byWheel(page))),
    keys: await middleOf(async () => {
      await page.locator(first).first().focus();
      await page.waitForTimeout(restMs);
      return frameWork(browser, page, () => byKeys(page));
    }),
  };
}

const restMs = 300;
const plank = 'button[data-task]';
const picture = `[role="region"]:has(${plank})`;
const pictureSchema = z.object({ tasks: z.array(z.unknown()) });

/** Moves through a week of more than 800 tasks, and through a bare page of as many blocks. */
export function throughTheWeek(): Promise<Row> {
  const yard = weekYard();
  return onScene(yard, ['ines'], async ({ browser, open }) => {
    const page = await open('ines', look);
    const answer = page.waitForResponse((one) => /\/picture(\?|$)/.test(one.url()));
    await page.goto(`/yards/${yard.id}/week`);
    const { tasks } = pictureSchema.parse(await (await answer).json());
    await page.locator(plank).first().waitFor();
    await page.waitForLoadState('networkidle');
    const ours = await moved(browser, page, picture, plank);
    const all = [...ours.wheel.work, ...ours.keys.work];
    await page.close();
    const bare = await open('ines', look);
    await bare.setContent(barePage(tasks.length));
    const theirs = await moved(browser, bare, picture, plank);
    return {
      tasks: tasks.length,
      frames: all.length,
      allP95Ms: quantile(all, 0.95),
      wheelMs: ours.wheel.median,
      wheelP95Ms: ours.wheel.p95,
      keysMs: ours.keys.median,
      keysP95Ms: ours.keys.p95,
      worstMs: Math.max(ours.wheel.worst, ours.keys.worst),
      betweenMs: Math.max(ours.wheel.between, ours.keys.between),
      bareWheelP95Ms: theirs.wheel.p95,
      bareKeysP95Ms: theirs.keys.p95,
    };
  });
}
