/** Does the work on all items, so many at a time; the results in the items' order. */
export async function inTurns<T, R>(
  items: readonly T[],
  atOnce: number,
  work: (item: T, index: number) => Promise<R>,
): Promise<R[]> {
  const results: R[] = [];
  let next = 0;
  const lane = async (): Promise<void> => {
    for (let index = next++; index < items.length; index = next++) {
      results[index] = await work(items[index], index);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, lane));
  return results;
}
