/**
 * What makes the screens last: the service worker, and that an open page finds its way to a new
 * version. Nothing of anybody's is kept here.
 */

/** Trusted Types, where a browser has them: only this address becomes a script. */
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ): { createScriptURL(address: string): string };
}

const address = '/sw.js';
const lookAgainMs = 60 * 60 * 1000;
const triedKey = 'read-anew-at';
/** A file that is missing after reading the page anew is missing for good. */
const tryAgainMs = 10_000;

let isOld = false;

export function keepShell(): void {
  addEventListener('vite:preloadError', readAnew);
  addEventListener('click', leaveOldPage, { capture: true });
  if (!('serviceWorker' in navigator)) return;
  const start = (): void => {
    // Without it the page works, as long as there is a network; browsers that keep nothing refuse it.
    register().catch(() => undefined);
  };
  if (document.readyState === 'complete') start();
  else addEventListener('load', start, { once: true });
}

async function register(): Promise<void> {
  const worker = navigator.serviceWorker;
  let hadOne = worker.controller !== null;
  const registration = await worker.register(scriptAddress(), { updateViaCache: 'none' });
  worker.addEventListener('controllerchange', () => {
    isOld ||= hadOne;
    hadOne = true;
  });
  let looked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - looked < lookAgainMs) return;
    looked = Date.now();
    // Out of reach: the next time.
    registration.update().catch(() => undefined);
  });
}

function scriptAddress(): string {
  const types = Reflect.get(globalThis, 'trustedTypes') as TrustedTypes | undefined;
  const policy = types?.createPolicy('service-worker', {
    createScriptURL: (asked) => {
      if (asked !== address) throw new TypeError(`${asked} is not the service worker`);
      return asked;
    },
  });
  return policy?.createScriptURL(address) ?? address;
}

/** A part of this page's version is gone from the service: the page is read anew, as it is now. */
function readAnew(event: Event): void {
  const last = Number(sessionStorage.getItem(triedKey));
  if (Date.now() - last < tryAgainMs) return;
  event.preventDefault();
  sessionStorage.setItem(triedKey, String(Date.now()));
  location.reload();
}

/** There is a new version: the next way to another page is a real one, and leads into it. */
function leaveOldPage(event: MouseEvent): void {
  if (!isOld || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
  const link = event.target instanceof Element ? event.target.closest('a[href]') : null;
  if (!(link instanceof HTMLAnchorElement) || link.target !== '' || link.download !== '') return;
  if (link.origin !== location.origin || link.pathname === location.pathname) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  location.assign(link.href);
}
