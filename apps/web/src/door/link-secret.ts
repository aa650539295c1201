import { signal } from '@preact/signals';

/**
 * The secret of a link stands after its #, which no server is sent. It is taken out of the address
 * at once, so that neither the history nor whoever looks at the screen has it.
 */
export const linkSecret = signal('');

function take(): void {
  const secret = location.hash.slice(1);
  // A jump within the page (to its content) is no link.
  if (secret === '' || document.getElementById(secret) !== null) return;
  linkSecret.value = secret;
  history.replaceState(history.state, '', location.pathname + location.search);
}

take();
// A second link that is opened in the same tab loads nothing.
addEventListener('hashchange', take);
