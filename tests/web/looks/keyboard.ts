import type { Page } from 'playwright-core';

interface Walk {
  /** What can be pressed or filled in, and was never reached. */
  readonly missed: readonly string[];
  /** What was reached and does not show it. */
  readonly unseen: readonly string[];
  readonly reached: number;
}

const most = 600;

/** Goes through the page by Tab until it comes round. */
export async function walk(page: Page): Promise<Walk> {
  await page.evaluate(listen);
  await page.locator('body').press('Tab');
  for (let pressed = 1; pressed < most; pressed += 1) {
    if (pressed % 10 === 0 && (await page.evaluate<boolean>('globalThis.walked.isRound()'))) break;
    await page.keyboard.press('Tab');
  }
  return page.evaluate<Walk>('globalThis.walked.told()');
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
      told: () => ({
        missed: [...document.querySelectorAll(can)]
          .filter((one) => isShown(one) && !isReached(one))
          .map(nameOf),
        unseen: [...unseen],
        reached: reached.size,
      }),
    },
  });
}
