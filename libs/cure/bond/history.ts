import { DomainError } from '#kernel/error.ts';

import type { Done, PreparationKind, Stage, Substrate, Surface } from './bond.ts';

/** A layer of a part. */
export interface LaidLayer {
  readonly substrate: Substrate;
  readonly kind: Surface['kind'];
  readonly waxed: boolean;
  /** An amine film may form on it. */
  readonly blushes: boolean;
  /** Minute; null: long ago. */
  readonly laidAt: number | null;
  /** How thick; null: not known, and then it is never taken for sanded through. */
  readonly mm: number | null;
  /** How far it has come now. */
  readonly stage: Stage;
}

/** Something done to what was exposed then. */
export interface SurfaceEvent {
  readonly at: number;
  readonly kind: PreparationKind;
  /** Of abrading. */
  readonly grit: number | null;
  /** How much abrading took off, millimetres; 0 of everything else. */
  readonly mm: number;
}

/** What became of a part up to minute `now`. */
export interface LayerHistory<L extends LaidLayer = LaidLayer> {
  readonly now: number;
  /** The outermost last: those of long ago, then by time. */
  readonly layers: readonly L[];
  readonly events: readonly SurfaceEvent[];
}

/** As `Done`, with the minute at which it was done. */
type Past = Omit<Done, 'minutesAgo'> & { readonly at: number };

interface Exposed<L extends LaidLayer = LaidLayer> {
  readonly layer: L;
  left: number;
  kind: Surface['kind'];
  waxed: boolean;
  blush: boolean;
  done: readonly Past[];
}

const laid = <L extends LaidLayer>(layer: L): Exposed<L> => ({
  layer,
  left: layer.mm ?? Infinity,
  kind: layer.kind,
  waxed: layer.waxed,
  blush: layer.blushes,
  done: [],
});

/** Millimetres that rounding may leave of a layer sanded through. */
const NOTHING = 1e-9;

/**
 * Sands the stack down; what comes up from below is cut, and has no skin of wax or amine. What
 * was washed or dewaxed before it was cut had nothing on it to be driven in.
 */
function abrade(stack: Exposed[], mm: number): void {
  let depth = mm;
  for (;;) {
    const top = stack[stack.length - 1];
    if (depth > 0 && (top.kind === 'inhibited' || top.kind === 'sealed')) top.kind = 'bare';
    if (top.left - depth > NOTHING || stack.length === 1) {
      top.left -= depth;
      return;
    }
    depth -= top.left;
    stack.pop();
    const below = stack[stack.length - 1];
    const done = top.done.filter(({ kind }) => kind === 'wash' || kind === 'dewax');
    Object.assign(below, { kind: 'bare', waxed: false, blush: false, done });
  }
}

function happen(stack: Exposed[], event: SurfaceEvent): void {
  if (event.kind === 'abrade') abrade(stack, event.mm);
  const top = stack[stack.length - 1];
  if (event.kind === 'wash') top.blush = false;
  if (event.kind === 'dewax') top.waxed = false;
  // Whatever was on the film comes off with the fabric.
  if (event.kind === 'peel') Object.assign(top, { kind: 'peel-ply', waxed: false, blush: false });
  top.done = [...top.done, { kind: event.kind, grit: event.grit, at: event.at }];
}

/**
 * The surface that is exposed now. Events concern what was the outermost layer then; one at the
 * minute at which a layer is laid came before it. Abrading as deep as a layer is thick exposes
 * what is below it. Throws `input.field` without a layer, for layers out of order, and for
 * anything later than `now`.
 */
export const exposed = (history: LayerHistory): Surface => exposedLayer(history).surface;

/** As `exposed`, with the layer that it is of. */
export function exposedLayer<L extends LaidLayer>({
  now,
  layers,
  events,
}: LayerHistory<L>): { readonly surface: Surface; readonly layer: L } {
  const times = layers.map(({ laidAt }) => laidAt ?? -Infinity);
  const ordered = times.every((at, k) => k === 0 || times[k - 1] <= at);
  if (layers.length === 0 || !ordered) {
    throw new DomainError(
      'input.field',
      'The layers of a part are not in the order they were laid',
      {
        cure: 'List at least one layer, those of long ago first, then by time.',
      },
    );
  }
  const late = [...times, ...events.map(({ at }) => at)].find((at) => at > now);
  if (late !== undefined) {
    throw new DomainError('input.field', `Something of minute ${late} has not happened at ${now}`);
  }
  const stack: Exposed<L>[] = [laid(layers[0])];
  const pending = [...events].sort((a, b) => a.at - b.at);
  for (const layer of layers.slice(1)) {
    const at = layer.laidAt ?? -Infinity;
    while (pending.length > 0 && pending[0].at <= at) {
      const event = pending.shift();
      if (event !== undefined) happen(stack, event);
    }
    stack.push(laid(layer));
  }
  for (const event of pending) happen(stack, event);
  const top = stack[stack.length - 1];
  const { layer, kind, waxed, blush, done } = top;
  const surface: Surface = {
    substrate: layer.substrate,
    kind,
    stage: layer.stage,
    waxed,
    blush,
    done: done.map(({ at, ...one }) => ({ ...one, minutesAgo: now - at })),
    ageMinutes: layer.laidAt === null ? null : now - layer.laidAt,
  };
  return { surface, layer };
}
