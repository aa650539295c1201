import { elapsed } from '../decode/explain/easing.ts';
import { becoming } from '../decode/reading/film.ts';
import type { Link, Moment } from '../yard/procedures.ts';

function opensWords(opens: Moment, earlier: string): string {
  if (opens.kind === 'milestone')
    return `when the film of ${earlier} is ${becoming[opens.milestone]}`;
  return opens.minutes === 0
    ? `after ${earlier}`
    : `${elapsed(opens.minutes)} after ${earlier}, or later`;
}

/** `of` is what the opening spoke of, where it did: the same need not be named twice. */
function closesWords(closes: Moment, earlier: string, of: Moment['kind'] | undefined): string {
  if (closes.kind === 'milestone') {
    const film = of === 'milestone' ? 'it' : `the film of ${earlier}`;
    return `before ${film} is ${becoming[closes.milestone]}`;
  }
  return `no more than ${elapsed(closes.minutes)} after ${of === 'after' ? 'it' : earlier}`;
}

/**
 * When the later step of a link may be done, in words: `when the film of “Coat one” is ready to
 * bond, before it is past its bond window`. `earlier` is the name of the earlier step.
 */
export function linkWords(
  { opens, closes, sweep }: Pick<Link, 'opens' | 'closes' | 'sweep'>,
  earlier: string,
): string {
  const named = `“${earlier}”`;
  return [
    opens === null ? '' : opensWords(opens, named),
    closes === null ? '' : closesWords(closes, named, opens?.kind),
    sweep === 'same' ? 'going over the surface in the same order' : '',
  ]
    .filter((words) => words !== '')
    .join(', ');
}
