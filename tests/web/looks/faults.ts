import type { Page } from 'playwright-core';
import { axeFaults, shot, sidewaysScroll } from '../../support/browser.ts';
import { walk } from './keyboard.ts';
import { goTo, settled } from './settled.ts';

const themes = ['light', 'dark'] as const;

/** A page of the browser and the windows that it is looked at in. */
export interface Seat {
  readonly page: Page;
  readonly widths: readonly number[];
  /** At a desk, with a keyboard. */
  readonly hasKeys: boolean;
}

/** One page of the screens. */
export interface Look {
  /** Of the pictures. */
  readonly name: string;
  readonly path: string;
}

/**
 * Everything wrong with how a page looks and is gone through, at each seat and in both themes, a line
 * each. All rules of axe are asked once a width; in the other theme only colours can differ.
 */
export async function lookedAt(seats: readonly Seat[], look: Look): Promise<string[]> {
  const faults = await Promise.all(seats.map((seat) => fromSeat(seat, look)));
  return faults.flat();
}

async function fromSeat({ page, widths, hasKeys }: Seat, { name, path }: Look): Promise<string[]> {
  const faults: string[] = [];
  const say = (where: string, said: readonly string[]): void => {
    faults.push(...said.map((one) => `${name} ${where}: ${one}`));
  };
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: widths[0], height: heightOf(widths[0]) });
  await goTo(page, path);
  for (const width of widths) {
    if (width !== widths[0]) {
      await page.setViewportSize({ width, height: heightOf(width) });
      await settled(page);
    }
    for (const theme of themes) {
      await page.emulateMedia({ colorScheme: theme });
      await shot(page, name);
      const rules = theme === 'light' ? undefined : ['color-contrast'];
      say(`${String(width)} ${theme}`, await axeFaults(page, rules));
    }
    const sideways = await sidewaysScroll(page);
    if (sideways > 0) say(String(width), [`wider than the window by ${String(sideways)} px`]);
    say(String(width), await ofHeadings(page));
    if (width < 600) say(String(width), await smallTargets(page));
  }
  say('without motion', await moving(page));
  if (hasKeys) say('by keys', await walk(page));
  return faults;
}

const heightOf = (width: number): number => (width < 600 ? 780 : 900);

async function ofHeadings(page: Page): Promise<string[]> {
  const count = await page.locator('h1:visible').count();
  return count === 1 ? [] : [`${String(count)} headings of the first level`];
}

/** What moves by itself. */
export const moving = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    document
      .getAnimations()
      .filter(({ playState }) => playState === 'running')
      .map(({ effect }) => {
        const target = effect instanceof KeyframeEffect ? effect.target : null;
        return `${target?.tagName ?? 'something'} moves`;
      }),
  );

/** What a thumb cannot hit: lower than 44 px. Links within a sentence are as high as it is. */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const least = 44;
    const pressed = 'button, input:not([type=hidden]), select, textarea, summary, [role=button]';
    return [...document.querySelectorAll<HTMLElement>(pressed)].flatMap((one) => {
      // A tick is pressed by its words too.
      const box = one.closest('label') ?? one;
      const { height, width } = box.getBoundingClientRect();
      const isShown = one.checkVisibility({ visibilityProperty: true }) && width > 1;
      if (!isShown || height >= least - 0.5) return [];
      const words = (one.textContent || one.getAttribute('aria-label')) ?? '';
      return [`${one.tagName} “${words.trim().slice(0, 40)}” is ${height.toFixed(0)} px high`];
    });
  });
}
