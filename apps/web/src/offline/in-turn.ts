let last: Promise<unknown> = Promise.resolve();

/**
 * Does it while no other page of this browser does its own. A page that came without https knows
 * nothing of the others: there it waits for its own only, and keys let the service do a thing once.
 */
export function inTurn<T>(name: string, act: () => Promise<T>): Promise<T> {
  // By its type it is always there.
  const { locks } = navigator as Partial<Pick<Navigator, 'locks'>>;
  if (locks !== undefined) return locks.request(name, act);
  const turn = last.then(act, act);
  last = turn;
  return turn;
}
