import type { Page } from 'playwright-core';
import { axeFaults, shot, sidewaysScroll } from '../../support/browser.ts';
import { goTo, settled } from './settled.ts';

const themes = ['light', 'dark'] as const;

/** A page and the windows that it is looked at in. */
export interface Sheet {
  readonly page: Page;
  readonly widths: readonly number[];
}

/** One page of the screens. */
export interface Look {
  /** Of the pictures. */
  readonly name: string;
  readonly path: string;
}

/**
 * Everything wrong with how a page looks, at each width and in both themes, a line each. All rules
 * of axe are asked once a width; in the other theme only colours can differ.
 */
export async function lookedAt(sheets: readonly Sheet[], look: Look): Promise<string[]> {
  const faults = await Promise.all(sheets.map((sheet) => onSheet(sheet, look)));
  return faults.flat();
}

async function onSheet({ page, widths }: Sheet, { name, path }: Look): Promise<string[]> {
  const faults: string[] = [];
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: widths[0], height: heightOf(widths[0]) });
  await goTo(page, path);
  for (const width of widths) {
    await page.setViewportSize({ width, height: heightOf(width) });
    await settled(page);
    const say = (theme: string, said: readonly string[]): void => {
      faults.push(...said.map((one) => `${name} ${width} ${theme}: ${one}`));
    };
    for (const theme of themes) {
      await page.emulateMedia({ colorScheme: theme });
      await shot(page, name);
      say(theme, await axeFaults(page, theme === 'light' ? undefined : ['color-contrast']));
    }
    const sideways = await sidewaysScroll(page);
    if (sideways > 0) say('both', [`wider than the window by ${sideways} px`]);
    say('both', await ofHeadings(page));
    if (width < 600) say('both', await smallTargets(page));
  }
  return faults;
}

const heightOf = (width: number): number => (width < 600 ? 780 : 900);

async function ofHeadings(page: Page): Promise<string[]> {
  const count = await page.locator('h1:visible').count();
  return count === 1 ? [] : [`${count} headings of the first level`];
}

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
