import type { Page } from 'playwright-core';

const mostTabs = 600;
const mostLanes = 100;
/** Pressed in a row before it is looked where that led: to ask after each takes longer than to press. */
const inARow = 8;

/**
 * Goes through the page by Tab until it comes round, and by arrows through the planks of a picture,
 * of which Tab stops at one. Says what was never reached, and where one did not see that one was.
 */
export async function walk(page: Page): Promise<string[]> {
  await page.evaluate(listen);
  await page.locator('body').press('Tab');
  for (let pressed = 1; pressed < mostTabs; pressed += 1) {
    if (pressed % 10 === 0 && (await page.evaluate<boolean>('walked.isRound()'))) break;
    await page.keyboard.press('Tab');
  }
  if (await page.evaluate<boolean>('walked.toPlanks()')) await throughPlanks(page);
  return page.evaluate<string[]>('walked.told()');
}

/** Lane by lane, from its first plank to its last. */
async function throughPlanks(page: Page): Promise<void> {
  const at = (): Promise<string> => page.evaluate<string>('walked.at()');
  /** As often as it leads on: past the last it stays where it is. */
  const press = async (key: string, most: number): Promise<void> => {
    let before = await at();
    for (let times = 0; times < most; times += inARow) {
      for (let k = 0; k < inARow; k += 1) await page.keyboard.press(key);
      const now = await at();
      if (now === before) return;
      before = now;
    }
  };
  await press('ArrowUp', mostLanes);
  for (let lane = 0; lane < mostLanes; lane += 1) {
    await page.keyboard.press('Home');
    await press('ArrowRight', mostTabs);
    const before = await at();
    await page.keyboard.press('ArrowDown');
    if ((await at()) === before) return;
  }
}

/** Runs in the page: notes what gets the focus, and whether one sees it. */
function listen(): void {
  const can =
    'a[href], button:not(:disabled), input:not(:disabled):not([type=hidden]), select:not(:disabled), textarea:not(:disabled), summary, [tabindex]:not([tabindex^="-"])';
  const reached = new Set<Element>();
  const unseen = new Set<string>();
  let first: Element | null = null;
  let isRound = false;
  const nameOf = (one: Element): string => {
    const words = one.getAttribute('aria-label') ?? one.textContent.trim();
    return `${one.tagName.toLowerCase()} “${words.replace(/\s+/g, ' ').slice(0, 50)}”`;
  };
  document.addEventListener('focusin', ({ target }) => {
    if (!(target instanceof Element) || target === document.body) return;
    if (target === first) isRound = true;
    first ??= target;
    reached.add(target);
    const { outlineStyle, outlineWidth } = getComputedStyle(target);
    const { width, height } = target.getBoundingClientRect();
    const hasOutline = outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
    if (!hasOutline || width < 2 || height < 2) unseen.add(nameOf(target));
  });
  const isShown = (one: Element): boolean =>
    one.checkVisibility({ visibilityProperty: true }) && one.closest('[inert]') === null;
  /** One of a group of radio buttons is enough: arrows move within. */
  const isReached = (one: Element): boolean => {
    if (reached.has(one)) return true;
    if (!(one instanceof HTMLInputElement) || one.type !== 'radio') return false;
    return [...reached].some(
      (other) => other instanceof HTMLInputElement && other.name === one.name,
    );
  };
  Object.assign(globalThis, {
    walked: {
      isRound: () => isRound,
      toPlanks: () => {
        const stop = document.querySelector<HTMLElement>('[data-lane] button[tabindex="0"]');
        stop?.focus();
        return stop !== null;
      },
      at: () => {
        const { activeElement: one } = document;
        const lane = one?.closest<HTMLElement>('[data-lane]')?.dataset['lane'] ?? '';
        return `${lane}/${one instanceof HTMLElement ? (one.dataset['task'] ?? '') : ''}`;
      },
      told: () => {
        const missed = [...document.querySelectorAll(can)].filter(
          (one) => isShown(one) && !isReached(one),
        );
        return [
          ...(reached.size === 0 ? ['nothing is reached'] : []),
          ...missed.map((one) => `not reached: ${nameOf(one)}`),
          ...[...unseen].map((one) => `not seen: ${one}`),
        ];
      },
    },
  });
}
