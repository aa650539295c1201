/**
 * A part of `items` that still fails together with `background`, with nothing in it that could
 * be left out as far as `fails` sees. `fails` may miss failures: the result then still fails,
 * but may be larger. Earlier items are preferred. QuickXplain: U. Junker, "QUICKXPLAIN: preferred
 * explanations and relaxations for over-constrained problems", AAAI 2004; O(k log(n / k))
 * questions for k items of n.
 */
export function shrink<T>(items: readonly T[], fails: (kept: readonly T[]) => boolean): T[] {
  const within = (background: readonly T[], added: boolean, rest: readonly T[]): T[] => {
    if (added && fails(background)) return [];
    if (rest.length <= 1) return [...rest];
    const half = Math.ceil(rest.length / 2);
    const first = rest.slice(0, half);
    const second = within([...background, ...first], true, rest.slice(half));
    const more = within([...background, ...second], second.length > 0, first);
    return [...more, ...second];
  };
  return items.length > 0 && fails([]) ? [] : within([], false, items);
}
