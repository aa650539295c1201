import type { When } from '#planning/decode/sheet.ts';

interface Opener {
  readonly windows: readonly { readonly toTask: string; readonly closes: When | null }[];
}

/** When the first of the windows shuts that a plan's tasks leave to one of them; null: nothing presses. */
export function closingOf(tasks: readonly Opener[], taskId: string): When | null {
  const closings = tasks.flatMap(({ windows }) =>
    windows.flatMap(({ toTask, closes }) => (toTask === taskId && closes !== null ? [closes] : [])),
  );
  return closings.reduce<When | null>(
    (first, one) => (first === null || Date.parse(one.at) < Date.parse(first.at) ? one : first),
    null,
  );
}
