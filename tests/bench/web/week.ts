import type { Browser, Page } from 'playwright-core';
import { z } from 'zod';
import type { Row } from '../bench.ts';
import { type FrameWork, frameWork } from './frames.ts';
import { barePage } from './bare-page.ts';
import { onScene } from './service.ts';
import { weekYard } from './week-yard.ts';

const look = { viewport: { width: 1440, height: 900 } };
const pace = 16;
const turns = 60;
const keys = ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowDown'];

/** Two ways, then two back: a wheel over the middle of what scrolls. */
async function byWheel(page: Page, scrolling: string): Promise<void> {
  const box = await page.locator(scrolling).boundingBox();
  if (box === null) throw new Error(`${scrolling} is not shown`);
  await page.mouse.move(box.x + box.width / 2, Math.min(800, box.y + 300));
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
async function byKeys(page: Page, first: string): Promise<void> {
  await page.locator(first).first().focus();
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

async function moved(
  browser: Browser,
  page: Page,
  scrolling: string,
  first: string,
): Promise<Moved> {
  // Once without looking: what is compiled at its first use is compiled.
  await byWheel(page, scrolling);
  return {
    wheel: await frameWork(browser, page, () => byWheel(page, scrolling)),
    keys: await frameWork(browser, page, () => byKeys(page, first)),
  };
}

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
    await page.close();
    const bare = await open('ines', look);
    await bare.setContent(barePage(tasks.length));
    const theirs = await moved(browser, bare, picture, plank);
    return {
      tasks: tasks.length,
      frames: ours.wheel.frames + ours.keys.frames,
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
