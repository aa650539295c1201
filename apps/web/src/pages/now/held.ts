import type { Schema } from '../../api/client.ts';

type Claim = Schema<'Claim'>;

const heldStates: ReadonlySet<Claim['status']> = new Set(['open', 'working', 'paused']);

/** Whether a claim keeps its task from others. */
export const isHeld = ({ status }: Pick<Claim, 'status'>): boolean => heldStates.has(status);
